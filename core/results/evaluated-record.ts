/**
 * What is found out about a record before any result is taken from it: the columns, the maximum, the end, the part
 * of the extension that counts, the elastic line, the yield point. Every result reads from this, none repeats it.
 */
import type { Channel, IndexRange } from '../curve/channel.ts';
import { channelValue, lastPresent } from '../curve/channel.ts';
import type { RecordBlocks } from '../curve/record-blocks.ts';
import { numberText } from '../quantity/number-text.ts';
import type { ElasticLine } from './elastic-line.ts';
import { elasticLine } from './elastic-slope.ts';
import type { EvaluationOptions } from './evaluation.ts';
import { type ExtensionStep, extensionSteps, lookedAtEnd, quantumOf, stepClause } from './extension-steps.ts';
import { type ExtensionTrust, extensionTrust } from './extension-trust.ts';
import type { Reason } from './finding.ts';
import { type HeightStep, heightSteps } from './height-steps.ts';
import { channelNoise } from './line-fit.ts';
import { type LoadFault, loadFaults } from './load-faults.ts';
import { loadingStart } from './loading-start.ts';
import type { RecordColumns } from './record-columns.ts';
import { type RecordEnd, recordEnd } from './record-end.ts';
import type { RecordScan } from './record-scan.ts';
import { slipAboveLine, slipInElasticPart } from './spread-slip.ts';
import type { UnitStep } from './unit-step.ts';
import type { UsableColumns } from './usable-columns.ts';
import { type YieldPointDecision, yieldPoint } from './yield-point.ts';
import { lineOfLoop } from './unloading-loop.ts';

export interface EvaluatedRecord {
  readonly columns: RecordColumns;
  readonly blocks: RecordBlocks;
  readonly scan: RecordScan;
  /** Readings of the extension set aside, and whether impossible numbers were met. */
  readonly strays: readonly number[];
  readonly impossible: boolean;
  /** Where, after the marked break, the load goes on in another unit. */
  readonly unitStep: UnitStep | null;
  /** Force in N, or stress in MPa where the record has no force. */
  readonly load: Channel;
  readonly stress?: Channel;
  /** As recorded, its own zero. */
  readonly strain?: Channel;
  /** Largest reading of the whole record, spikes left out. */
  readonly peakIndex: number;
  readonly startIndex: number;
  readonly end: RecordEnd;
  readonly trust: ExtensionTrust;
  /** Small slips of the extensometer, ascending. The line's foot takes up those before it. */
  readonly steps: readonly ExtensionStep[];
  /** The load channel standing still or stepping by itself. */
  readonly loadFaults: readonly LoadFault[];
  /** Why results from strain are withheld as a whole; null where strain can be used. */
  readonly strainReason: Reason | null;
  readonly line: ElasticLine | null;
  /** Why there is no elastic line; null where there is one. */
  readonly lineReason: Reason | null;
  /** Strain as recorded at which strain is counted as zero: the line's foot, or the record's own zero. */
  readonly zeroStrain: number;
  readonly yielding: YieldPointDecision | null;
  /** Standard deviation of the stress noise in the elastic part, MPa. */
  readonly noiseMpa: number;
}

/** A slope outside these says that a unit, an area or a gauge length is wrong, or that the strain isn't one. */
export const SLOPE_GPA_MIN = 10;
export const SLOPE_GPA_MAX = 600;
/** A slope more uncertain than this (standard uncertainty, part of it) gives no offset worth reporting. */
export const SLOPE_UNCERTAINTY_MAX = 0.15;
/** Readings without which no curve can be told. */
export const READINGS_MIN = 5;

export function evaluatedRecord(
  { columns, load, blocks, scan, strays, impossible, unitStep }: UsableColumns,
  options: EvaluationOptions,
): EvaluatedRecord {
  const { stress, strain } = columns;
  const peakIndex = scan.largestIndex;
  const startIndex = loadingStart(load, blocks.load, peakIndex);
  const end = recordEnd({
    load,
    blocks: blocks.load,
    peakIndex,
    ...(strain === undefined ? {} : { strain }),
    ...(options.fractureIndex === undefined ? {} : { markedIndex: options.fractureIndex }),
  });
  const base = { columns, blocks, scan, strays, impossible, unitStep, load, peakIndex, startIndex, end };
  const nothing = {
    line: null,
    yielding: null,
    zeroStrain: 0,
    noiseMpa: 0,
    trust: { until: end.index },
    steps: [],
    loadFaults: [],
  };
  const { extension } = blocks;
  if (stress === undefined || strain === undefined || extension === undefined) {
    const reason = columns.stressMissing ?? columns.strainMissing;
    const strainReason = columns.strainMissing ?? columns.stressMissing;
    return { ...base, ...nothing, ...keep(columns), strainReason, lineReason: reason };
  }
  const constant = constantStrain(stress, strain, startIndex, peakIndex);
  if (constant !== null)
    return { ...base, ...nothing, stress, strain, strainReason: constant, lineReason: constant };

  const fromTravel = columns.strainSource?.channel === 'travel';
  const readings = {
    stress,
    strain,
    endIndex: end.index,
    peakMpa: channelValue(stress, peakIndex),
    ...(columns.timeS === undefined ? {} : { timeS: columns.timeS }),
  };
  const lookedAt = lookedAtEnd(strain, extension, startIndex, end.index);
  const single = extensionSteps({ ...readings, startIndex, lookedAtEnd: lookedAt });
  const looksForSlips = single.length === 0 && !fromTravel && options.slopeFrom !== 'loop';
  const heights = looksForSlips
    ? heightSteps(stress, strain, { from: startIndex, to: lookedAt }, readings.peakMpa, SLIP_STRAIN_MAX)
    : [];
  const early = looksForSlips ? earlySlip(stress, strain, heights) : null;
  const seen = early === null ? single : [early];
  const found = lineBesideSteps(seen, startIndex, (from, to = peakIndex + 1) =>
    lineOf(stress, strain, { from, to }, channelValue(stress, peakIndex), fromTravel, options),
  );
  const { line, lineReason } = found;
  const slopeMpa = line?.fit.slope ?? null;
  // A step before the elastic line is taken up by the line's foot: from there on the extension counts.
  const trust = extensionTrust({
    ...readings,
    blocks: extension,
    startIndex: found.from,
    slopeMpa,
  });
  const foot = line === null ? 0 : -line.fit.intercept / line.fit.slope;
  const noiseMpa =
    line === null ? 0 : Math.min(line.fit.residual, Math.sqrt(channelNoise(stress, line.range)));
  const late =
    seen.length > 0 || !looksForSlips || line === null ? null : slipAboveLine(heights, line, noiseMpa);
  const steps = (late === null ? seen : [late]).filter((step) => step.index <= trust.until);
  const faults = loadFaults({
    stress,
    strain,
    range: { from: startIndex, to: lookedAt },
    endIndex: end.index,
    blocks: blocks.load,
    peakMpa: readings.peakMpa,
    slopeMpa: slopeMpa ?? Infinity,
    noiseMpa,
  });
  return {
    ...base,
    stress,
    strain,
    trust,
    steps,
    loadFaults: faults,
    strainReason: found.implausible,
    line,
    lineReason,
    noiseMpa,
    zeroStrain: options.corrections?.toe === false ? 0 : foot,
    yielding:
      line === null
        ? null
        : yieldPoint({
            stress,
            strain,
            range: { from: line.range.to, to: Math.min(end.index, trust.until) + 1 },
            slopeMpa: line.fit.slope,
            footStrain: foot,
            noiseMpa,
          }),
  };
}

/** Slips that take many readings are looked for until the extension has grown by this: every metal has yielded then. */
const SLIP_STRAIN_MAX = 0.02;

/** The noise is that of the heights that the curve rises through, wherever the elastic part lies in them. */
function earlySlip(stress: Channel, strain: Channel, heights: readonly HeightStep[]): ExtensionStep | null {
  const first = heights[0];
  const last = heights[Math.floor(heights.length / 2)];
  if (first === undefined || last === undefined) return null;
  const range = { from: first.index, to: last.index + 1 };
  return slipInElasticPart(heights, {
    stressMpa: Math.sqrt(channelNoise(stress, range)),
    strain: Math.sqrt(channelNoise(strain, range)),
    stressStepMpa: quantumOf(stress.column, range) * stress.factor,
    strainStep: quantumOf(strain.column, range) * strain.factor,
  });
}

const keep = ({ stress, strain }: RecordColumns): { stress?: Channel; strain?: Channel } => ({
  ...(stress === undefined ? {} : { stress }),
  ...(strain === undefined ? {} : { strain }),
});

type FoundLine = ReturnType<typeof lineOf>;

/**
 * The line without a step of the extension inside: where one is, it is taken from the readings after it; where those
 * are too few, from the readings before it.
 */
function lineBesideSteps(
  steps: readonly ExtensionStep[],
  startIndex: number,
  lineFrom: (from: number, to?: number) => FoundLine,
): FoundLine & { readonly from: number } {
  let from = startIndex;
  let found = lineFrom(from);
  const [first] = steps;
  if (found.line === null && found.implausible === null && first !== undefined) {
    const after = lineFrom(first.index);
    if (after.line !== null) found = after;
  }
  for (let step = lastInside(steps, found.line); step !== undefined; step = lastInside(steps, found.line)) {
    from = step.index;
    found = lineFrom(from);
    if (found.line !== null) continue;
    const [first = step] = steps;
    const before = lineFrom(startIndex, first.from ?? first.index);
    if (before.line !== null) return { ...before, from: startIndex };
    return {
      line: null,
      lineReason: {
        code: 'extension-jumped',
        reason: `In the elastic part the extension ${stepClause([step])}, and what is left on either side is too short for a line.`,
      },
      implausible: null,
      from: startIndex,
    };
  }
  const takenUp = steps.filter((step) => found.line !== null && step.index <= found.line.range.from).at(-1);
  return { ...found, from: takenUp?.index ?? startIndex };
}

const lastInside = (steps: readonly ExtensionStep[], line: ElasticLine | null): ExtensionStep | undefined =>
  line === null || line.loop !== undefined
    ? undefined
    : steps
        .filter((step) => step.index > line.range.from && (step.from ?? step.index) < line.range.to)
        .at(-1);

/** Steps of the extension between the elastic line and a reading: what is measured there contains them. */
export const stepsUntil = ({ steps, line }: EvaluatedRecord, index: number): readonly ExtensionStep[] =>
  steps.filter((step) => step.index <= index && (line === null || step.index >= line.range.to));

const NO_LOOP: Reason = {
  code: 'no-unloading-loop',
  reason:
    'The slope was asked for from an unloading loop, and the loading has none in which load and extension went back by half or more and came again; take it from the loading, or unload to about a tenth during the pull.',
};

function lineOf(
  stress: Channel,
  strain: Channel,
  loading: IndexRange,
  peakMpa: number,
  fromTravel: boolean,
  options: EvaluationOptions,
): { line: ElasticLine | null; lineReason: Reason | null; implausible: Reason | null } {
  const fromLoop = options.slopeFrom === 'loop';
  const line = fromLoop
    ? lineOfLoop(stress, strain, loading)
    : elasticLine({
        stress,
        strain,
        loading,
        peakMpa,
        ...(options.slopeWindow === undefined ? {} : { byHand: options.slopeWindow }),
      });
  if (fromLoop && line === null) return { line, lineReason: NO_LOOP, implausible: null };
  if (line === null || !(line.fit.slope > 0)) {
    const reason =
      options.slopeWindow === undefined
        ? {
            code: 'no-straight-part',
            reason:
              'The loading has no straight rising part with at least two different strains, so there is no elastic line.',
          }
        : {
            code: 'no-readings-in-window',
            reason: `Between ${numberText(options.slopeWindow.lowerMpa)} and ${numberText(options.slopeWindow.upperMpa)} MPa there is no rising part to fit a line to; set the window anew.`,
          };
    return { line: null, lineReason: reason, implausible: null };
  }
  const uncertain = line.relativeUncertainty ?? line.fit.slopeUncertainty / line.fit.slope;
  if (options.slopeWindow === undefined && uncertain > SLOPE_UNCERTAINTY_MAX)
    return {
      line: null,
      lineReason: {
        code: 'slope-too-uncertain',
        reason: `The ${String(line.fit.readings)} readings of the elastic part leave its slope uncertain by ${numberText(100 * uncertain, 2)} %, too much for a line; more readings, or less noise, in the elastic part would give one.`,
      },
      implausible: null,
    };
  const gpa = line.fit.slope / 1000;
  if (fromTravel || (gpa >= SLOPE_GPA_MIN && gpa <= SLOPE_GPA_MAX))
    return { line, lineReason: null, implausible: null };
  const reason = {
    code: 'slope-implausible',
    reason: `The slope of the elastic part comes out as ${numberText(gpa, 3)} GPa, which no metal has (${String(SLOPE_GPA_MIN)} to ${String(SLOPE_GPA_MAX)} GPa); check the units of force and extension, the gauge length, the area, and whether the extension is from the gauge length at all.`,
  };
  return { line: null, lineReason: reason, implausible: reason };
}

/** An extension that doesn't follow the load at all: even tungsten carbide stretches more, and units can't hide that. */
const STIFFER_THAN_ANYTHING_MPA = 2_000_000;
const CONSTANT_STRAIN = 5e-5;

function constantStrain(
  stress: Channel,
  strain: Channel,
  startIndex: number,
  peakIndex: number,
): Reason | null {
  const xs = strain.column;
  const rise = channelValue(stress, peakIndex) - channelValue(stress, startIndex);
  const enough = Math.min(CONSTANT_STRAIN, rise / STIFFER_THAN_ANYTHING_MPA) / strain.factor;
  let low = Infinity;
  let high = -Infinity;
  let present = 0;
  for (let i = startIndex; i <= peakIndex && !(high - low >= enough); i++) {
    const x = xs[i] as number;
    if (x !== x) continue;
    present += 1;
    if (x < low) low = x;
    if (x > high) high = x;
  }
  if (present < 2)
    return {
      code: 'extension-absent',
      reason: 'The extension has fewer than two readings while the load rises, so there is no strain.',
    };
  return high - low >= enough
    ? null
    : {
        code: 'extension-constant',
        reason: `The extension stays constant (within ${numberText(100 * (high - low) * strain.factor, 2)} %) while the load rises to its maximum: no extensometer on the specimen, or it was not connected.`,
      };
}

/** Strain from the zero that counts, as a ratio; NaN where there is none. */
export function strainAt({ strain, zeroStrain }: EvaluatedRecord, index: number): number {
  if (strain === undefined) return Number.NaN;
  const i = lastPresent(strain.column, index, 0);
  return channelValue(strain, i) - zeroStrain;
}
