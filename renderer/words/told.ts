/** Sentences of core and recorder in the language chosen: by a table of their forms; what it does not hold stays as it is. */
import { momentText } from '../numbers/format.ts';
import { decimalSign } from '../numbers/number-form.ts';
import { UNITS } from '../../core/quantity/units.ts';
import { inSpanish } from '../../core/words/in-spanish.ts';
import { language } from '../store/view-settings.ts';

/** All of them as alternatives of a pattern, the longest first. */
export const UNIT_SYMBOLS = Object.keys(UNITS)
  .filter((symbol) => symbol !== '1')
  .sort((a, b) => b.length - a.length)
  .map((symbol) => symbol.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'))
  .join('|');
/**
 * A decimal number: it has its unit behind it, begins with a nought, or stands behind a sign of arithmetic, in
 * brackets or not. Numbers of clauses ("QW-153.1") and versions ("0.1.0"), symbols ("Rp0.2") and what a command is given
 * keep their points.
 */
const DECIMAL = new RegExp(
  String.raw`(?<![\p{L}\d./,]|--[\w-]+ )(\d+)\.(\d+)(?![\d.]*\.\d)(?=(?:(?: [ay–] | and | to )[\d.]+)? (?:${UNIT_SYMBOLS})(?![\p{L}\d]))` +
    String.raw`|(?<![\p{L}\d./,]|[\p{L}\d]-|--[\w-]+ )(0)\.(\d+)(?!\d|\.\d)` +
    String.raw`|(?<=[=×±+−/] \(?-?)(\d+)\.(\d+)(?!\d|\.\d)`,
  'gu',
);

/** Where numbers have a comma on the page, by its language or as chosen. */
export function withDecimalComma(text: string): string {
  if (decimalSign(language.value) !== ',') return text;
  return text.replace(DECIMAL, (number) => number.replace('.', ','));
}

/** A moment to the millisecond with its zone, as a file and the command line have it. */
const MOMENT = /\b\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}[+-]\d\d:\d\d\b/g;

/** What is kept and told each time it is drawn: another language may have been chosen meanwhile. */
export type ToldWhenDrawn = () => string;

/** Not for what a person wrote: that stays as it was written. A moment stands as everywhere on the page. */
export function told(sentence: string): string {
  return withDecimalComma(translated(sentence).replace(MOMENT, (moment) => momentText(Date.parse(moment))));
}

/** The same with the decimal points that the numbers came with: for what goes on working with them. */
export function translated(sentence: string): string {
  return language.value === 'es' ? inSpanish(sentence) : sentence;
}
