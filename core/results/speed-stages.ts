/** Which readings belong to which stage of a pull, for its testing speed. */
import type { Channel, IndexRange } from '../curve/channel.ts';
import type { Curve } from '../curve/curve.ts';
import { channelValue } from '../curve/channel.ts';
import type { EvaluatedRecord } from './evaluated-record.ts';
import type { SpeedStage } from './speed-windows.ts';
import type { SpeedInput } from './testing-speed.ts';

/** Without an elastic line: every metal is still elastic between these shares of its maximum force. */
const ELASTIC_FROM = 0.1;
const ELASTIC_TO = 0.4;
/** Without a yield found: past this share of the maximum force yielding has begun. */
const YIELDED_FROM = 0.8;

/**
 * Elastic: the readings that the elastic line was fitted to. Yield: from there to the proof strength, or to the end
 * of the yield-point extension. To maximum: from there to the maximum force. A stage that can't be told is left out.
 */
export function speedStages(
  record: EvaluatedRecord,
  maximumIndex: number,
  proofIndex: number | undefined,
): Partial<Record<SpeedStage, IndexRange>> {
  const { line, yielding, load, startIndex } = record;
  if (line === null) {
    const elastic = between(load, startIndex, maximumIndex, ELASTIC_FROM, ELASTIC_TO);
    const late = between(load, startIndex, maximumIndex, YIELDED_FROM, 1);
    return { ...stage('elastic', elastic), ...stage('to-maximum', late) };
  }
  const yieldEnd = yielding?.present === true ? yielding.point.hardeningIndex : proofIndex;
  return {
    elastic: line.range,
    ...(yieldEnd === undefined
      ? {}
      : {
          ...stage('yield', { from: line.range.to, to: yieldEnd + 1 }),
          ...stage('to-maximum', { from: yieldEnd, to: maximumIndex + 1 }),
        }),
  };
}

/** Channels that rates are taken from. Strain from crosshead travel is none: travel has a rule of its own. */
export function speedInput(record: EvaluatedRecord, curve: Curve): Omit<SpeedInput, 'stages'> {
  const { stress, strain, columns, line } = record;
  const overGauge = columns.strainSource?.channel !== 'travel' && record.strainReason === null;
  return {
    ...(columns.timeS === undefined ? {} : { timeS: columns.timeS }),
    ...(stress === undefined ? {} : { stress }),
    ...(strain === undefined || !overGauge ? {} : { strain }),
    ...(curve.travelMm === undefined ? {} : { travelMm: curve.travelMm }),
    ...(line === null || !overGauge ? {} : { slopeMpa: line.fit.slope }),
  };
}

function stage(name: SpeedStage, range: IndexRange): Partial<Record<SpeedStage, IndexRange>> {
  return range.to > range.from ? { [name]: range } : {};
}

/** From the last reading below one share of the maximum to the first at another, on the way up. */
function between(load: Channel, start: number, maximum: number, lower: number, upper: number): IndexRange {
  const peak = channelValue(load, maximum);
  let to = start;
  while (to < maximum && !(channelValue(load, to) >= upper * peak)) to += 1;
  let from = to;
  while (from > start && !(channelValue(load, from) < lower * peak)) from -= 1;
  return { from, to: upper === 1 ? maximum + 1 : to };
}
