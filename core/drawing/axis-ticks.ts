/** Where the lines of a scale stand: whole, half or fifth parts of a power of ten. */

/**
 * Millimetres of a drawing between main lines that read well: along, the words of a scale stand beside each other, upward
 * beneath each other. Of a plot on the page as of one on paper.
 */
export const MAIN_LINES_MM = { along: 22, up: 12.8 } as const;

const STEPS = [1, 2, 5, 10] as const;
/** A step a third short of what fits is still better than one that leaves two lines. */
const SHORT_OF = 0.66;

/** Distance between main lines so that about `wanted` of them fit. */
export function tickStep(min: number, max: number, wanted: number): number {
  const rough = Math.max(max - min, Number.MIN_VALUE) / Math.max(wanted, 1);
  const power = 10 ** Math.floor(Math.log10(rough));
  return (STEPS.find((s) => s * power >= rough * SHORT_OF) ?? 10) * power;
}

/** Multiples of `step` from `min` to `max`, both included where they are multiples. */
export function ticks(min: number, max: number, step: number): number[] {
  const first = Math.ceil(min / step - 1e-9);
  const last = Math.floor(max / step + 1e-9);
  // Multiplying by the whole number keeps 0.3 from becoming 0.1 + 0.1 + 0.1.
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) =>
    Number(((first + i) * step).toPrecision(12)),
  );
}

/** Places behind the decimal sign that tell multiples of `step` apart. */
export function tickPlaces(step: number): number {
  return Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
}
