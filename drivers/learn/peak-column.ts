/** Columns that show the largest value so far of another one: a readout's peak memory beside its live value. */
import type { Column } from './column-kind.ts';

/** Of the lines in which the peak rises, and of all lines, so many must agree; a damaged line now and then may not. */
const AGREEING = 0.95;
/** The peak must have risen so often, and have stood above the live value in so many lines, to be told from a copy. */
const RISES_MIN = 4;
const ABOVE_MIN = 5;

/** From the index of each peak to the index of the column that it is the peak of. */
export function peakColumns(columns: readonly Column[]): Map<number, number> {
  const peaks = new Map<number, number>();
  columns.forEach((peak, at) => {
    const live = columns.findIndex(
      (column, other) => other !== at && !peaks.has(other) && isPeakOf(peak, column),
    );
    if (live !== -1) peaks.set(at, live);
  });
  return peaks;
}

function isPeakOf(peak: Column, live: Column): boolean {
  if (peak.kind === 'clock' || live.kind === 'clock') return false;
  const [peakUnit, liveUnit] = [peak.unit?.written.symbol, live.unit?.written.symbol];
  if (peakUnit !== undefined && liveUnit !== undefined && peakUnit !== liveUnit) return false;
  const step = 1.01 * 10 ** -Math.min(peak.decimals, live.decimals);
  // Tension may be shown as negative, and the peak of it as negative or not.
  return [(value: number) => value, (value: number) => -value, Math.abs].some((turned) =>
    follows(peak.values.map(turned), live.values.map(turned), step),
  );
}

/** Whether the peak stays or goes to the live value, whichever is larger, within the last digit shown. */
function follows(peak: readonly number[], live: readonly number[], step: number): boolean {
  const seen = { lines: 0, agreeing: 0, rises: 0, risesAgreeing: 0, above: 0 };
  for (let index = 1; index < peak.length; index++) {
    const [before = Number.NaN, now = Number.NaN, value = Number.NaN] = [
      peak[index - 1],
      peak[index],
      live[index],
    ];
    if (Number.isNaN(before + now + value)) continue;
    seen.lines++;
    if (Math.abs(now - Math.max(before, value)) <= step) seen.agreeing++;
    if (now > before) {
      seen.rises++;
      if (Math.abs(now - value) <= step) seen.risesAgreeing++;
    }
    if (now - value > 3 * step) seen.above++;
  }
  return (
    seen.agreeing >= seen.lines * AGREEING &&
    seen.rises >= RISES_MIN &&
    seen.risesAgreeing >= seen.rises * AGREEING &&
    seen.above >= Math.max(ABOVE_MIN, seen.lines * 0.02)
  );
}
