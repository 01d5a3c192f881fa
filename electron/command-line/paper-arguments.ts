/** `--paper A4|Letter` and `--language en|es`: of what is printed, and of nothing else. */
import { PAPERS, type Paper } from '../../core/certificate/paper/paper-style.ts';
import { PAPER_LANGUAGES, type PaperLanguage } from '../../core/words/paper-words.ts';
import { type VerbArguments, oneOf } from './arguments.ts';
import { InputError } from './verb.ts';

export interface AskedPaper {
  readonly paper: Paper;
  readonly language: PaperLanguage;
}

export const PAPER_OPTIONS = { paper: { type: 'string' }, language: { type: 'string' } } as const;

/** `printing`: the option that puts it on paper, as it is written. Throws an InputError where it is not given. */
export function paperFrom(given: VerbArguments, printing: 'pdf' | 'pdf-out'): AskedPaper {
  const paper = oneOf('paper', given.text('paper'), PAPERS);
  const language = oneOf('language', given.text('language'), PAPER_LANGUAGES);
  const alone = paper !== undefined ? 'paper' : language !== undefined ? 'language' : null;
  if (alone !== null && given.text(printing) === undefined)
    throw new InputError(
      'options-exclude',
      `--${alone} is of what is printed, and nothing is printed here; add --${printing} FILE.pdf in place of another file, or leave --${alone} out.`,
      alone,
    );
  return { paper: paper ?? 'A4', language: language ?? 'en' };
}
