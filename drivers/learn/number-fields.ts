/** Which fields of a layout are numbers, and what stands beside each: its label, its unit. */
import type { Column } from './column-kind.ts';
import type { Heading } from './find-heading.ts';
import { meaningOfLabel, unitInBrackets, unitOfHeading } from './label-words.ts';
import type { Layout } from './layout.ts';
import { type WrittenUnit, dimensionOf, isForeignUnit, isLoneLetter, writtenUnit } from './unit-words.ts';

export interface NumberField {
  readonly index: number;
  readonly column: Column;
  readonly label: string;
  readonly unitField: number | null;
  readonly unit: WrittenUnit | null;
  readonly unitText: string | null;
  /** A unit of something that no pull needs stands behind it (V, °C). */
  readonly isForeign: boolean;
}

/** In the order of the line. */
export function numberFields(
  layout: Layout,
  heading: Heading | null,
  names: readonly string[],
  columns: readonly Column[],
): NumberField[] {
  const isNumber = (index: number): boolean => {
    const kind = columns[index]?.kind;
    return kind === 'number' || kind === 'number-unit' || kind === 'clock';
  };
  const unitAt = columns.flatMap((column, index) => (column.kind === 'unit' ? [index] : []));
  const numberAt = columns.flatMap((_, index) => (isNumber(index) ? [index] : []));
  // "kN 12.5 mm 0.3": the first unit stands before the first number, and none behind the last.
  const unitsComeFirst =
    (unitAt[0] ?? columns.length) < (numberAt[0] ?? 0) && (unitAt.at(-1) ?? 0) < (numberAt.at(-1) ?? 0);
  const unitFields = columns.map(({ kind }, index) =>
    kind === 'number' ? findUnitField(columns, index, unitsComeFirst, isNumber) : null,
  );
  return columns.flatMap((column, index) => {
    if (!isNumber(index)) return [];
    const unitField = unitFields[index] ?? null;
    const named = heading?.names.length === names.length ? (heading.names[index] ?? '') : '';
    const headingUnit = named === '' ? null : (heading?.units[index] ?? unitOfHeading(named));
    const written =
      unitField === null ? (column.unit?.written ?? null) : writtenUnit(unitTextOf(columns[unitField]));
    const before = columns[index - 1];
    // "F;56.17;kN;s;2.70;mm": a unit that is no number's is a name.
    const isName =
      before?.kind === 'constant' || (before?.kind === 'unit' && !unitFields.includes(index - 1));
    const textBefore = isName ? unitTextOf(before) : '';
    const wordBefore = isStatusWord(textBefore) ? '' : textBefore;
    return [
      {
        index,
        column,
        label: `${named} ${layout.labels.get(names[index] ?? '') ?? ''} ${wordBefore}`.trim(),
        unitField,
        unit: written ?? headingUnit ?? unitOfLabel(layout.labels.get(names[index] ?? '') ?? wordBefore),
        unitText: unitField === null ? (column.unit?.text ?? null) : unitTextOf(columns[unitField]),
        isForeign: isForeignUnit(textBehind(layout, names[index] ?? '', columns[index + 1])),
      },
    ];
  });
}

/** "Load [kN]:", "load_kN=", or nothing but the unit: "kN: 12.5". */
function unitOfLabel(label: string): WrittenUnit | null {
  const bare = label.replace(/^[\s,;|]+|[\s:=]+$/g, '');
  return (
    unitInBrackets(label) ??
    unitOfJoinedName(bare) ??
    (/[:=]\s*$/.test(label) && bare.length > 1 ? writtenUnit(bare) : null)
  );
}

/** "force_N", "ext_mm", of which the first half names what the second can measure; "load_t" may be the load at a time. */
function unitOfJoinedName(label: string): WrittenUnit | null {
  const [, name = '', text = ''] = /([A-Za-z]+)\d*_([A-Za-zµ%]{1,8})["']?$/.exec(label) ?? [];
  const unit = text === 't' ? null : writtenUnit(text);
  return unit !== null && meaningOfLabel(name, dimensionOf(unit)).quantity !== null ? unit : null;
}

/** What stands behind a number and is the same in every line. */
function textBehind({ format }: Layout, name: string, next: Column | undefined): string {
  if (format.kind !== 'parts') return next?.kind === 'constant' ? (next.words[0] ?? '') : '';
  const at = format.parts.findIndex((part) => 'name' in part && part.name === name);
  const [first, second] = [format.parts[at + 1], format.parts[at + 2]];
  const part = first?.part === 'blanks' ? second : first;
  return part?.part === 'text' ? part.text : '';
}

/** The unit field that belongs to a number: the next one behind it, or before it where the units come first. */
function findUnitField(
  columns: readonly Column[],
  index: number,
  unitsComeFirst: boolean,
  isNumber: (index: number) => boolean,
): number | null {
  const step = unitsComeFirst ? -1 : 1;
  for (let at = index + step; at >= 0 && at < columns.length && !isNumber(at); at += step)
    if (columns[at]?.kind === 'unit') return isLabelOfNext(columns, at, isNumber) ? null : at;
  return null;
}

/** "G 57.42 T 1.25 N 56.17 kN": N stands before a force that has its unit, as a letter stands before the numbers before. */
function isLabelOfNext(
  columns: readonly Column[],
  at: number,
  isNumber: (index: number) => boolean,
): boolean {
  if (!isLoneLetter(unitTextOf(columns[at])) || !isNumber(at - 1) || !isNumber(at + 1)) return false;
  const unit = columns[at + 2]?.kind === 'unit' ? writtenUnit(unitTextOf(columns[at + 2])) : null;
  return unit !== null && dimensionOf(unit) === 'force' && columns[at - 2]?.kind === 'constant';
}

function unitTextOf(column: Column | undefined): string {
  return column?.words[0] ?? column?.unit?.text ?? '';
}

/** Weighing indicators' words for stable, unstable, gross, net (common practice, no source). */
export function isStatusWord(word: string): boolean {
  return /^(?:ST|US|GS|NT|G|N|S|M|U|OK|D|T|TR|NET|GROSS|STABLE|MOTION|SD|SI|R|RUN|HOLD)$/.test(word);
}
