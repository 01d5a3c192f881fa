/** Layouts read off the lines themselves: what stays the same is text, what changes is a number or a word. */
import type { LineFormatOf } from '../../core/contract/readout-profile.ts';
import { FIELDS_MAX } from '../../core/contract/readout-profile.ts';
import type { NumberStyle } from '../lines/number-grammar.ts';
import type { Layout } from './layout.ts';
import { type Token, skeletonOf, tokeniser } from './tokens.ts';
import { dimensionOf, isLoneLetter, writtenUnit } from './unit-words.ts';

type Part = LineFormatOf<'parts'>['parts'][number];

/** Skeletons looked at: status words and overloads make a few more than one. */
const SKELETONS_MAX = 4;
/** Constant over fewer lines than this is chance. */
const CONSTANT_LINES_MIN = 6;

interface Slot {
  readonly role: 'text' | 'number' | 'unit' | 'word';
  readonly text: string;
  readonly blanksMin: number;
  readonly blanksMax: number;
  readonly length: number | null;
  readonly optional: boolean;
  /** Text that names what follows. */
  readonly isLabel: boolean;
}

export function templateLayouts(texts: readonly string[], style: NumberStyle): Layout[] {
  const take = tokeniser({
    decimalSign: style.decimalSign,
    groupSign: style.groupSign ?? null,
    minusInParentheses: style.minusInParentheses === true,
  });
  const groups = new Map<string, { text: string; tokens: Token[] }[]>();
  for (const text of texts) {
    const tokens = take(text);
    const key = skeletonOf(tokens);
    const group = groups.get(key) ?? [];
    group.push({ text, tokens });
    groups.set(key, group);
  }
  const usual = [...groups].sort((a, b) => b[1].length - a[1].length).slice(0, SKELETONS_MAX);
  const layouts: Layout[] = [];
  for (const [key, lines] of usual) {
    if (!key.includes('#') && !key.includes(':')) continue;
    const longer = usual.find(([other]) => other !== key && isOneWordLonger(other, key));
    const slots = slotsOf(lines.map((line) => line.tokens));
    const parts = partsLayout(slots, style, null);
    if (parts !== null) layouts.push(parts);
    if (longer !== undefined) {
      // A word that comes and goes (a motion flag): the longer form with that word optional.
      const at = placeOfExtraWord(longer[0], key);
      const optional = partsLayout(slotsOf(longer[1].map((line) => line.tokens)), style, at);
      if (optional !== null) layouts.push(optional);
    }
    const labelled = labelledLayout(slots, lines, style);
    if (labelled !== null) layouts.push(labelled);
  }
  return layouts;
}

function slotsOf(lines: readonly (readonly Token[])[]): Slot[] {
  const first = lines[0] ?? [];
  const slots: Slot[] = [];
  const quoted = first.some(({ text }, index) => text === '"' && first[index + 1]?.kind === 'number');
  const unitsComeFirst = haveUnitsFirst(first);
  first.forEach((token, index) => {
    const here = lines.map((line) => line[index] ?? token);
    const texts = new Set(here.map((each) => each.text));
    const constant = texts.size === 1;
    const before = slots[index - 1];
    const following = first[index + 1];
    slots.push({
      role: roleOf({
        token,
        texts,
        constant,
        before,
        following,
        lineCount: lines.length,
        unitsComeFirst,
        behindNumber: isBehindNumber(slots),
        quoted,
        isCalledUnit: isCalledUnit(slots),
      }),
      text: token.text,
      blanksMin: Math.min(...here.map((each) => each.blanks)),
      blanksMax: Math.max(...here.map((each) => each.blanks)),
      length: new Set(here.map((each) => each.text.length)).size === 1 ? token.text.length : null,
      optional: false,
      isLabel: token.kind !== 'zone',
    });
  });
  return slots.map((slot, index) => (isLabelOfNext(slots, index) ? { ...slot, role: 'text' } : slot));
}

/**
 * "G 57.42 T 1.25 N 56.17 kN": each number has its letter before it, and N is that of the last one, a force, and not the
 * unit of the one before.
 */
function isLabelOfNext(slots: readonly Slot[], index: number): boolean {
  const slot = slots[index];
  if (slot?.role !== 'unit' || !isLoneLetter(slot.text)) return false;
  const [number, unit] = [slots[index + 1], slots[index + 2]];
  const written = unit?.role === 'unit' ? writtenUnit(unit.text) : null;
  return (
    number?.role === 'number' &&
    written !== null &&
    dimensionOf(written) === 'force' &&
    slots[index - 1]?.role === 'number' &&
    /^[A-Za-z]/.test(slots[index - 2]?.text ?? '')
  );
}

function isBehindNumber(slots: readonly Slot[]): boolean {
  const last = slots.findLast((slot) => slot.role !== 'text' || /[A-Za-z0-9]/.test(slot.text));
  return last?.role === 'number';
}

/** `{"v":56.17,"u":"kN"}`. */
function isCalledUnit(slots: readonly Slot[]): boolean {
  const at = slots.findLastIndex((slot) => slot.role !== 'text' || /[A-Za-z0-9]/.test(slot.text));
  return /^(?:u|unit|units|uom)$/i.test(slots[at]?.text ?? '') && isBehindNumber(slots.slice(0, at));
}

interface RoleQuestion {
  readonly token: Token;
  readonly texts: ReadonlySet<string>;
  readonly constant: boolean;
  readonly before: Slot | undefined;
  readonly following: Token | undefined;
  readonly lineCount: number;
  readonly unitsComeFirst: boolean;
  /** A number stands before it, with nothing but signs between. */
  readonly behindNumber: boolean;
  /** Numbers begin with a quotation mark. */
  readonly quoted: boolean;
  /** The last word before it, behind a number, is "unit". */
  readonly isCalledUnit: boolean;
}

function roleOf({
  token,
  texts,
  constant,
  before,
  following,
  lineCount,
  unitsComeFirst,
  behindNumber,
  quoted,
  isCalledUnit,
}: RoleQuestion): Slot['role'] {
  switch (token.kind) {
    case 'sign':
      // An inch mark behind a number; between quotes it would have one before the number too.
      return token.text === '"' && before?.role === 'number' && !quoted ? 'unit' : 'text';
    case 'word':
      if (unitsComeFirst && following?.kind === 'number' && [...texts].every(isLongUnit)) return 'unit';
      if (isCalledUnit && [...texts].every((text) => writtenUnit(text)?.scale === '1')) return 'unit';
      if (
        !unitsComeFirst &&
        behindNumber &&
        !/^[=:]/.test(following?.text ?? '') &&
        [...texts].every((text) => writtenUnit(text)?.scale === '1')
      )
        return 'unit';
      return constant ? 'text' : 'word';
    case 'clock':
      return 'number';
    case 'zone':
      return 'text';
    case 'number': {
      // "CH1:", "#2 ": a number that never changes and hangs on a word or a sign is part of the label.
      const hangs = before?.role === 'text' && token.blanks === 0 && /[A-Za-z#@$!&]$/.test(before.text);
      const isPlain = /^\d+$/.test(token.text);
      const closes = following !== undefined && following.kind === 'sign' && /[:=)\]]/.test(following.text);
      // "01A+000012.345": the number of the instrument at the head of the line, a letter behind it.
      const heads =
        before === undefined &&
        following?.kind === 'word' &&
        following.blanks === 0 &&
        writtenUnit(following.text) === null;
      return constant &&
        lineCount >= CONSTANT_LINES_MIN &&
        isPlain &&
        (heads || (hangs && (closes || Number(token.text) !== 0)))
        ? 'text'
        : 'number';
    }
  }
}

/** "kN 12.5 mm 0.3". */
function haveUnitsFirst(tokens: readonly Token[]): boolean {
  const numbers = tokens.flatMap((token, index) => (token.kind === 'number' ? [index] : []));
  const before = tokens.slice(0, numbers[0]).some((token) => token.kind === 'word' && isLongUnit(token.text));
  const behind = tokens.slice((numbers.at(-1) ?? 0) + 1).some((token) => writtenUnit(token.text) !== null);
  return before && !behind;
}

/** A lone letter before a number is a state or a label ("N 12.5": net, or newtons?). */
function isLongUnit(text: string): boolean {
  return text.length > 1 && writtenUnit(text)?.scale === '1';
}

function partsLayout(slots: readonly Slot[], style: NumberStyle, optionalAt: number | null): Layout | null {
  const parts: Part[] = [];
  const labels = new Map<string, string>();
  let said = '';
  let fields = 0;
  // Which of the two would a sign between them belong to?
  if (slots.some((slot, index) => slot.role === 'number' && touchesNumber(slots[index - 1], slot)))
    return null;
  slots.forEach((slot, index) => {
    const isOptional = index === optionalAt;
    if (slot.blanksMax > 0 || isOptional)
      parts.push({ part: 'blanks', optional: slot.blanksMin === 0 || isOptional });
    const name = String(fields + 1);
    // A word that comes and goes is a state, even where it is always the same when it comes.
    switch (isOptional && slot.role === 'text' ? 'word' : slot.role) {
      case 'text':
        parts.push({ part: 'text', text: slot.text });
        if (slot.isLabel) said += ` ${slot.text}`;
        return;
      case 'number':
        parts.push({ part: 'number', name });
        labels.set(name, said.trim());
        said = '';
        break;
      case 'unit':
        parts.push({ part: 'word', name, optional: false, ...lengthBefore(slot, slots[index + 1]) });
        break;
      case 'word':
        parts.push({
          part: 'word',
          name,
          optional: isOptional,
          ...(slot.length === null || isOptional ? {} : { length: slot.length }),
        });
        break;
    }
    fields++;
  });
  if (fields === 0 || parts.length > FIELDS_MAX) return null;
  return { format: { kind: 'parts', parts }, style, labels, preference: 0 };
}

const touchesNumber = (before: Slot | undefined, { blanksMin }: Slot): boolean =>
  before?.role === 'number' && blanksMin === 0;

/** A unit with a state's letter behind it ends where that begins. */
const lengthBefore = ({ length }: Slot, next: Slot | undefined): { length?: number } =>
  length !== null && next?.blanksMin === 0 && /^[A-Za-z]/.test(next.text) ? { length } : {};

/** Text before each number that holds a letter and is always the same: labels. */
function labelledLayout(
  slots: readonly Slot[],
  lines: readonly { readonly text: string; readonly tokens: readonly Token[] }[],
  style: NumberStyle,
): Layout | null {
  if (slots.some((slot) => slot.role === 'word' || !slot.isLabel)) return null;
  const fields: { name: string; label: string }[] = [];
  const labels = new Map<string, string>();
  const between = new Set<string>([' ', '\t']);
  const numbers = slots.flatMap((slot, index) => (slot.role === 'number' ? [index] : []));
  let from = 0;
  for (const index of numbers) {
    const written = new Set(lines.map((line) => textBefore(line, from, index)));
    const [label] = written;
    if (label === undefined || written.size !== 1 || !/[A-Za-zµε]/.test(label)) return null;
    const bare = label.replace(/^[^A-Za-zµε#"]+/, '');
    for (const sign of label.slice(0, label.length - bare.length)) between.add(sign);
    if (fields.some((field) => field.label.includes(bare) || bare.includes(field.label))) return null;
    const name = nameOfLabel(bare, fields.length);
    fields.push({
      name: fields.some((field) => field.name === name) ? `${name} ${String(fields.length + 1)}` : name,
      label: bare,
    });
    labels.set(fields.at(-1)?.name ?? '', bare);
    from = slots[index + 1]?.role === 'unit' ? index + 2 : index + 1;
  }
  // What stands behind the last value can only be cut off sign by sign.
  for (const slot of slots.slice(from)) {
    if (slot.role !== 'text' || /[A-Za-z0-9]/.test(slot.text)) return null;
    for (const sign of slot.text) between.add(sign);
  }
  if (fields.length === 0 || between.size > 8) return null;
  return {
    format: { kind: 'labelled', fields, between: [...between].join(''), ordered: true },
    style,
    labels,
    preference: 0.015,
  };
}

/** The text of a line from the end of one token to the beginning of another, blanks around it cut. */
function textBefore(
  { text, tokens }: { readonly text: string; readonly tokens: readonly Token[] },
  from: number,
  to: number,
): string {
  const before = tokens[from - 1];
  const start = before === undefined ? 0 : before.start + before.text.length;
  return text.slice(start, tokens[to]?.start).trim();
}

function nameOfLabel(label: string, index: number): string {
  const name = label.replace(/[^A-Za-z0-9µε]+/g, ' ').trim();
  return name === '' ? String(index + 1) : name;
}

function isOneWordLonger(longer: string, shorter: string): boolean {
  return longer.length === shorter.length + 1 && placeOfExtraWord(longer, shorter) !== null;
}

function placeOfExtraWord(longer: string, shorter: string): number | null {
  for (let at = longer.length - 1; at >= 0; at--)
    if (longer.charAt(at) === 'w' && longer.slice(0, at) + longer.slice(at + 1) === shorter) return at;
  return null;
}
