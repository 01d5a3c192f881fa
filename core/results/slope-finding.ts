/** mE, the slope of the elastic part, and the sentence that says when it is not fit for a modulus of elasticity. */
import { numberText } from '../quantity/number-text.ts';
import type { ElasticLine } from './elastic-line.ts';
import { BEND_MAX } from './elastic-slope.ts';
import type { EvaluatedRecord } from './evaluated-record.ts';
import type { ElasticSlope } from './evaluation.ts';
import { type Finding, given, readingNumber, withhold } from './finding.ts';
import type { LineFit } from './line-fit.ts';
import { FROM_TRAVEL } from './record-columns.ts';
import { slopeOfMetals } from './slope-of-metals.ts';

const NAME = 'slope of the elastic part';
/** ISO 6892-1 (2016 and later), determination of a modulus: R² above this, relative uncertainty of the slope below that (from memory). */
export const MODULUS_DETERMINATION_MIN = 0.9995;
export const MODULUS_UNCERTAINTY_MAX = 0.01;
/** Halves of the window that differ by more than this part. */
const MODULUS_BEND_MAX = 0.05;
/** A modulus from fewer readings is a drawing exercise. */
const MODULUS_READINGS_MIN = 20;

/** A toe that reaches beyond this part of the reference stress leaves a short window high up, next to yielding. */
const TOE_REACH_MAX = 0.3;

const CHOSEN_WORDS: Readonly<Record<ElasticLine['chosen'], string>> = {
  standard: '10 % to 40 % of the reference stress',
  'above-toe': 'moved up out of the toe',
  'below-early-yield': 'moved down, below where yielding begins',
  whole: 'the whole elastic part, which is bent without a toe or early yielding',
  sparse: 'few readings: the run with the least uncertainty of its slope',
  hand: 'set by hand',
  loop: 'through both branches of the unloading loop (ISO 6892-1, from memory)',
};

const METHOD_WORDS: Readonly<Record<LineFit['method'], string>> = {
  'least-squares': 'least squares of stress on strain',
  'both-noisy': 'line with the noise of both channels taken into account (Deming)',
  'median-of-pairs': 'median of the slopes of all pairs of readings',
};

export function elasticSlope(record: EvaluatedRecord): ElasticSlope | null {
  const { line } = record;
  if (line === null) return null;
  const { fit, loop } = line;
  const range = loop === undefined ? line.range : { from: loop.topIndex, to: loop.backIndex };
  const notAModulus = doubtsOf(record, line);
  return {
    slopeMpa: fit.slope,
    footStrain: -fit.intercept / fit.slope,
    fromIndex: range.from,
    toIndex: range.to - 1,
    lowerMpa: line.lowerMpa,
    upperMpa: line.upperMpa,
    readings: fit.readings,
    meanStressMpa: fit.meanStress,
    standardUncertaintyMpa: fit.slopeUncertainty,
    residualMpa: fit.residual,
    determination: fit.determination,
    setBy: line.chosen === 'hand' ? 'hand' : 'program',
    ...(notAModulus === null ? {} : { notAModulus }),
  };
}

function doubtsOf(record: EvaluatedRecord, line: ElasticLine): string | null {
  const { fit, bend } = line;
  const doubts = toeDoubts(line);
  if (record.columns.strainSource?.channel === 'travel') doubts.push(`strain is ${FROM_TRAVEL}`);
  if (fit.readings < MODULUS_READINGS_MIN)
    doubts.push(
      `the line rests on ${String(fit.readings)} readings (${String(MODULUS_READINGS_MIN)} wanted)`,
    );
  if (fit.determination < MODULUS_DETERMINATION_MIN)
    doubts.push(
      `R² is ${numberText(fit.determination, 5)} (above ${String(MODULUS_DETERMINATION_MIN)} wanted)`,
    );
  const relative = fit.slopeUncertainty / fit.slope;
  if (relative > MODULUS_UNCERTAINTY_MAX)
    doubts.push(
      `the slope is uncertain by ${numberText(100 * relative, 2)} % (${String(100 * MODULUS_UNCERTAINTY_MAX)} % wanted)`,
    );
  if (bend !== null && Math.abs(bend) > MODULUS_BEND_MAX)
    doubts.push(`the slopes of its two halves differ by ${numberText(100 * Math.abs(bend), 2)} %`);
  return doubts.length === 0 ? null : `Not fit for a modulus of elasticity: ${doubts.join('; ')}.`;
}

function stepsOf({ referenceMpa, loop, range }: ElasticLine): { steps?: string[] } {
  if (loop !== undefined)
    return {
      steps: [
        `Unloading loop from reading ${readingNumber(loop.topIndex)} down to reading ${readingNumber(loop.lowIndex)} and back at reading ${readingNumber(loop.backIndex)}; the slope is that of the line through both branches.`,
        `The corrected origin e0 is where a parallel to that line meets zero stress which touches the loading at readings ${readingNumber(range.from)} to ${readingNumber(range.to - 1)}.`,
      ],
    };
  return referenceMpa === undefined
    ? {}
    : { steps: [`reference stress of the window: ${numberText(referenceMpa, 4)} MPa`] };
}

/** A toe that leaves little of the elastic part, or nothing, for the line. */
function toeDoubts({ chosen, bend, lowerMpa, upperMpa, referenceMpa }: ElasticLine): string[] {
  if (chosen === 'standard' && bend !== null && bend > BEND_MAX)
    return ['the toe (take-up of the grips) reaches over the whole elastic part, no straight window is left'];
  if (chosen !== 'above-toe' || referenceMpa === undefined) return [];
  return lowerMpa < TOE_REACH_MAX * referenceMpa
    ? []
    : [
        `the toe (take-up of the grips) reaches over much of the elastic part, only ${numberText(lowerMpa, 3)} to ${numberText(upperMpa, 3)} MPa are left for the line`,
      ];
}

export function slopeFinding(record: EvaluatedRecord, slope: ElasticSlope | null): Finding {
  const { line } = record;
  if (line === null || slope === null) {
    const reason = record.lineReason ??
      record.strainReason ?? { code: 'no-strain', reason: 'The curve has no strain.' };
    return withhold('mE', NAME, reason.code, reason.reason);
  }
  const { fit } = line;
  const metals = record.columns.strainSource?.channel === 'travel' ? null : slopeOfMetals(line);
  const remarks = [slope.notAModulus, metals?.sentence].filter((sentence) => sentence !== undefined);
  return given({
    symbol: 'mE',
    name: NAME,
    value: slope.slopeMpa,
    unit: 'MPa',
    rounded: [],
    method: `${METHOD_WORDS[fit.method]} between ${numberText(line.lowerMpa, 4)} and ${numberText(line.upperMpa, 4)} MPa, ${CHOSEN_WORDS[line.chosen]}`,
    working: {
      formula: 'R = mE·(e − e0)',
      inputs: [
        {
          symbol: 'n',
          name: 'readings in the window',
          value: fit.readings,
          unit: '1',
          from: `readings ${readingNumber(slope.fromIndex)} to ${readingNumber(slope.toIndex)}`,
        },
        {
          symbol: 'R²',
          name: 'coefficient of determination',
          value: fit.determination,
          unit: '1',
          from: 'same readings',
        },
        {
          symbol: 's',
          name: 'residual standard deviation',
          value: fit.residual,
          unit: 'MPa',
          from: 'same readings',
        },
        {
          symbol: 'u(mE)',
          name: 'standard uncertainty of the slope from the scatter of the fit alone',
          value: fit.slopeUncertainty,
          unit: 'MPa',
          from: 'scatter about the line, readings that follow one another not taken as independent',
        },
        {
          symbol: 'e0',
          name: 'extension at which the line meets zero stress',
          value: 100 * slope.footStrain,
          unit: '%',
          from: 'same line',
        },
      ],
      substituted: `mE = ${numberText(slope.slopeMpa)} MPa, u = ${numberText(fit.slopeUncertainty, 2)} MPa from scatter alone`,
      source:
        'ISO 6892-1, slope of the elastic part (window and criteria from memory); a modulus proper is ASTM E111',
      ...stepsOf(line),
    },
    ...(remarks.length === 0 ? {} : { remarks }),
  });
}
