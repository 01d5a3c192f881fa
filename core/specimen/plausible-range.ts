/**
 * Sizes in which specimens of each shape are made. A length outside is asked about, never refused: it is mostly a lost
 * decimal point or the other unit ("24.9 in" for "0.249 in"). All in mm.
 */
import { numberText } from '../quantity/number-text.ts';
import { parseQuantity } from '../quantity/parse-quantity.ts';
import type { GeometryKind } from './specimen-file.ts';

export interface PlausibleRange {
  readonly minMm: number;
  readonly maxMm: number;
  readonly source: string;
}

const PRACTICE = 'common practice, no source';

/** Shapes and their lengths; mass and density are no lengths and have none. */
export const PLAUSIBLE: Readonly<Record<GeometryKind, Readonly<Partial<Record<string, PlausibleRange>>>>> = {
  flat: {
    // The standard ones are 6.35 to 41.3 mm wide (ASTM E8/E8M Fig. 1: subsize to plate type with its tolerance).
    width: { minMm: 2, maxMm: 100, source: `ASTM E8/E8M Fig. 1 with room on both sides, ${PRACTICE}` },
    // Sheet from 0.1 mm (ISO 6892-1 annex for thin products, from memory); welds are pulled in full thickness.
    thickness: { minMm: 0.05, maxMm: 100, source: `ISO 6892-1 (from memory) and ${PRACTICE}` },
  },
  round: { diameter: { minMm: 1, maxMm: 65, source: PRACTICE } },
  tube: {
    outerDiameter: { minMm: 2, maxMm: 350, source: PRACTICE },
    wall: { minMm: 0.1, maxMm: 60, source: PRACTICE },
  },
  'pipe-strip': {
    width: { minMm: 2, maxMm: 100, source: PRACTICE },
    wall: { minMm: 0.3, maxMm: 100, source: PRACTICE },
    outerDiameter: { minMm: 10, maxMm: 3_000, source: PRACTICE },
  },
  weighed: { length: { minMm: 20, maxMm: 2_000, source: PRACTICE } },
};

/** 5 mm of the smallest proportional specimens to twice the 250 mm of wire and rope. */
const GAUGE_LENGTH: PlausibleRange = { minMm: 4, maxMm: 500, source: PRACTICE };

export function plausibleRange(kind: GeometryKind, field: string): PlausibleRange | null {
  return field === 'gaugeLength' ? GAUGE_LENGTH : (PLAUSIBLE[kind][field] ?? null);
}

export interface OutsideRange {
  readonly text: string;
  /** In the unit that was typed: "0.002 to 3.94 in". */
  readonly usual: string;
}

/** What is outside the usual sizes; null where it is inside, or can't be read at all (told elsewhere). */
export function outsideRange(kind: GeometryKind, field: string, text: string): OutsideRange | null {
  const range = plausibleRange(kind, field);
  const outcome = parseQuantity(text, { dimension: 'length', positive: true });
  if (range === null || !outcome.ok) return null;
  const { core, unit } = outcome.quantity;
  if (core >= range.minMm && core <= range.maxMm) return null;
  const inch = unit === 'in' || unit === 'mil' || unit === 'ft';
  const shown = (mm: number): string => numberText(inch ? mm / 25.4 : mm, 2);
  return { text: text.trim(), usual: `${shown(range.minMm)} to ${shown(range.maxMm)} ${inch ? 'in' : 'mm'}` };
}
