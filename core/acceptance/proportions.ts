/** Whether a specimen has the proportions that the rules ask for, as far as its measurements tell. Pure. */
import { numberText } from '../quantity/number-text.ts';
import { parseQuantity } from '../quantity/parse-quantity.ts';
import { area } from '../results/area.ts';
import type { Geometry, MeasuredDimension, Specimen } from '../specimen/specimen.ts';
import type { Doubt } from './doubts.ts';
import type { RulePackFile } from './rule-pack.ts';
import type { Proportion } from './specimen-proportion.ts';
import { STATUS_WORDS } from './source-status.ts';

/** One doubt for each proportion that is not met; none where nothing is asked for or nothing can be told. */
export function proportionDoubts(pack: RulePackFile, specimen: Specimen): Doubt[] {
  return pack.specimens.proportions
    .filter((asked) => asked.shape === specimen.geometry.kind && applies(asked, specimen.geometry))
    .flatMap((asked) => {
      const found = [
        ...widthFaults(asked, specimen),
        ...diameterFaults(asked, specimen),
        ...gaugeLengthFaults(asked, specimen),
      ];
      if (found.length === 0) return [];
      const status = pack.clauses.find(({ id }) => id === asked.clause)?.status;
      const from = status === undefined ? '' : `, ${STATUS_WORDS[status]}`;
      return [
        {
          code: 'wrong-proportion',
          detail: `${found.join('; ')} (${asked.clause}${from})`,
        } as const satisfies Doubt,
      ];
    });
}

function applies({ when }: Proportion, geometry: Geometry): boolean {
  return (
    isWithin(thicknessOf(geometry), when.thicknessOver, when.thicknessUpTo) &&
    isWithin(outsideDiameterOf(geometry), when.outsideDiameterOver, when.outsideDiameterUpTo)
  );
}

function isWithin(
  measured: MeasuredDimension | null,
  over: string | undefined,
  upTo: string | undefined,
): boolean {
  if (over === undefined && upTo === undefined) return true;
  if (measured === null) return false;
  return (
    (over === undefined || measured.mean > millimetres(over)) &&
    (upTo === undefined || measured.mean <= millimetres(upTo))
  );
}

function thicknessOf(geometry: Geometry): MeasuredDimension | null {
  if (geometry.kind === 'flat') return geometry.thickness;
  return geometry.kind === 'pipe-strip' || geometry.kind === 'tube' ? geometry.wall : null;
}

const outsideDiameterOf = (geometry: Geometry): MeasuredDimension | null =>
  geometry.kind === 'pipe-strip' || geometry.kind === 'tube' ? geometry.outerDiameter : null;

function widthFaults({ widthAtLeast, widthAtMost }: Proportion, { geometry }: Specimen): string[] {
  if (!('width' in geometry)) return [];
  const { width } = geometry;
  const under = widthAtLeast !== undefined && width.mean < millimetres(widthAtLeast);
  const over = widthAtMost !== undefined && width.mean > millimetres(widthAtMost);
  if (!under && !over) return [];
  const bound = under ? `at least ${widthAtLeast}` : `at most ${widthAtMost ?? ''}`;
  return [`the width is ${measuredText(width)}, ${bound} is asked for`];
}

/** A mean of decimal texts in binary fractions; a diameter at the very limit is within it. */
const ROUNDING_MM = 1e-9;

function diameterFaults(
  { diameters = [], outsideDiameterAtMost }: Proportion,
  { geometry }: Specimen,
): string[] {
  const outside = outsideDiameterOf(geometry);
  if (outside !== null && outsideDiameterAtMost !== undefined)
    return outside.mean <= millimetres(outsideDiameterAtMost) + ROUNDING_MM
      ? []
      : [`the outside diameter is ${measuredText(outside)}, at most ${outsideDiameterAtMost} is asked for`];
  if (geometry.kind !== 'round' || diameters.length === 0) return [];
  const { diameter } = geometry;
  const fits = diameters.some(
    ({ nominal, tolerance }) =>
      Math.abs(diameter.mean - millimetres(nominal)) <= millimetres(tolerance) + ROUNDING_MM,
  );
  const wanted = diameters.map(({ nominal, tolerance }) => `${nominal} ± ${tolerance}`).join(' or ');
  return fits ? [] : [`the diameter is ${measuredText(diameter)}; ${wanted} is asked for`];
}

function gaugeLengthFaults({ gaugeLength: asked }: Proportion, specimen: Specimen): string[] {
  const marked = specimen.gaugeLength;
  if (asked === undefined || marked === undefined) return [];
  const reference = referenceLength(asked.of, specimen.geometry);
  if (reference === null) return [];
  const within = Number(asked.within.replace(/\s*%$/, '')) / 100;
  const fits = asked.times.some((times) => {
    const nominal = Number(times) * reference.mm;
    return Math.abs(marked.mean - nominal) <= within * nominal;
  });
  if (fits) return [];
  const wanted = asked.times.map((times) => `${times}${reference.word}`).join(' or ');
  return [
    `the gauge length is ${measuredText(marked)}, ${numberText(marked.mean / reference.mm, 3)}${reference.word}; ${wanted} is asked for, within ${asked.within}`,
  ];
}

function referenceLength(
  of: 'diameter' | 'root-of-section',
  geometry: Geometry,
): { readonly mm: number; readonly word: string } | null {
  if (of === 'diameter') return geometry.kind === 'round' ? { mm: geometry.diameter.mean, word: ' d' } : null;
  const section = area(geometry);
  return section.ok ? { mm: Math.sqrt(section.area.areaMm2), word: ' √S0' } : null;
}

function measuredText({ measurements, mean }: MeasuredDimension): string {
  const [first, second] = measurements;
  return first !== undefined && second === undefined ? first.text : `${numberText(mean, 5)} mm on average`;
}

/** Of a text that the pack's schema has checked. */
function millimetres(text: string): number {
  const read = parseQuantity(text, { dimension: 'length' });
  if (!read.ok) throw new RangeError(`not a length: ${text}`);
  return read.quantity.core;
}
