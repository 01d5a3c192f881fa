/** The ways in which the cases reach the program's arithmetic: a specimen as typed, a curve, an evaluation. */
import type { Curve } from '../curve/curve.ts';
import { type UnitSymbol, convert } from '../quantity/units.ts';
import { type AreaOptions, area } from '../results/area.ts';
import { evaluate } from '../results/evaluate.ts';
import type { EvaluationOptions } from '../results/evaluation.ts';
import { readSpecimen } from '../specimen/read-specimen.ts';
import type { Specimen } from '../specimen/specimen.ts';

/** A specimen from its text form. Throws where the text is faulty. */
export function specimenFrom(file: object): Specimen {
  const outcome = readSpecimen({ id: 'self-check', ...file });
  if (!outcome.ok) throw new Error(outcome.faults[0]?.sentence ?? 'the specimen is faulty');
  return outcome.specimen;
}

/** S0 in a unit. Throws where there is none. */
export function areaIn(unit: UnitSymbol, geometry: object, options: AreaOptions = {}): number {
  const outcome = area(specimenFrom({ geometry }).geometry, options);
  if (!outcome.ok) throw new Error(outcome.withheld.reason);
  return convert(outcome.area.areaMm2, 'mm²', unit);
}

/** One result of an evaluation, in a unit. Throws with the reason where it is withheld. */
export function resultOf(
  symbol: string,
  unit: UnitSymbol,
  curve: Curve,
  specimen: Specimen | null,
  options: EvaluationOptions = {},
): number {
  const evaluation = evaluate(curve, specimen, options);
  const result = evaluation.results.find((r) => r.symbol === symbol);
  if (result !== undefined) return convert(result.value, result.unit, unit);
  const withheld = evaluation.withheld.find((w) => w.symbol === symbol);
  throw new Error(withheld?.reason ?? `the evaluation says nothing about ${symbol}`);
}

/** Readings of the rise to a maximum force and of the break, for examples that state nothing but the maximum. */
export function curveToPeak(peak: number, unit: UnitSymbol): Curve {
  const peakN = convert(peak, unit, 'N');
  const rise = 40;
  const forceN = new Float64Array(rise + 12);
  for (let i = 0; i <= rise; i++) forceN[i] = peakN * (1 - (1 - i / rise) ** 2);
  for (let i = rise + 1; i < rise + 6; i++) forceN[i] = peakN * (1 - 0.02 * (i - rise));
  return { length: forceN.length, forceN, timeS: forceN.map((_, i) => i) };
}

/** A curve of stress over strain from a table. */
export function curveFromTable(
  rows: readonly (readonly [strain: number, stress: number])[],
  stressUnit: UnitSymbol,
): Curve {
  return {
    length: rows.length,
    strainRatio: Float64Array.from(rows, ([strain]) => strain),
    stressMpa: Float64Array.from(rows, ([, stress]) => convert(stress, stressUnit, 'MPa')),
  };
}
