/** The published curves of three open data sets against what their authors, or an independent computation, found. */
import { readCurveCsv } from '../curve/read-csv.ts';
import type { Curve } from '../curve/curve.ts';
import type { UnitSymbol } from '../quantity/units.ts';
import { evaluate } from '../results/evaluate.ts';
import type { EvaluationOptions } from '../results/evaluation.ts';
import { resultOf, specimenFrom } from './program-under-check.ts';
import type { SelfCheckCase } from './self-check-case.ts';

export interface PublishedValue {
  /** A standard's symbol, or "largest stress". */
  readonly symbol: string;
  readonly unit: UnitSymbol;
  readonly value: number;
  readonly tolerance: number;
  readonly why: string;
  /** "true": compared on true stress and true strain as they stand in the file. */
  readonly values?: 'true';
}

export interface PublishedCurve {
  readonly id: string;
  readonly file: string;
  readonly source: string;
  readonly licence: string;
  readonly csv: string;
  readonly specimen?: object;
  /** The file holds true stress and true strain. */
  readonly trueValues?: boolean;
  readonly expected: readonly PublishedValue[];
}

/** Offsets that the data sets publish. */
const OPTIONS: EvaluationOptions = { offsetsPercent: [0.2, 1] };

/** A case for each published value. Reading and evaluating happen when a case is run, once a curve. */
export function publishedCurveCases(curves: readonly PublishedCurve[]): SelfCheckCase[] {
  return curves.flatMap((published) => {
    const recorded = once(() => recordedCurve(published.csv));
    const engineering = once(() => (published.trueValues === true ? fromTrueValues(recorded()) : recorded()));
    const specimen = once(() => (published.specimen === undefined ? null : specimenFrom(published.specimen)));
    return published.expected.map((value): SelfCheckCase => {
      const curve = value.values === 'true' ? recorded : engineering;
      return {
        group: published.id,
        source: published.source,
        status: published.specimen === undefined && value.values !== 'true' ? 'derived' : 'printed',
        what: value.values === 'true' ? `${value.symbol} on true stress and true strain` : value.symbol,
        unit: value.unit,
        expected: value.value,
        tolerance: value.tolerance,
        toleranceReason: value.why,
        run: () =>
          value.symbol === 'largest stress'
            ? largestStress(curve())
            : resultOf(value.symbol, value.unit, curve(), specimen(), OPTIONS),
      };
    });
  });
}

function recordedCurve(csv: string): Curve {
  const outcome = readCurveCsv(new TextEncoder().encode(csv));
  if (!outcome.ok) throw new Error(outcome.fault.sentence);
  return outcome.curve;
}

/** Engineering strain exp(e) − 1 and stress s·exp(−e), for uniform strain at constant volume. */
function fromTrueValues(curve: Curve): Curve {
  const { strainRatio, stressMpa } = curve;
  if (strainRatio === undefined || stressMpa === undefined) throw new Error('no strain or no stress');
  return {
    ...curve,
    strainRatio: strainRatio.map((e) => Math.expm1(e)),
    stressMpa: stressMpa.map((s, i) => s * Math.exp(-(strainRatio[i] ?? Number.NaN))),
  };
}

/** The largest stress that the evaluation reports, whether it is a tensile strength or only where the record stops. */
function largestStress(curve: Curve): number {
  const { results } = evaluate(curve, null);
  const found = results.find((r) => r.symbol === 'Rm' || r.symbol === 'Rmax');
  if (found === undefined) throw new Error('the evaluation gives neither Rm nor a largest stress');
  return found.value;
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | null = null;
  return () => (made ??= { value: make() }).value;
}
