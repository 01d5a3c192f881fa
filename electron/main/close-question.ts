/** Closing, quitting or going over to another archive while something is typed and not kept, a pull is recorded or long work writes: asks first, and each answer says what happens. */
import type { MessageBoxOptions } from 'electron';
import type { SessionState } from '../../core/contract/session.ts';
import type { ShellWords } from './words/en-shell.ts';
import { shellWords } from './words/shell-words.ts';

/** In these states readings are being kept. */
const RECORDING: ReadonlySet<SessionState> = new Set(['ready', 'pulling', 'broken', 'stopped']);

export function isRecording(state: SessionState | null): boolean {
  return state !== null && RECORDING.has(state);
}

export const CLOSE_ANSWERS = ['keep', 'leave-recording', 'end-record'] as const;
export type CloseAnswer = (typeof CLOSE_ANSWERS)[number];

/** Its buttons in the order of CLOSE_ANSWERS. The first one is what Enter and Escape mean. */
export const closeQuestion = (): MessageBoxOptions => questionOf(shellWords().closing);

/** Two buttons: it goes on, or it is stopped. The first one is what Enter and Escape mean. */
export const workQuestion = (): MessageBoxOptions => questionOf(shellWords().closingAtWork);

/** Where the forms are left by: the window closes, or another archive is used. */
export type Leaving = 'closing' | 'goingOver';

/** Two buttons: back to the forms, or without what is typed there. The first one is what Enter and Escape mean. */
export function typedQuestion(forms: readonly string[], by: Leaving): MessageBoxOptions {
  const { message, ...rest } = shellWords()[by === 'closing' ? 'closingTyped' : 'goingOverTyped'];
  return questionOf({ ...rest, message: message(forms.join(' · ')) });
}

/** Only its second button loses anything. */
export const losesTyping = (response: number): boolean => response === 1;

/** Only its second button stops anything. */
export const stopsWork = (response: number): boolean => response === 1;

function questionOf({
  message,
  detail,
  buttons,
}: ShellWords['closing' | 'closingAtWork']): MessageBoxOptions {
  return {
    type: 'question',
    title: 'Gaugemark',
    message,
    detail,
    buttons: [...buttons],
    defaultId: 0,
    cancelId: 0,
    noLink: true,
  };
}

export function closeAnswer(response: number): CloseAnswer {
  return CLOSE_ANSWERS[response] ?? 'keep';
}
