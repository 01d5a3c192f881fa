/** Closing, quitting or changing the archive while a pull is recorded: asks first, and each answer says what happens. */
import type { MessageBoxOptions } from 'electron';
import type { SessionState } from '../../core/contract/session.ts';

/** In these states readings are being kept. */
const RECORDING: ReadonlySet<SessionState> = new Set(['ready', 'pulling', 'broken', 'stopped']);

export function isRecording(state: SessionState | null): boolean {
  return state !== null && RECORDING.has(state);
}

export const CLOSE_ANSWERS = ['keep', 'leave-recording', 'end-record'] as const;
export type CloseAnswer = (typeof CLOSE_ANSWERS)[number];

/** In the order of CLOSE_ANSWERS. The first one is what Enter and Escape mean. */
export const CLOSE_QUESTION: MessageBoxOptions = {
  type: 'question',
  title: 'Gaugemark',
  message: 'A pull is being recorded.',
  detail:
    'Keep recording: the window stays; nothing changes.\n\n' +
    'Close the window: the recorder goes on until the record has ended; start Gaugemark again to see it.\n\n' +
    'End the record and close: everything recorded so far is kept; what the readout sends from now on is not.',
  buttons: ['Keep recording', 'Close the window', 'End the record and close'],
  defaultId: 0,
  cancelId: 0,
  noLink: true,
};

export function closeAnswer(response: number): CloseAnswer {
  return CLOSE_ANSWERS[response] ?? 'keep';
}
