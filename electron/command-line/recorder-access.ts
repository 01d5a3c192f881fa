/**
 * The recorder as a verb uses it: the running one of the archive through its socket, or one in this process
 * where the archive is free. Both answer the same requests.
 */
import { existsSync, rmSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { resolve } from 'node:path';
import { cutShortAside } from '../../core/archive/cut-short-restore.ts';
import { defaultArchivePath } from '../../core/archive/place.ts';
import type { EventName, EventOf, ReplyOf, RequestInputOf, RequestName } from '../../core/contract/index.ts';
import type { Fault } from '../../core/contract/message.ts';
import type { Source } from '../../core/contract/source.ts';
import { faultBeforeOpening } from '../../drivers/serial/open-fault.ts';
import { connectToRecorder } from '../recorder/client.ts';
import { Recorder } from '../recorder/recorder.ts';
import { answerRequest } from '../recorder/requests.ts';
import { RecorderServer } from '../recorder/server.ts';
import { PROGRAM_VERSION } from './program-version.ts';
import { InputError, JobError } from './verb.ts';

export interface RecorderAccess {
  /** Throws an InputError or a JobError for a fault. */
  readonly ask: <N extends RequestName>(name: N, payload: RequestInputOf<N>) => Promise<ReplyOf<N>>;
  readonly onEvent: (listener: <N extends EventName>(name: N, event: EventOf<N>) => void) => void;
  /** The connection to a running recorder has ended. */
  readonly onGone: (listener: () => void) => void;
  readonly end: () => Promise<void>;
  /**
   * Ends where no pull came about (the port could not be opened). An archive that was begun for it here, holds no pull
   * and was opened by nobody else goes away again; any other stays.
   */
  readonly endWithoutPull: () => Promise<void>;
}

export interface AccessOptions {
  /** `--archive FILE`, or the platform's own place. */
  readonly archive: string | undefined;
  /**
   * For making a pull: listens on the socket, so that a window can watch, and goes on with an open record. Without it
   * the archive is only read: nothing in it nor beside it is changed, and what would write is refused.
   */
  readonly toRecord: boolean;
  readonly note: (line: string) => void;
  /**
   * Looked at before an archive is begun where there is none yet: a path that is no port leaves nothing behind. It is
   * not opened for that: what it sent before the record begins would be lost.
   */
  readonly source?: Source;
}

/** A recorder that has just been started holds the archive before it listens. */
const IN_USE_TRIES = 10;
const IN_USE_WAIT_MS = 200;

/** The platform's own place, where no archive is named. */
function standardPath(): string {
  return defaultArchivePath({ platform: process.platform, home: homedir(), environment: process.env });
}

/** The archive that `--archive` names; throws an InputError where there is none. */
export function existingArchive(archive: string | undefined): string {
  const path = resolve(archive ?? standardPath());
  // One that lies aside is put back when it is opened, or it is said where it lies.
  if (!existsSync(path) && cutShortAside(path) === null)
    throw new InputError(
      'archive-missing',
      `There is no archive ${path}; give another file with --archive.`,
      'archive',
    );
  return path;
}

export async function recorderAccess(options: AccessOptions): Promise<RecorderAccess> {
  const standard = standardPath();
  const path = options.toRecord ? resolve(options.archive ?? standard) : existingArchive(options.archive);
  const begunHere = isNew(path);
  if (begunHere) await refuseNoPort(options.source);
  for (let attempt = 1; ; attempt++) {
    const client = await connectToRecorder(path);
    if (client !== null) {
      const end = (): Promise<void> => {
        client.close();
        return Promise.resolve();
      };
      return {
        ask: async (name, payload) => valueOf(await client.request(name, payload)),
        onEvent: (listener) => void client.onEvent(listener),
        onGone: (listener) => void client.onClosed(listener),
        end,
        endWithoutPull: end,
      };
    }
    const recorder = new Recorder({
      archivePath: path,
      programVersion: PROGRAM_VERSION,
      makeFolder: path === standard,
      resume: options.toRecord,
      // Notices are told by the verb that listens to them.
      log: (line, told) => {
        if (told === undefined) options.note(line);
      },
    });
    await recorder.begin();
    const { archiveFault } = recorder;
    if (archiveFault === null) return inThisProcess(recorder, path, { ...options, begunHere });
    await recorder.end();
    if (archiveFault.code !== 'archive-in-use' || attempt === IN_USE_TRIES) throw errorOf(archiveFault);
    await new Promise((done) => setTimeout(done, IN_USE_WAIT_MS));
  }
}

/** Missing, or empty: to be begun. What a cut-short restore had set aside is put back and is not new. */
function isNew(path: string): boolean {
  return cutShortAside(path) === null && (statSync(path, { throwIfNoEntry: false })?.size ?? 0) === 0;
}

async function refuseNoPort(source: Source | undefined): Promise<void> {
  const fault = source?.kind === 'serial' ? await faultBeforeOpening(source.path) : null;
  if (fault !== null) throw errorOf(fault);
}

async function inThisProcess(
  recorder: Recorder,
  path: string,
  { toRecord, begunHere }: AccessOptions & { readonly begunHere: boolean },
): Promise<RecorderAccess> {
  let isShared = false;
  const server = toRecord ? new RecorderServer(recorder, { onClientCount: () => (isShared = true) }) : null;
  await server?.listen(path);
  const end = async (): Promise<void> => {
    await server?.close();
    await recorder.end();
  };
  return {
    ask: async (name, payload) => valueOf(await answerRequest(recorder, name, payload)),
    onEvent: (listener) => void recorder.listen({ onEvent: listener, onReadings: () => undefined }),
    onGone: () => undefined,
    end,
    endWithoutPull: async () => {
      const { items } = valueOf(await answerRequest(recorder, 'pull.list', { limit: 1 }));
      // While it is still locked: nobody can have begun anything in it.
      const isGone = begunHere && !isShared && items.length === 0 && tookAway(path);
      await end();
      if (isGone) for (const beside of ['-wal', '-shm']) rmSync(`${path}${beside}`, { force: true });
    },
  };
}

/** False where the system does not let an open file go: it then stays, empty. */
function tookAway(path: string): boolean {
  try {
    rmSync(path);
    return true;
  } catch {
    return false;
  }
}

/** Throws an InputError or a JobError for a fault. */
export function valueOf<T>(answer: { ok: true; value: T } | { ok: false; fault: Fault }): T {
  if (answer.ok) return answer.value;
  throw errorOf(answer.fault);
}

/** Faults that the person who typed the command can set right by typing another; the others failed underway. */
const INPUT_FAULTS: ReadonlySet<string> = new Set([
  'already-signed',
  'already-superseded',
  'already-void',
  'already-withdrawn',
  'archive-empty',
  'archive-folder-missing',
  'archive-foreign',
  'archive-missing',
  'archive-newer',
  'archive-not-a-database',
  'archive-not-made',
  'archive-on-network',
  'archive-read-only',
  'calibrated-tomorrow',
  'calibration-wrong',
  'certificate-twice',
  'correction-without-effect',
  'day-ahead',
  'export-form-unknown',
  'export-form-contrary',
  'file-exists',
  'file-missing',
  'file-not-opened',
  'file-not-regular',
  'file-too-large',
  'folder-missing',
  'imported-already',
  'instrument-retired',
  'instruments-twice',
  'kind-changed',
  'member-wrong',
  'merge-with-itself',
  'name-taken',
  'no-such-certificate',
  'no-such-instrument',
  'no-such-member',
  'no-such-person',
  'no-such-photo',
  'no-such-pull',
  'no-such-set',
  'no-such-specimen',
  'not-a-photo',
  'not-a-port',
  'not-the-newest-note',
  'photo-damaged',
  'photo-kept-already',
  'photo-too-large',
  'pin-missing',
  'pull-not-imported',
  'port-missing',
  'port-settings-refused',
  'reason-missing',
  'request-malformed',
  'restore-of-itself',
  'rule-pack-wrong',
  'rules-folder-unreadable',
  'rules-without-set',
  'scenario-unknown',
  'search-key-wrong',
  'search-too-wide',
  'set-empty',
  'set-full',
  'set-wrong',
  'sign-taken',
  'specimen-wrong',
]);

export function errorOf({ code, sentence, field, detail }: Fault): InputError | JobError {
  return INPUT_FAULTS.has(code) || code.startsWith('import-') || code.startsWith('columns-')
    ? new InputError(code, sentence, field, detail)
    : new JobError(code, sentence, detail);
}
