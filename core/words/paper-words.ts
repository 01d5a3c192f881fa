/** What the program itself puts on paper, in the language that was chosen for it; what a person typed passes through untouched. */
import type { ES_PAPER } from './es/paper.ts';

export const PAPER_LANGUAGES = ['en', 'es'] as const;
export type PaperLanguage = (typeof PAPER_LANGUAGES)[number];

/** A label or a sentence that is written here for paper alone, `{1}`, `{2}` for what is put in: each has its Spanish. */
export type PaperText = keyof typeof ES_PAPER;

export interface PaperWords {
  readonly language: PaperLanguage;
  /** What is put in stands there as it is given. */
  readonly text: (english: PaperText, ...put: readonly string[]) => string;
  /** A sentence or a name that the core came out with. Figures keep their points and moments their form. */
  readonly said: (english: string) => string;
  /** The same, but these texts stay as they are wherever they stand in a sentence: people wrote them. */
  readonly keeping: (written: readonly string[]) => PaperWords;
}

/** "{1} over {2}" with both put in. */
export const putIn = (form: string, put: readonly string[]): string =>
  form.replace(/\{(\d)\}/g, (place, number: string) => put[Number(number) - 1] ?? place);

export const ENGLISH_PAPER: PaperWords = {
  language: 'en',
  text: (english, ...put) => putIn(english, put),
  said: (english) => english,
  keeping: () => ENGLISH_PAPER,
};
