/** The words of a language of the paper. Spanish is read when the first Spanish paper is asked for: no start needs it. */
import { ENGLISH_PAPER, type PaperLanguage, type PaperWords } from './paper-words.ts';

export const paperWords = async (language: PaperLanguage): Promise<PaperWords> =>
  language === 'en' ? ENGLISH_PAPER : (await import('./es/spanish-paper.ts')).SPANISH_PAPER;
