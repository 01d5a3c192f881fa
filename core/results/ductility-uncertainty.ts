/** Uncertainty of A from refitted halves and of Z, both in percent; one calliper measured before and after. */
import type { Specimen } from '../specimen/specimen.ts';
import type { AreaOptions } from './area.ts';
import { areaInputs } from './area-uncertainty.ts';
import { type DimensionInput, dimensionLines } from './dimension-uncertainty.ts';
import type { ReductionOptions } from './reduction-of-area.ts';
import type { ResultUncertainty } from './result.ts';
import { combinedUncertainty } from './uncertainty.ts';

/** A = (Lu − L0)/L0 in percent; null where one of the lengths is missing. */
export function elongationUncertainty(specimen: Specimen): ResultUncertainty | null {
  const { gaugeLength, finalGaugeLength } = specimen;
  if (gaugeLength === undefined || finalGaugeLength === undefined) return null;
  const l0 = gaugeLength.mean;
  const lines = dimensionLines(
    [
      {
        name: 'original gauge length',
        dimension: gaugeLength,
        sensitivity: (-100 * finalGaugeLength.mean) / l0 ** 2,
        mean: true,
      },
      { name: 'final gauge length', dimension: finalGaugeLength, sensitivity: 100 / l0, mean: true },
    ],
    specimen,
  );
  return lines.length === 0 ? null : combinedUncertainty(lines);
}

/** Z = (S0 − Su)/S0 in percent for round and flat specimens; null where the final section is missing. */
export function reductionUncertainty(
  specimen: Specimen,
  areas: { readonly originalMm2: number; readonly finalMm2: number },
  options: AreaOptions & ReductionOptions = {},
): ResultUncertainty | null {
  const { originalMm2: s0, finalMm2: su } = areas;
  const before = areaInputs(specimen.geometry, options).map((input) => ({
    ...input,
    sensitivity: ((100 * su) / s0 ** 2) * input.sensitivity,
  }));
  const after = finalInputs(specimen, su, options).map((input) => ({
    ...input,
    sensitivity: (-100 / s0) * input.sensitivity,
  }));
  if (after.length === 0) return null;
  const lines = dimensionLines([...before, ...after], specimen);
  return lines.length === 0 ? null : combinedUncertainty(lines);
}

/** Dimensions of Su with ∂Su/∂dimension in mm² per mm. */
function finalInputs(specimen: Specimen, su: number, options: ReductionOptions): DimensionInput[] {
  const { geometry, finalDiameter, finalWidth, finalThickness } = specimen;
  if (geometry.kind === 'round' && finalDiameter !== undefined) {
    const mean = (finalDiameter.min + finalDiameter.max) / 2;
    // Largest and smallest of an oval neck are two sizes, not repeated measurements of one.
    return [
      { name: 'final diameter', dimension: finalDiameter, sensitivity: (Math.PI / 2) * mean, mean: false },
    ];
  }
  if (geometry.kind === 'flat' && finalWidth !== undefined && finalThickness !== undefined) {
    const parabola =
      (options.finalSection ?? (finalThickness.measurements.length === 3 ? 'parabola' : 'plain')) ===
      'parabola';
    return [
      { name: 'final width', dimension: finalWidth, sensitivity: su / finalWidth.mean, mean: true },
      {
        name: 'final thickness',
        dimension: finalThickness,
        sensitivity: finalWidth.mean,
        // Edge, centre and edge are three sizes, not repeated measurements of one.
        mean: !parabola,
      },
    ];
  }
  return [];
}
