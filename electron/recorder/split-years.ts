/**
 * The open archive as one file for each year. They are made from a copy of it in a thread of its own, so that everything
 * else goes on and all parts are of one moment; while a pull is recorded that thread waits.
 */
import { statfsSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { ArchiveRefusal } from '../../core/archive/archive-fault.ts';
import { discardPart } from '../../core/archive/discard-part.ts';
import { discardLeftParts, partNameOf } from '../../core/archive/left-parts.ts';
import { refuseTakenPlaces, splitCopy } from '../../core/archive/split-archive.ts';
import type { WrittenParts } from '../../core/contract/exchange-requests.ts';
import { SPLIT_MS_MAX } from '../../core/limits.ts';
import { answerOfThread } from './answer-of-thread.ts';
import { type WorkWatch, stoppedRefusal } from './long-work.ts';
import type { Recorder } from './recorder.ts';
import { HELD_UP, STOP, splitControl } from './split-control.ts';
import type { SplitAnswer, SplitProgress } from './split-thread.ts';
import { takeBackup } from './take-backup.ts';
import { errorOf } from './thread-trouble.ts';

/** Between two looks at whether a pull is recorded. */
const LOOK_MS = 250;
const MEBIBYTE = 1_048_576;

const splitting = new WeakSet<Recorder>();

/** Rejects with an ArchiveRefusal where it can't be begun or was stopped, an ArchiveFault where it failed; no file is left then. */
export async function splitYears(
  recorder: Recorder,
  folder: string,
  watch: WorkWatch,
): Promise<WrittenParts> {
  if (splitting.has(recorder))
    throw new ArchiveRefusal(
      'split-under-way',
      'The archive is being split already; stop that, or wait for it. Nothing more was begun.',
    );
  splitting.add(recorder);
  try {
    return await splitInto(recorder, folder, watch);
  } finally {
    splitting.delete(recorder);
  }
}

async function splitInto(
  recorder: Recorder,
  folder: string,
  { signal, tell }: WorkWatch,
): Promise<WrittenParts> {
  const into = resolve(folder);
  const { path: archivePath } = recorder.archive;
  const plan = await recorder.archive.call('planSplit');
  if (plan.parts.length === 0)
    throw new ArchiveRefusal(
      'nothing-to-split',
      'The archive has no ended pull yet, so there is nothing to split.',
      'folder',
    );
  refuseTakenPlaces(
    into,
    archivePath,
    plan.parts.map(({ year }) => year),
  );
  // Before it is asked how much room there is: they are as large as what is to be written.
  discardLeftParts(into, archivePath);
  refuseWithoutRoom(into, plan.neededBytes);
  const copy = splitCopy(into, archivePath);
  try {
    await takeBackup(recorder.archive, copy, { signal, tell });
    const written = await partsOf(recorder, { copy, archivePath, folder: into }, { signal, tell });
    return { folderName: basename(into), ...written };
  } catch (error) {
    // What stopped is told of the split, not of the copy that it begins with.
    throw error instanceof ArchiveRefusal && error.code === 'stopped' ? stoppedRefusal('split') : error;
  } finally {
    // A thread that came to grief takes nothing away behind itself.
    const unfinished = plan.parts.map(({ name }) => partNameOf(join(into, name)));
    for (const file of [copy, ...unfinished])
      discardPart(...['', '-wal', '-journal', '-shm'].map((suffix) => file + suffix));
  }
}

interface Places {
  readonly copy: string;
  readonly archivePath: string;
  readonly folder: string;
}

async function partsOf(
  recorder: Recorder,
  { copy, archivePath, folder }: Places,
  { signal, tell }: WorkWatch,
): Promise<Omit<WrittenParts, 'folderName'>> {
  if (signal.aborted) throw stoppedRefusal('split');
  const control = splitControl();
  // By its own hand, between two of its steps.
  const stop = (): void => {
    Atomics.store(control, STOP, 1);
    Atomics.notify(control, HELD_UP);
  };
  signal.addEventListener('abort', stop, { once: true });
  const look = (): void => {
    Atomics.store(control, HELD_UP, recorder.isRecording ? 1 : 0);
    Atomics.notify(control, HELD_UP);
  };
  look();
  const watching = setInterval(look, LOOK_MS);
  const answered = answerOfThread({
    name: 'split-thread',
    workerData: {
      copy,
      namedAfter: archivePath,
      folder,
      programVersion: recorder.options.programVersion,
      control,
    },
    msMax: SPLIT_MS_MAX,
    isProgress: (told) => {
      if (typeof told !== 'object' || told === null || !('progress' in told)) return false;
      // Both sides are this program's own files of one version.
      tell((told as SplitProgress).progress);
      return true;
    },
  });
  const atEnd = async (): Promise<void> => {
    stop();
    await answered.catch(() => undefined);
  };
  recorder.atEnd.add(atEnd);
  try {
    const answer = (await answered) as SplitAnswer;
    if (!answer.ok) throw errorOf(answer.trouble);
    return answer.written;
  } finally {
    clearInterval(watching);
    recorder.atEnd.delete(atEnd);
    signal.removeEventListener('abort', stop);
  }
}

function refuseWithoutRoom(folder: string, neededBytes: number): void {
  let free: number;
  try {
    const { bavail, bsize } = statfsSync(folder);
    free = bavail * bsize;
  } catch {
    // Not every system tells; a disk that fills is told by what is written.
    return;
  }
  if (free >= neededBytes) return;
  const mebibytes = (bytes: number): string => String(Math.ceil(bytes / MEBIBYTE));
  throw new ArchiveRefusal(
    'folder-too-full',
    `The split needs about ${mebibytes(neededBytes)} MiB on the disk of ${folder} while it is done, and ${mebibytes(free)} MiB are free; free some space or choose a folder on another disk. Nothing was begun.`,
    'folder',
  );
}
