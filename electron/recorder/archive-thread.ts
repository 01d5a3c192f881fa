/**
 * The archive's own thread: a slow disk makes the commits wait here, and never the port. The archive is opened before what is
 * asked of it is read: the recorder goes on meanwhile with what it is told of the opening.
 */
import { parentPort, workerData } from 'node:worker_threads';
import { z } from 'zod';
import { Archive } from '../../core/archive/archive.ts';
import { RECOVERY_REPLAY_BYTES } from '../../core/limits.ts';
import type { ArchiveCalls } from './archive-calls.ts';
import { PROGRESS_ID, type ThreadCall, type ThreadProgress } from './archive-keeper.ts';
import type { OpenedArchive, ThreadAnswer } from './archive-opening.ts';
import { longWork } from './long-work.ts';
import { troubleOf } from './thread-trouble.ts';

const options = z
  .object({
    path: z.string(),
    programVersion: z.string(),
    makeFolder: z.boolean(),
    purpose: z.enum(['record', 'read']),
    stop: z.instanceof(Int32Array),
  })
  .parse(workerData);
const port = parentPort;
if (port === null) throw new Error('the archive thread is started by the recorder only');

const archive = opened();
if (archive !== null) void serve(archive);

/** Tells the recorder what there is, or why it could not be opened; null then. */
function opened(): Archive | null {
  let archive: Archive | null = null;
  try {
    archive = new Archive(options.path, { ...options, wallMs: Date.now });
    const isToBeRecorded = options.purpose === 'record';
    answer({
      id: -1,
      ok: true,
      value: {
        isHalfCopy: archive.isHalfCopy,
        isTakenBack: archive.isTakenBack,
        identity: archive.identity(),
        openRecord: isToBeRecorded ? archive.openRecord(RECOVERY_REPLAY_BYTES) : null,
        freeBytes: isToBeRecorded ? archive.freeBytes() : null,
      } satisfies OpenedArchive,
    });
    return archive;
  } catch (error) {
    archive?.close();
    answer({ id: -1, ok: false, trouble: troubleOf(error) });
    return null;
  }
}

/** What is asked meanwhile waits in the port, in its order. */
async function serve(archive: Archive): Promise<void> {
  const { archiveCalls } = await import('./archive-calls.ts');
  const calls: ArchiveCalls = archiveCalls(
    archive,
    longWork(options.stop, (progress) => {
      port?.postMessage({ id: PROGRESS_ID, progress } satisfies ThreadProgress);
    }),
  );
  port?.on('message', ({ id, name, args }: ThreadCall) => {
    try {
      const call = calls[name] as (...given: readonly unknown[]) => unknown;
      const value = call(...args);
      // Work in steps lets the calls behind it pass.
      if (value instanceof Promise)
        value.then(
          (done: unknown) => answer({ id, ok: true, value: done }),
          (error: unknown) => answer({ id, ok: false, trouble: troubleOf(error) }),
        );
      else answer({ id, ok: true, value });
      // Behind the answer: the recorder does not wait for it.
      if (name === 'appendPacked') archive.tendLog();
    } catch (error) {
      answer({ id, ok: false, trouble: troubleOf(error) });
    }
  });
}

function answer(told: ThreadAnswer): void {
  port?.postMessage(told);
}
