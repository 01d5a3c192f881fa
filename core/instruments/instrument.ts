/**
 * Frames, force channels, extensometers and callipers as people enter them. Quantities are text with their unit, as they
 * stand on the plate or in the certificate; nothing is converted here.
 */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import {
  QUANTITY_TEXT_LENGTH_MAX,
  parseQuantity,
  quantityFaultSentence,
} from '../quantity/parse-quantity.ts';
import type { Exact } from '../quantity/exact.ts';
import { CORE_UNIT, type Dimension, convertExact } from '../quantity/units.ts';

export const INSTRUMENT_KINDS = ['frame', 'force-channel', 'extensometer', 'calliper'] as const;
export type InstrumentKind = (typeof INSTRUMENT_KINDS)[number];

export const KIND_WORDS: Readonly<Record<InstrumentKind, string>> = {
  frame: 'frame',
  'force-channel': 'force channel',
  extensometer: 'extensometer',
  calliper: 'calliper',
};

/** What each kind measures. */
export const MEASURES: Readonly<Record<InstrumentKind, Dimension & ('force' | 'length')>> = {
  frame: 'force',
  'force-channel': 'force',
  extensometer: 'length',
  calliper: 'length',
};

export const quantityText = z.string().trim().min(1).max(QUANTITY_TEXT_LENGTH_MAX);
const name = z.string().trim().min(1).max(NAME_LENGTH_MAX);
const text = z.string().trim().min(1).max(TEXT_LENGTH_MAX);

/** From and to, each with its unit: "0", "100 kN". */
export const quantityRange = z.strictObject({ from: quantityText, to: quantityText });
export type QuantityRange = z.infer<typeof quantityRange>;

export const instrumentForm = atFirstUse(() =>
  z
    .strictObject({
      kind: z.enum(INSTRUMENT_KINDS),
      /** What it is called here, as on its label: "LC-20". */
      name,
      serialNumber: name.exactOptional(),
      /** "load cell 200 kN on the crosshead", "clip-on, gauge length 50 mm". */
      description: text.exactOptional(),
      range: quantityRange.exactOptional(),
      /** One digit of its display. */
      resolution: quantityText.exactOptional(),
      /** As its maker or its last certificate states it: "class 1 (ISO 7500-1)", "B-2 (ASTM E83)". */
      class: name.exactOptional(),
      notes: text.exactOptional(),
    })
    .superRefine(({ kind, range, resolution }, context) => {
      const dimension = MEASURES[kind];
      const issue = (path: (string | number)[], message: string): void => {
        context.addIssue({ code: 'custom', path, message });
      };
      if (resolution !== undefined) {
        const read = parseQuantity(resolution, { dimension, positive: true });
        if (!read.ok) issue(['resolution'], quantityFaultSentence(read.fault, resolution, dimension));
      }
      rangeFaults(range, dimension).forEach(([field, sentence]) => {
        issue(['range', field], sentence);
      });
    }),
);
export type InstrumentForm = z.infer<typeof instrumentForm>;

/** What is wrong with a range of a force or a length; a zero needs no unit. */
export function rangeFaults(
  range: QuantityRange | undefined,
  dimension: 'force' | 'length',
): readonly (readonly ['from' | 'to', string])[] {
  if (range === undefined) return [];
  const faults = (['from', 'to'] as const).flatMap((end): (readonly ['from' | 'to', string])[] => {
    const read = readEnd(range[end], dimension);
    return read.ok ? [] : [[end, quantityFaultSentence(read.fault, range[end], dimension)]];
  });
  if (faults.length > 0) return faults;
  const ends = rangeInCore(range, dimension);
  return ends.from.compare(ends.to) < 0
    ? []
    : [
        [
          'to',
          `the upper end "${range.to}" does not lie above the lower end "${range.from}"; correct one of them`,
        ],
      ];
}

/** A zero is the same in every unit, and on a plate it often stands without one. */
const readEnd = (typed: string, dimension: 'force' | 'length') =>
  parseQuantity(typed, {
    dimension,
    ...(/^0+(?:[.,]0*)?$/.test(typed.trim()) ? { unitIfMissing: CORE_UNIT[dimension] } : {}),
  });

/** Ends in N or mm, exact. Throws where the texts have not been checked. */
export function rangeInCore(range: QuantityRange, dimension: 'force' | 'length'): { from: Exact; to: Exact } {
  const of = (typed: string): Exact => {
    const read = readEnd(typed, dimension);
    if (!read.ok) throw new RangeError(`the end "${typed}" of a range can't be read`);
    return convertExact(read.quantity.exact, read.quantity.unit, CORE_UNIT[dimension]);
  };
  return { from: of(range.from), to: of(range.to) };
}
