/**
 * Sentences of the program in Spanish, by a table of their forms; what it does not hold stays as it is. Numbers keep their
 * points and moments their form: how these are written is for whoever shows them.
 */
import { inFieldWords } from '../specimen/field-words.ts';
import { ES_AFTER_BREAK_SENTENCES } from './es/sentences-after-break.ts';
import { ES_ALARM_SENTENCES } from './es/sentences-alarms.ts';
import { ES_AWKWARD_RECORD_SENTENCES } from './es/sentences-awkward-records.ts';
import { ES_FRAME_SENTENCES } from './es/sentences-at-the-frame.ts';
import { ES_CHECK_SENTENCES } from './es/sentences-check.ts';
import { ES_COMPOSED_SENTENCES } from './es/sentences-composed.ts';
import { ES_DESK_SENTENCES } from './es/sentences-desk.ts';
import { ES_IMPORT_SENTENCES } from './es/sentences-import.ts';
import { ES_KEPT_SENTENCES } from './es/sentences-kept.ts';
import { ES_RESULT_SENTENCES } from './es/sentences-results.ts';
import { ES_RULE_SENTENCES } from './es/sentences-rules.ts';
import { ES_SELDOM_SENTENCES } from './es/sentences-seldom.ts';
import { ES_SIGNING_SENTENCES } from './es/sentences-signing.ts';
import { ES_SENTENCES } from './es/sentences.ts';
import { ES_VERDICT_SENTENCES } from './es/sentences-verdicts.ts';

/** Forms whose text stands in the program as it is. */
export const FORMS_OF_THE_TEXT = [
  ...ES_SENTENCES,
  ...ES_AFTER_BREAK_SENTENCES,
  ...ES_ALARM_SENTENCES,
  ...ES_DESK_SENTENCES,
  ...ES_FRAME_SENTENCES,
  ...ES_IMPORT_SENTENCES,
  ...ES_KEPT_SENTENCES,
  ...ES_RESULT_SENTENCES,
  ...ES_RULE_SENTENCES,
  ...ES_SIGNING_SENTENCES,
  ...ES_VERDICT_SENTENCES,
] as const;
/** Every form that has a Spanish one. */
export const SPANISH_FORMS = [
  ...ES_AWKWARD_RECORD_SENTENCES,
  ...ES_CHECK_SENTENCES,
  ...ES_COMPOSED_SENTENCES,
  ...ES_SELDOM_SENTENCES,
  ...FORMS_OF_THE_TEXT,
] as const;

/** Sentences that were looked up, so that a page that is drawn sixty times a second looks each up once. */
const HELD_MAX = 2_000;
/** What is put in may be a sentence itself, or several in a row, and what is put into that. */
const DEPTH_MAX = 12;
/** What several sentences, or parts of one, stand apart by; the name of a field stands before what is wrong with it. */
const APART = [/^([\w.[\]]+: )/, /(; )/, /((?<=[.!?]) (?=\p{Lu}))/u, /( · )/, /(: )/] as const;

export type SpanishPair = readonly [english: string, spanish: string];

interface Form {
  /** What stands in every sentence of the form, as much of it as stands together: looked for before the whole. */
  readonly telling: string;
  readonly english: string;
  readonly spanish: string;
  readonly beginsWithCapital: boolean;
  /** Made when it is first needed: most forms are of sentences that never come. */
  matches: RegExp | null;
}

interface Table {
  readonly pairs: readonly SpanishPair[];
  /** Made at the first sentence. */
  forms: readonly Form[] | null;
  readonly held: Map<string, string>;
}

function formsOf(table: Table): readonly Form[] {
  if (table.forms !== null) return table.forms;
  // Where fields of a file are named, the page names them by their labels.
  // What says more is tried first, so that no order has to be kept in the tables.
  const text = (form: string): number => form.replace(/\{\d\}/g, '').length;
  const sorted = table.pairs.map((pair) => [text(pair[0]), pair] as const).sort(([a], [b]) => b - a);
  table.forms = sorted.flatMap(([, [english, spanish]]) =>
    [...new Set([english, inFieldWords(english)])].map((form) => ({
      telling: tellingPart(form),
      english: form,
      spanish,
      beginsWithCapital: /^\p{Lu}/u.test(form),
      matches: null,
    })),
  );
  return table.forms;
}

/** Without the first letter, which may be a small one or a capital. */
function tellingPart(english: string): string {
  return english
    .slice(english.startsWith('{') ? 0 : 1)
    .split(/\{\d\}/)
    .reduce((longest, part) => (part.length > longest.length ? part : longest), '');
}

/** Only behind a colon or a "because", and before a new sentence, can what is put in have semicolons within it. */
const SEVERAL = '(.*?)';
const ONE = '((?:(?!; ).)*?)';

function pattern(english: string): string {
  const parts = english.split(/\{\d\}/);
  return (
    parts
      .map((part, i) => {
        const literal = part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
        if (i === parts.length - 1) return literal;
        const isWhole = /(?:: |because )$/.test(part) || /^ \p{Lu}/u.test(parts[i + 1] ?? '');
        return literal + (isWhole ? SEVERAL : ONE);
      })
      .join('')
      // A sentence that was put into another begins with a small letter there, or the other way round.
      .replace(/^\p{L}/u, (first) => `[${first.toLowerCase()}${first.toUpperCase()}]`)
  );
}

/**
 * What makes Spanish of sentences by this table; of two forms that say as much the first counts. Not for what a person
 * wrote: that stays as it was written.
 */
export function spanishBy(pairs: readonly SpanishPair[]): (sentence: string) => string {
  const table: Table = { pairs, forms: null, held: new Map() };
  const { held } = table;
  return (sentence) => {
    const known = held.get(sentence);
    if (known !== undefined) return known;
    const spanish = spanishAt(table, sentence, 0);
    if (held.size >= HELD_MAX) held.clear();
    held.set(sentence, spanish);
    return spanish;
  };
}

export const inSpanish = spanishBy(SPANISH_FORMS);

function spanishAt(table: Table, sentence: string, depth: number): string {
  if (depth > DEPTH_MAX) return sentence;
  const whole =
    (COUNTED.test(sentence) ? listed(table, sentence, depth + 1) : null) ?? byForm(table, sentence, depth);
  if (whole !== null) return whole;
  for (const apart of APART) {
    const parts = sentence.split(apart);
    if (parts.length > 1) return inParts(table, parts, depth + 1);
  }
  return listed(table, sentence, depth + 1) ?? sentence;
}

/** "evaluations 2, voidings 1": taken as a list before a form takes all of it behind the first word. */
const COUNTED = /^\p{L}[\p{L} ]* \d+(?:, \p{L}[\p{L} ]* \d+)+$/u;

/** A list of things, each of which has a form; null where one has none: a comma stands in sentences too. */
function listed(table: Table, sentence: string, depth: number): string | null {
  const things = sentence.split(', ');
  if (things.length < 2) return null;
  const each: string[] = [];
  for (const thing of things) {
    const spanish = byForm(table, thing, depth);
    if (spanish === null) return null;
    each.push(spanish);
  }
  return each.join(', ');
}

/** Null where no form fits. */
function byForm(table: Table, sentence: string, depth: number): string | null {
  for (const form of formsOf(table)) {
    if (!sentence.includes(form.telling)) continue;
    form.matches ??= new RegExp(`^${pattern(form.english)}$`, 'su');
    const { spanish, beginsWithCapital } = form;
    const found = form.matches.exec(sentence);
    if (found === null) continue;
    const whole = spanish.replace(
      /(\b(?:de|a) )?\{(\d)\}/gi,
      (_whole, before: string | undefined, place: string) =>
        putBehind(before ?? '', spanishAt(table, found[Number(place)] ?? '', depth + 1)),
    );
    const capitalNow = /^\p{Lu}/u.test(sentence);
    if (capitalNow === beginsWithCapital || !/^\p{L}/u.test(sentence)) return whole;
    return whole.replace(/^\p{L}/u, (first) => (capitalNow ? first.toUpperCase() : first.toLowerCase()));
  }
  return null;
}

/** "de" and "a" run together with the article: "del visor". */
function putBehind(preposition: string, put: string): string {
  return preposition !== '' && put.startsWith('el ')
    ? `${preposition.trimEnd()}${put.slice(1)}`
    : `${preposition}${put}`;
}

/** @param parts every second one stands between two others; a form may reach over several of them, the longest first */
function inParts(table: Table, parts: readonly string[], depth: number): string {
  let shown = '';
  for (let from = 0; from < parts.length;) {
    let to = parts.length;
    let piece: string | null = null;
    for (; to > from + 1 && piece === null; to -= 2)
      if (from > 0 || to < parts.length) piece = byForm(table, parts.slice(from, to).join(''), depth);
    if (piece === null) to = from + 1;
    else to += 2;
    shown += (piece ?? spanishAt(table, parts[from] ?? '', depth)) + (parts[to] ?? '');
    from = to + 1;
  }
  return shown;
}
