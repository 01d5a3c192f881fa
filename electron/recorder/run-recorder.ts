/** The recorder as a process: archive, socket, idle end, signals. */
import { ARCHIVE_IN_USE_RETRY_MS, RECORDER_IDLE_MS } from '../../core/limits.ts';
import { PROGRAM_VERSION } from '../command-line/program-version.ts';
import type { ArchiveOpening } from './archive-opening.ts';
import { Recorder } from './recorder.ts';
import { AlreadyServedError, RecorderServer } from './server.ts';

const EXIT_ARCHIVE_GONE = 70;

export interface RunOptions {
  readonly archivePath: string;
  readonly makeFolder: boolean;
  /** Stays until it is told to end. */
  readonly foreground: boolean;
  readonly opening: ArchiveOpening;
  readonly log: (line: string) => void;
}

/** Runs until nobody needs it any more; the exit code. */
export async function runRecorder({
  archivePath,
  makeFolder,
  foreground,
  opening,
  log,
}: RunOptions): Promise<number> {
  const recorder = new Recorder({
    archivePath,
    programVersion: PROGRAM_VERSION,
    makeFolder,
    resume: true,
    opening,
    log,
    // Started again by whoever watches over it, the next recorder takes up what the spool holds.
    onArchiveGone: () => process.exit(EXIT_ARCHIVE_GONE),
  });
  let clientCount = 0;
  const server = new RecorderServer(recorder, {
    onClientCount: (count) => {
      clientCount = count;
    },
  });
  // The archive first: its lock tells which of two recorders that start at once goes on.
  await recorder.begin();
  const { archiveFault } = recorder;
  if (archiveFault !== null)
    log(
      archiveFault.detail === undefined
        ? archiveFault.sentence
        : `${archiveFault.sentence} (${archiveFault.detail})`,
    );
  try {
    await server.listen(archivePath);
  } catch (error) {
    await recorder.end();
    if (!(error instanceof AlreadyServedError)) throw error;
    log(`${error.message}; this one ends`);
    return 0;
  }
  await new Promise<void>((ended) => {
    let idleSinceMs = performance.now();
    const timer = setInterval(() => {
      if (clientCount > 0 || recorder.isRecording) idleSinceMs = performance.now();
      else if (!foreground && performance.now() - idleSinceMs > RECORDER_IDLE_MS) finish();
      if (recorder.archiveFault?.code === 'archive-in-use') void recorder.openArchive();
    }, ARCHIVE_IN_USE_RETRY_MS);
    const finish = (): void => {
      clearInterval(timer);
      ended();
    };
    process.once('SIGTERM', finish);
    process.once('SIGINT', finish);
    // A terminal that is closed takes nothing away from a recording.
    process.on('SIGHUP', () => {
      if (!recorder.isRecording) finish();
    });
  });
  await server.close();
  await recorder.end();
  return 0;
}
