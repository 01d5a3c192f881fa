/** Headings and remarks among the lines: kept out of the readings, and read for names and units. */
import { statusOfWord } from '../lines/status-words.ts';
import { meaningOfLabel, unitOfHeading } from './label-words.ts';
import { type WrittenUnit, writtenUnit } from './unit-words.ts';

export interface Heading {
  /** Name of each field, in order. */
  readonly names: readonly string[];
  /** Unit of each field, where the heading says it. */
  readonly units: readonly (WrittenUnit | null)[];
}

export interface FoundHeading {
  readonly heading: Heading | null;
  /** Beginnings of lines that carry no reading. */
  readonly ignoredLines: readonly string[];
  /** The other lines. */
  readonly texts: readonly string[];
}

const meaningOf = statusOfWord({ overload: [], blank: [], error: [] });

/** A heading stands at the beginning; a readout that repeats it does so now and then. */
const HEADING_LINES_MAX = 6;
const IGNORED_MAX = 12;
const BEGINNING_LENGTH = 60;

export function findHeading(texts: readonly string[]): FoundHeading {
  const marked = texts.filter((text) => /^[#%;!*/]/.test(text));
  const marks = [...new Set(marked.map((text) => text.charAt(0)))].filter(
    (mark) =>
      marked.some((text) => text.startsWith(mark) && /[A-Za-z]/.test(text)) &&
      marked.filter((text) => text.startsWith(mark)).length <= texts.length / 2 &&
      texts.every((text, index) => !text.startsWith(mark) || index < HEADING_LINES_MAX || isProse(text)),
  );
  const remarks = marked.filter((text) => marks.includes(text.charAt(0)));
  const bare = texts.filter((text) => !marks.some((mark) => text.startsWith(mark)));
  // Lines of words alone, of which there are few: a heading, a greeting.
  const words = bare.filter((text) => isProse(text));
  const isFew = words.length <= Math.max(2, bare.length / 5);
  // What stands later and not at the beginning is a reading whose number a word has replaced.
  const headings = isFew
    ? bare.slice(0, HEADING_LINES_MAX).filter((text) => isProse(text) || areUnits(text))
    : [];
  const beginnings = [...new Set(headings.map((text) => text.slice(0, BEGINNING_LENGTH)))].slice(
    0,
    IGNORED_MAX,
  );
  return {
    heading: headingOf([...remarks.slice(0, HEADING_LINES_MAX).map((text) => text.slice(1)), ...headings]),
    ignoredLines: [...marks, ...beginnings],
    texts: bare.filter((text) => !beginnings.some((beginning) => text.startsWith(beginning))),
  };
}

/**
 * Of lines before the first reading, the beginnings of those that are words and no broken reading: they hold a word that
 * no reading has.
 */
export function strayHeadings(unfit: readonly string[], readings: readonly string[]): string[] {
  const known = new Set(readings.slice(0, 200).flatMap((text) => wordsIn(text)));
  return unfit
    .slice(0, HEADING_LINES_MAX)
    .filter(
      (text) =>
        RULED_LINE.test(text) ||
        (/^[\x20-\x7e\xa0-\xff]+$/.test(text) && wordsIn(text).some((word) => !known.has(word))),
    )
    .map((text) => text.slice(0, BEGINNING_LENGTH))
    .filter((beginning) => !readings.some((text) => text.startsWith(beginning)));
}

const RULED_LINE = /^[-=_*+|\s]{5,}$/;
const wordsIn = (text: string): string[] => text.match(/[A-Za-z]{3,}/g) ?? [];

/** Letters, and no number but those that hang on letters ("CH1") or stand alone between them. */
function isProse(text: string): boolean {
  if (!/[A-Za-z]{2}/.test(text)) return false;
  const numbers = text.match(/(?<![A-Za-z\d])[+-]?\d+(?:[.,]\d+)?(?![A-Za-z\d])/g) ?? [];
  const words = text.match(/[A-Za-z]{2,}/g) ?? [];
  return numbers.length === 0
    ? !/\d[.,]\d/.test(text) && words.join('').length >= 3 && !isStatusOnly(text)
    : words.length >= numbers.length * 4;
}

/** "s;kN;mm", below the names. */
function areUnits(text: string): boolean {
  const words = text.split(/[\s,;|]+/).filter((word) => word !== '');
  return (
    words.length > 1 &&
    !/\d/.test(text) &&
    words.every((word) => writtenUnit(word.replace(/^[([]|[)\]]$/g, '')) !== null)
  );
}

/** "ST,GS,------,kN" is a reading without a number, not a heading. */
function isStatusOnly(text: string): boolean {
  const words = text.split(/[\s,;\t|=:]+/).filter((word) => word !== '');
  return (
    /-{2,}|_{3,}|\bO\.?L\b|\bERR/i.test(text) ||
    words.some((word) => meaningOf(word) !== 'malformed') ||
    words.every((word) => word.length <= 2)
  );
}

/** Of several lines the one that says most about the fields. */
function headingOf(lines: readonly string[]): Heading | null {
  const headings = lines.flatMap((line) => {
    const names = splitHeading(line);
    if (names.every((name) => name === '')) return [];
    const units = names.map((name) => unitOfHeading(name));
    const below = lines.find((other) => other !== line && splitHeading(other).length === names.length);
    const unitsBelow =
      below === undefined
        ? []
        : splitHeading(below).map((name) => writtenUnit(name.replace(/^[([]|[)\]]$/g, '')));
    const both = units.map((unit, index) => unit ?? unitsBelow[index] ?? null);
    const meant = names.filter((name) => meaningOfLabel(name, null).quantity !== null).length;
    return [
      { heading: { names, units: both }, said: meant * 2 + both.filter((unit) => unit !== null).length },
    ];
  });
  const most = Math.max(...headings.map(({ said }) => said));
  return headings.find(({ said }) => said === most)?.heading ?? null;
}

function splitHeading(line: string): string[] {
  const delimiter = [';', '\t', ',', '|'].find((sign) => line.includes(sign));
  const fields = delimiter === undefined ? line.trim().split(/ {2,}/) : line.split(delimiter);
  const names = fields.map((name) => name.trim());
  return delimiter === undefined && names.length === 1 ? line.trim().split(/\s+(?![([])/) : names;
}
