/** Uncertainty of S0 from the dimensions it was made of. */
import { exactFromNumber, toNumber } from '../quantity/exact.ts';
import type { Geometry, Specimen } from '../specimen/specimen.ts';
import type { AreaOptions } from './area.ts';
import { type DimensionInput, dimensionLines } from './dimension-uncertainty.ts';
import { sectionForm } from './section-form.ts';
import type { ResultUncertainty } from './result.ts';
import { type UncertaintyInput, combinedUncertainty, sensitivities } from './uncertainty.ts';

/** Dimensions of S0 with their sensitivities in mm² per unit of the dimension, at the mean of the measurements. */
export function areaInputs(geometry: Geometry, options: AreaOptions): DimensionInput[] {
  if (geometry.kind === 'unmeasured') return [];
  const form = sectionForm(geometry, options.sectionForm ?? 'arc');
  const slopes = sensitivities(
    (values) => {
      const exact = form.areaMm2(values.map(exactFromNumber));
      return exact === null ? Number.NaN : toNumber(exact);
    },
    form.dimensions.map((d) => d.dimension.mean),
  );
  return form.dimensions.map((d, i) => ({
    name: d.name,
    dimension: d.dimension,
    sensitivity: slopes[i] ?? Number.NaN,
    mean: (options.section ?? 'mean') === 'mean',
  }));
}

/** The budget lines of S0; null where the shape leaves no room for a derivative (a strip as wide as the bore). */
export function areaLines(specimen: Specimen, options: AreaOptions = {}): UncertaintyInput[] | null {
  const lines = dimensionLines(areaInputs(specimen.geometry, options), specimen);
  return lines.length > 0 && lines.every((l) => Number.isFinite(l.sensitivity)) ? lines : null;
}

/** Uncertainty of S0 in mm²; null where nothing is known about how the dimensions were measured. */
export function areaUncertainty(specimen: Specimen, options: AreaOptions = {}): ResultUncertainty | null {
  const lines = areaLines(specimen, options);
  return lines === null ? null : combinedUncertainty(lines);
}
