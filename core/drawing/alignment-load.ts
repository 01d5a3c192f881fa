/** The load or stress at which curves are aligned, as somebody typed it. */
import { parseQuantity } from '../quantity/parse-quantity.ts';
import { factorToCore } from '../quantity/units.ts';
import type { PlotUnits, PullPlotForm } from './pull-plot.ts';

/** In the unit of the picture; null where it can't be read. */
export function alignmentLoad(typed: string, form: PullPlotForm, units: PlotUnits): number | null {
  const [dimension, unit] =
    form === 'stress-strain' ? (['stress', units.stress] as const) : (['force', units.force] as const);
  const read = parseQuantity(typed, { dimension, unitIfMissing: unit });
  return read.ok ? read.quantity.core / factorToCore(unit) : null;
}
