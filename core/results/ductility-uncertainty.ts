/** Uncertainty of A from refitted halves and of Z, both in percent; one calliper measured before and after. */
import type { MeasuredDimension, Specimen } from '../specimen/specimen.ts';
import type { AreaOptions } from './area.ts';
import { areaInputs } from './area-uncertainty.ts';
import { type DimensionInput, dimensionLines } from './dimension-uncertainty.ts';
import type { ReductionOptions } from './reduction-of-area.ts';
import type { ResultUncertainty } from './result.ts';
import { type UncertaintyInput, combinedUncertainty, rectangular } from './uncertainty.ts';

/** A = (Lu − L0)/L0 in percent; null where one of the lengths is missing. */
export function elongationUncertainty(specimen: Specimen): ResultUncertainty | null {
  const { gaugeLength, finalGaugeLength } = specimen;
  if (gaugeLength === undefined || finalGaugeLength === undefined) return null;
  const l0 = gaugeLength.mean;
  const original: DimensionInput = {
    name: 'original gauge length',
    dimension: gaugeLength,
    sensitivity: (-100 * finalGaugeLength.mean) / l0 ** 2,
    mean: true,
  };
  const final: DimensionInput = {
    name: 'final gauge length',
    dimension: finalGaugeLength,
    sensitivity: 100 / l0,
    mean: true,
  };
  const lines = isNominal(gaugeLength)
    ? [markingLine(original, l0), ...dimensionLines([final], specimen)]
    : dimensionLines([original, final], specimen);
  return lines.length === 0 ? null : combinedUncertainty(lines);
}

/** Gauge marks lie within this part of the nominal length: 2.000 in ± 0.005 in, ASTM E8/E8M Fig. 8. */
const MARKING_TOLERANCE = 0.0025;

/** "2 in", "50 mm": the length that was marked, not one that was measured; its digits say nothing of a display. */
function isNominal({ measurements }: MeasuredDimension): boolean {
  return measurements.length === 1 && measurements.every(({ text }) => !/[.,/]/.test(text));
}

function markingLine({ name, sensitivity }: DimensionInput, lengthMm: number): UncertaintyInput {
  return {
    source: `${name}: marked to a nominal length, within 0.25 % (ASTM E8/E8M Fig. 8)`,
    standard: rectangular(MARKING_TOLERANCE * lengthMm),
    unit: 'mm',
    sensitivity,
    distribution: 'rectangular',
  };
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
