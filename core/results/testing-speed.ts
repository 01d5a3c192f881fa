/**
 * How fast it was pulled: measured rates in each stage, and each of them against the windows of the standards:
 * within, outside with by how much, or can't tell and why.
 */
import type { Channel, IndexRange } from '../curve/channel.ts';
import type { DisplaySystem } from '../quantity/display-unit.ts';
import {
  SPEED_QUANTITIES,
  SPEED_RULES,
  SPEED_STAGES,
  type SpeedQuantity,
  type SpeedRule,
  type SpeedStage,
  type SpeedWindow,
} from './speed-windows.ts';
import { type JudgedSpeed, SPEED_VERDICT_WORDS, STAGE_WORDS, judgedSpeedWords } from './speed-words.ts';

export interface SpeedInput {
  readonly timeS?: Float64Array;
  /** MPa. */
  readonly stress?: Channel;
  /** Ratio over the gauge length; leave it out where it is from crosshead travel. */
  readonly strain?: Channel;
  readonly travelMm?: Float64Array;
  readonly parallelLengthMm?: number;
  /** Readings of each stage; a stage that isn't there was not reached or can't be told. */
  readonly stages: Readonly<Partial<Record<SpeedStage, IndexRange>>>;
  readonly slopeMpa?: number;
}

export interface StageSpeed {
  readonly stage: SpeedStage;
  readonly quantity: SpeedQuantity;
  /** MPa/s or 1/s. */
  readonly rate: number;
  readonly unit: 'MPa/s' | '1/s';
  readonly readings: number;
  readonly durationS: number;
}

export interface SpeedCheck {
  readonly standard: SpeedRule['standard'];
  readonly method: string;
  readonly stage: SpeedStage;
  readonly verdict: 'within' | 'outside' | 'not-known';
  readonly quantity?: SpeedQuantity;
  readonly rate?: number;
  /** How far outside the nearest limit, in the rate's unit; below it negative. */
  readonly beyond?: number;
  /** The same as figures, for sentences in another system; absent where nothing can be told. */
  readonly judged?: JudgedSpeed;
  /** The verdict in a word: "Within", "Outside", "Can't tell". */
  readonly verdictWord: string;
  /** Why, in SI, as a sentence that follows the word: "stress rate 30 MPa/s in the elastic part, allowed …". */
  readonly reason: string;
  /** Both in one. */
  readonly sentence: string;
  readonly source: string;
}

export interface TestingSpeed {
  readonly measured: readonly StageSpeed[];
  readonly checks: readonly SpeedCheck[];
}

/** Fewer readings in a stage give no rate worth judging. */
const READINGS_MIN = 3;

/**
 * A rate this share of a limit beyond it is at the limit: what is left of binary fractions and of converted units
 * lies far below, what a record can tell of a rate far above.
 */
const LIMIT_TOLERANCE = 1e-9;

/** Rates over time, and the checks of every rule that can apply to the material. Rates that no rule asks for are left out. */
export function testingSpeed(input: SpeedInput): TestingSpeed {
  const measured = SPEED_STAGES.flatMap((stage) =>
    SPEED_QUANTITIES.filter((quantity) => isAskedFor(stage, quantity))
      .map((quantity) => rateIn(input, stage, quantity))
      .filter((s) => s !== null),
  );
  const rules = SPEED_RULES.filter(
    ({ slopeMpa }) =>
      slopeMpa === undefined ||
      input.slopeMpa === undefined ||
      (input.slopeMpa >= slopeMpa.from && input.slopeMpa < slopeMpa.to),
  );
  return { measured, checks: rules.map((rule) => check(rule, measured, input)) };
}

const isAskedFor = (stage: SpeedStage, quantity: SpeedQuantity): boolean =>
  SPEED_RULES.some((rule) => rule.stage === stage && rule.quantities.includes(quantity));

function rateIn(input: SpeedInput, stage: SpeedStage, quantity: SpeedQuantity): StageSpeed | null {
  const { timeS } = input;
  const range = input.stages[stage];
  const channel = channelOf(input, quantity);
  if (timeS === undefined || range === undefined || channel === null) return null;
  const fit = rateOverTime(timeS, channel, range);
  return fit === null
    ? null
    : { stage, quantity, unit: quantity === 'stress-rate' ? 'MPa/s' : '1/s', ...fit };
}

function channelOf(input: SpeedInput, quantity: SpeedQuantity): Channel | null {
  switch (quantity) {
    case 'stress-rate':
      return input.stress ?? null;
    case 'strain-rate':
      return input.strain ?? null;
    case 'crosshead-rate':
      return input.travelMm === undefined || input.parallelLengthMm === undefined
        ? null
        : { column: input.travelMm, zero: 0, factor: 1 / input.parallelLengthMm };
  }
}

type Rate = Pick<StageSpeed, 'rate' | 'readings' | 'durationS'>;

/** Readings up to which a stage gets a least-squares slope; a longer one is steady between the means of its ends. */
const LEAST_SQUARES_READINGS_MAX = 5_000;
/** Readings averaged at each end of a long stage. */
const END_READINGS = 500;

/** Rate of a channel over time; null for too few readings or no time between them. The channel's zero cancels. */
function rateOverTime(timeS: Float64Array, channel: Channel, range: IndexRange): Rate | null {
  if (range.to - range.from <= LEAST_SQUARES_READINGS_MAX) return leastSquaresRate(timeS, channel, range);
  const start = meansOver(timeS, channel, { from: range.from, to: range.from + END_READINGS });
  const end = meansOver(timeS, channel, { from: range.to - END_READINGS, to: range.to });
  if (start === null || end === null || !(end.timeS > start.timeS)) return null;
  const durationS = end.timeS - start.timeS;
  return {
    rate: ((end.shown - start.shown) / durationS) * channel.factor,
    readings: range.to - range.from,
    durationS,
  };
}

interface Means {
  readonly readings: number;
  readonly timeS: number;
  /** As the column shows it. */
  readonly shown: number;
  readonly firstS: number;
  readonly lastS: number;
}

function meansOver(timeS: Float64Array, { column }: Channel, { from, to }: IndexRange): Means | null {
  let readings = 0;
  let sumT = 0;
  let sumY = 0;
  let firstS = Number.NaN;
  let lastS = Number.NaN;
  for (let i = from; i < to; i++) {
    const t = timeS[i] ?? Number.NaN;
    const y = column[i] ?? Number.NaN;
    if (Number.isNaN(t + y)) continue;
    if (readings === 0) firstS = t;
    lastS = t;
    readings += 1;
    sumT += t;
    sumY += y;
  }
  return readings === 0 ? null : { readings, timeS: sumT / readings, shown: sumY / readings, firstS, lastS };
}

function leastSquaresRate(timeS: Float64Array, channel: Channel, range: IndexRange): Rate | null {
  const means = meansOver(timeS, channel, range);
  if (means === null || means.readings < READINGS_MIN || !(means.lastS > means.firstS)) return null;
  let tt = 0;
  let ty = 0;
  for (let i = range.from; i < range.to; i++) {
    const t = (timeS[i] ?? Number.NaN) - means.timeS;
    const y = (channel.column[i] ?? Number.NaN) - means.shown;
    if (Number.isNaN(t + y)) continue;
    tt += t * t;
    ty += t * y;
  }
  return tt > 0
    ? {
        rate: (ty / tt) * channel.factor,
        readings: means.readings,
        durationS: means.lastS - means.firstS,
      }
    : null;
}

function check(rule: SpeedRule, measured: readonly StageSpeed[], input: SpeedInput): SpeedCheck {
  const { standard, method, stage, source, windows } = rule;
  const facts = { standard, method, stage, source };
  const found = rule.quantities
    .map((quantity) => measured.find((m) => m.stage === stage && m.quantity === quantity))
    .find((m) => m !== undefined);
  if (found === undefined) return { ...facts, ...told('not-known', `${whyUnknown(rule, input)}.`) };
  const { rate, quantity, unit } = found;
  const inside = windows.find(
    ({ lower, upper }) =>
      rate <= upper * (1 + LIMIT_TOLERANCE) && (lower === undefined || rate >= lower * (1 - LIMIT_TOLERANCE)),
  );
  if (inside !== undefined) {
    const judged: JudgedSpeed = { stage, quantity, unit, rate, allowed: [inside] };
    return { ...facts, ...told('within', judgedSpeedWords(judged, 'si')), quantity, rate, judged };
  }
  const { beyond, window } = nearest(windows, rate);
  const outside = { beyond, nearest: window };
  const judged: JudgedSpeed = { stage, quantity, unit, rate, allowed: windows, outside };
  return { ...facts, ...told('outside', judgedSpeedWords(judged, 'si')), quantity, rate, beyond, judged };
}

const told = (verdict: SpeedCheck['verdict'], reason: string) => ({
  verdict,
  verdictWord: SPEED_VERDICT_WORDS[verdict],
  reason,
  sentence: `${SPEED_VERDICT_WORDS[verdict]}: ${reason}`,
});

/** Why, as a sentence that follows the verdict's word, in the units of the system. */
export const speedReason = ({ judged, reason }: SpeedCheck, system: DisplaySystem): string =>
  judged === undefined ? reason : judgedSpeedWords(judged, system);

/** Verdict and why in one, in the units of the system. */
export const speedSentence = (check: SpeedCheck, system: DisplaySystem): string =>
  `${check.verdictWord}: ${speedReason(check, system)}`;

function nearest(windows: readonly SpeedWindow[], rate: number): { beyond: number; window: SpeedWindow } {
  let best: { beyond: number; window: SpeedWindow } | null = null;
  for (const window of windows) {
    const beyond = rate > window.upper ? rate - window.upper : rate - (window.lower ?? 0);
    if (best === null || Math.abs(beyond) < Math.abs(best.beyond)) best = { beyond, window };
  }
  if (best === null) throw new RangeError('a rule of speed needs at least one window');
  return best;
}

function whyUnknown(rule: SpeedRule, input: SpeedInput): string {
  if (input.timeS === undefined) return 'the record has no time';
  if (input.stages[rule.stage] === undefined)
    return `${STAGE_WORDS[rule.stage]} can't be told from the record`;
  const missing = rule.quantities.filter((quantity) => channelOf(input, quantity) === null);
  if (missing.length === rule.quantities.length) return missing.map((q) => MISSING_WORDS[q]).join(', and ');
  return `${STAGE_WORDS[rule.stage]} has fewer than ${String(READINGS_MIN)} readings or no time between them`;
}

const MISSING_WORDS: Readonly<Record<SpeedQuantity, string>> = {
  'stress-rate': 'there is no stress',
  'strain-rate': 'there is no extensometer',
  'crosshead-rate': 'crosshead travel or the parallel length is missing',
};
