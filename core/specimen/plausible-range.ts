/**
 * Sizes in which specimens of each shape are made. A length outside is asked about, never refused: it is mostly a lost
 * decimal point or the other unit ("24.9 in" for "0.249 in"). All in mm.
 */
import { numberText } from '../quantity/number-text.ts';
import { parseQuantity } from '../quantity/parse-quantity.ts';
import { measuredDimensions } from './measured-dimensions.ts';
import type { Specimen } from './specimen.ts';
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
  unmeasured: {},
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
  return range === null ? null : outsideOf(range, text);
}

/** The same for a range that was worked out, as that of a size after fracture. */
export function outsideOf(range: PlausibleRange, text: string): OutsideRange | null {
  const outcome = parseQuantity(text, { dimension: 'length', positive: true });
  if (!outcome.ok) return null;
  const { core, unit } = outcome.quantity;
  if (core >= range.minMm && core <= range.maxMm) return null;
  const inch = unit === 'in' || unit === 'mil' || unit === 'ft';
  const shown = (mm: number): string => numberText(inch ? mm / 25.4 : mm, 2);
  return { text: text.trim(), usual: `${shown(range.minMm)} to ${shown(range.maxMm)} ${inch ? 'in' : 'mm'}` };
}

/** The halves are put together again to no less than L0; more than twice and a half of it no weld stretches. */
const FINAL_GAUGE_LENGTHS = { least: 0.95, most: 2.5 } as const;
/** A neck draws in to a tenth at most, and nothing grows in width; the calliper's own error is left room. */
const FINAL_SECTIONS = { least: 0.1, most: 1.02 } as const;

export type FinalSize = 'finalGaugeLength' | 'finalWidth' | 'finalThickness' | 'finalDiameter';

/** What a size after fracture can be, from the same size before; null where that was not measured. */
export function rangeAfterFracture(
  { geometry, gaugeLength }: Specimen,
  size: FinalSize,
): PlausibleRange | null {
  const before =
    size === 'finalGaugeLength'
      ? gaugeLength
      : size === 'finalDiameter'
        ? geometry.kind === 'round'
          ? geometry.diameter
          : undefined
        : geometry.kind === 'flat'
          ? geometry[size === 'finalWidth' ? 'width' : 'thickness']
          : undefined;
  if (before === undefined) return null;
  const { least, most } = size === 'finalGaugeLength' ? FINAL_GAUGE_LENGTHS : FINAL_SECTIONS;
  return { minMm: least * before.mean, maxMm: most * before.mean, source: PRACTICE };
}

const FINAL_SIZES: readonly FinalSize[] = [
  'finalGaugeLength',
  'finalWidth',
  'finalThickness',
  'finalDiameter',
];

/** One sentence for each size of a specimen that nobody can be asked about: what a file holds is taken as it is. */
export function sizesOutsideRange(specimen: Specimen): string[] {
  const { geometry } = specimen;
  const before = [
    ...measuredDimensions(geometry).map(([field, size]) => ({
      field,
      size,
      range: plausibleRange(geometry.kind, field),
    })),
    { field: 'gaugeLength', size: specimen.gaugeLength, range: GAUGE_LENGTH },
  ];
  const after = FINAL_SIZES.map((field) => ({
    field,
    size: specimen[field],
    range: rangeAfterFracture(specimen, field),
  }));
  return [...before, ...after].flatMap(({ field, size, range }) => {
    const found = size?.measurements.flatMap(({ text }) =>
      range === null ? [] : (outsideOf(range, text) ?? []),
    );
    const [first] = found ?? [];
    return first === undefined
      ? []
      : [
          `${specimen.id}: ${field} ${first.text} is not what such a specimen has, ${first.usual}; check the decimal point and the unit. It is taken as it is.`,
        ];
  });
}
