/**
 * Paper in Spanish. Figures keep the point that they have in the content: a certificate is read by machines and by
 * customers of other countries, and in its hash a figure is a text. Days and moments stand as on English paper (ISO 8601).
 */
import { SPANISH_FORMS, type SpanishPair, spanishBy } from '../in-spanish.ts';
import { type PaperText, type PaperWords, putIn } from '../paper-words.ts';
import { ES_PAPER } from './paper.ts';
import { ES_ON_PAPER_SENTENCES } from './sentences-on-paper.ts';

/** Forms that something is put into are filled where they are written ("{1} of {2}" would fit too much that is said elsewhere). */
const LABELS: readonly SpanishPair[] = Object.entries(ES_PAPER).filter(([english]) => !english.includes('{'));

/** Those of the paper come first: a word may be a label there. */
const inSpanish = spanishBy([...LABELS, ...ES_ON_PAPER_SENTENCES, ...SPANISH_FORMS]);

const text = (english: PaperText, ...put: readonly string[]): string => putIn(ES_PAPER[english], put);

/** A sign of nobody's alphabet on each side of a number stands in a sentence for a text that must not be looked into. */
const PLACES = /\uE000(\d+)\uE001/g;

export const SPANISH_PAPER: PaperWords = {
  language: 'es',
  text,
  said: inSpanish,
  keeping: (written) => {
    const endangered = [...new Set(written)].filter(isEndangered).sort((a, b) => b.length - a.length);
    return endangered.length === 0 ? SPANISH_PAPER : { ...SPANISH_PAPER, said: sayingAround(endangered) };
  },
};

/** The table would take it for words of the program, or "de el" for one word. */
const isEndangered = (written: string): boolean =>
  written.trim() !== '' && (inSpanish(written) !== written || written.startsWith('el '));

function sayingAround(written: readonly string[]): PaperWords['said'] {
  const whole = written.map((one) => one.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('|');
  const pattern = new RegExp(String.raw`(?<![\p{L}\d])(?:${whole})(?![\p{L}\d])`, 'gu');
  return (english) => {
    const kept: string[] = [];
    const around = english.replace(pattern, (one) => `\uE000${String(kept.push(one) - 1)}\uE001`);
    return inSpanish(around).replace(PLACES, (place, number: string) => kept[Number(number)] ?? place);
  };
}
