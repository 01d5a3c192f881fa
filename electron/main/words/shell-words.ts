/** The words of the window's own process, in the language that its page was last set to. */
import type { Language } from '../../../core/contract/looks.ts';
import { EN_SHELL, type ShellWords } from './en-shell.ts';
import { ES_SHELL } from './es-shell.ts';

const SPOKEN: Readonly<Record<Language, ShellWords>> = { en: EN_SHELL, es: ES_SHELL };

let spoken: Language = 'en';

export function speak(language: Language): void {
  spoken = language;
}

export const shellWords = (): ShellWords => SPOKEN[spoken];
