/** Close and quit while something is typed and not kept, a pull is recorded or long work writes: asks. A shut-down of the computer does not wait: the data are safe anyway. */
import { app, type BrowserWindow, dialog, powerMonitor } from 'electron';
import {
  closeAnswer,
  closeQuestion,
  losesTyping,
  stopsWork,
  typedQuestion,
  workQuestion,
} from './close-question.ts';
import type { WindowLog } from './window-log.ts';

export interface LeavingOptions {
  /** Forms in which something is typed that is not kept, as they are called. */
  readonly typedForms: () => readonly string[];
  readonly isRecording: () => boolean;
  readonly endRecord: () => Promise<{ readonly ok: boolean }>;
  readonly isAtWork: () => boolean;
  /** Resolves when what was under way has ended. */
  readonly stopWork: () => Promise<void>;
  readonly log: WindowLog;
}

/** A recorder that does not answer must not hold the window; its record is kept as it is. */
const END_RECORD_MS_MAX = 5_000;
/** Work stops between two of its steps; one that does not is left to the recorder. */
const STOP_WORK_MS_MAX = 10_000;
/** After a stop signal; systems send SIGKILL some two seconds later. */
const SHUTDOWN_MS_MAX = 1_500;

export function guardLeaving(
  window: BrowserWindow,
  { typedForms, isRecording, endRecord, isAtWork, stopWork, log }: LeavingOptions,
): void {
  let free = false;
  let asking = false;

  const ask = async (): Promise<void> => {
    asking = true;
    try {
      // First: whoever goes back to a form has ended no record by then.
      if (typedForms().length > 0 && !(await leavesTyping())) return;
      if (isRecording() && !(await leavesRecord())) return;
      if (isAtWork() && !(await leavesWork())) return;
    } finally {
      asking = false;
    }
    free = true;
    // Not close(): a page that hangs would have a say in it.
    if (!window.isDestroyed()) window.destroy();
  };
  const leavesTyping = async (): Promise<boolean> => {
    const { response } = await dialog.showMessageBox(window, typedQuestion(typedForms(), 'closing'));
    return losesTyping(response);
  };
  const leavesRecord = async (): Promise<boolean> => {
    const { response } = await dialog.showMessageBox(window, closeQuestion());
    const answer = closeAnswer(response);
    if (answer === 'keep') return false;
    if (answer === 'end-record') {
      const ended = await Promise.race([endRecord(), timeOut(END_RECORD_MS_MAX)]);
      if (ended?.ok !== true) log.note('closing: the recorder did not confirm the end of the record');
    }
    return true;
  };
  const leavesWork = async (): Promise<boolean> => {
    const { response } = await dialog.showMessageBox(window, workQuestion());
    if (!stopsWork(response)) return false;
    const stopped = await Promise.race([stopWork().then(() => true), timeOut(STOP_WORK_MS_MAX)]);
    if (stopped !== true) log.note('closing: the work under way did not end in time');
    return true;
  };

  window.on('close', (event) => {
    if (free || !(typedForms().length > 0 || isRecording() || isAtWork())) return;
    event.preventDefault();
    if (!asking) void ask();
  });
  // Not when all are closed: an unseen one may still print what was stopped, for nobody.
  window.once('closed', () => app.quit());

  const leaveAtOnce = (why: string) => (): void => {
    log.note(`leaving at once: ${why}`);
    free = true;
    setTimeout(() => app.exit(0), SHUTDOWN_MS_MAX);
    app.quit();
  };
  powerMonitor.on('shutdown', leaveAtOnce('the computer is being shut down'));
  window.on('session-end', leaveAtOnce('the person signs out'));
  for (const name of ['SIGTERM', 'SIGHUP', 'SIGINT'] as const) process.on(name, leaveAtOnce(name));
}

function timeOut(ms: number): Promise<null> {
  return new Promise((resolve) => setTimeout(() => resolve(null), ms));
}
