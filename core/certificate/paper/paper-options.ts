/** What every page that is printed is made with, besides what it says. */
import type { PaperWords } from '../../words/paper-words.ts';
import type { EmbeddedFont, Paper } from './paper-style.ts';

export interface PaperOptions {
  readonly paper: Paper;
  readonly fonts: readonly EmbeddedFont[];
  /** Of the language of what it says; English where left out. */
  readonly words?: PaperWords;
}

/** Nothing in the page can run or be loaded from elsewhere, whatever was typed. */
export const CONTENT_POLICY = "default-src 'none'; style-src 'unsafe-inline'; font-src data:";
