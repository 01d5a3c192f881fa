/** Energy to maximum force and to the break: the area under the curve, by straight segments between the readings. */
import { channelValue } from '../curve/channel.ts';
import type { CurveGap } from '../curve/curve.ts';
import { BLOCK_READINGS } from '../curve/record-blocks.ts';
import { numberText } from '../quantity/number-text.ts';
import type { EvaluatedRecord } from './evaluated-record.ts';
import { noBreak } from './extension-findings.ts';
import { type Finding, type Reason, given, readingNumber, withhold } from './finding.ts';
import type { Maximum } from './peak.ts';
import { FROM_TRAVEL } from './record-columns.ts';
import type { Result } from './result.ts';

const TO_MAXIMUM = 'energy to maximum force';
const TO_BREAK = 'energy to fracture';

/** `gaps`: of the record, whose lost stretches lie under straight segments, too. */
export function energyFindings(
  record: EvaluatedRecord,
  maximum: Maximum,
  gaps: readonly CurveGap[] = [],
): Finding[] {
  const { strain, end, trust, startIndex, columns } = record;
  if (record.strainReason !== null || strain === undefined) {
    const { code, reason } = record.strainReason ?? { code: 'no-strain', reason: 'The curve has no strain.' };
    return [withhold('Wm', TO_MAXIMUM, code, reason), withhold('Wt', TO_BREAK, code, reason)];
  }
  const lengthMm = columns.strainSource?.lengthMm ?? 1;
  // Force times extension in N·mm over a gauge length; stress times strain where only those are known.
  const asForce = columns.force !== undefined && columns.strainSource?.channel !== 'strain';
  const scale = asForce ? lengthMm / 1000 : stressPerLoad(record, maximum.index);
  const unit: Result['unit'] = asForce ? 'J' : 'MJ/m³';
  const areas = areasUnder(record, [maximum.index, end.index]);
  const lost = (index: number): Reason | null =>
    trust.trouble !== undefined && trust.until < index
      ? { code: 'extension-lost', reason: `Before that, ${trust.trouble.clause}.` }
      : null;
  const finding = (
    symbol: string,
    name: string,
    index: number,
    area: number,
    why: Reason | null,
  ): Finding => {
    const because = why ?? lost(index);
    if (because !== null) return withhold(symbol, name, because.code, because.reason);
    const value = area * scale;
    if (!Number.isFinite(value))
      return withhold(
        symbol,
        name,
        'readings-too-few',
        'Fewer than two readings have both load and extension.',
      );
    const bridged = gaps.filter(({ beforeIndex }) => beforeIndex > startIndex && beforeIndex <= index).length;
    const remarks = [
      ...(bridged > 0
        ? [
            `${bridged === 1 ? '1 gap' : `${String(bridged)} gaps`} of the record on the way there ${bridged === 1 ? 'is' : 'are'} bridged by straight segments, so the area is no surer than they are.`,
          ]
        : []),
      ...(columns.strainSource?.channel === 'travel' ? [`Strain is ${FROM_TRAVEL}.`] : []),
      ...(end.kind === 'stops' && symbol === 'Wt'
        ? ['The record ends without the fall of force that a break makes; its last reading is taken for it.']
        : []),
    ];
    return given({
      symbol,
      name,
      value,
      unit,
      rounded: [],
      method: `area under the ${asForce ? 'force–extension' : 'stress–strain'} curve by straight segments`,
      working: {
        formula: `${symbol} = ${asForce ? '∫F dΔL' : '∫R de'}`,
        inputs: [],
        substituted: `${symbol} = ${numberText(value)} ${unit}, readings ${readingNumber(startIndex)} to ${readingNumber(index)}`,
        source: 'handbook definition; no acceptance value in weld codes',
      },
      atIndex: index,
      ...(remarks.length === 0 ? {} : { remarks }),
    });
  };
  return [
    finding(
      'Wm',
      TO_MAXIMUM,
      maximum.index,
      areas[0] ?? Number.NaN,
      maximum.stillRising
        ? {
            code: 'still-rising',
            reason:
              maximum.clipped === undefined
                ? 'The force still rises where the record stops.'
                : `At its largest, ${maximum.clipped}.`,
          }
        : null,
    ),
    finding('Wt', TO_BREAK, end.index, areas[1] ?? Number.NaN, noBreak(record)),
  ];
}

/** What makes MPa of the load channel: 1 where it is a stress; NaN where force has no area to divide it by. */
function stressPerLoad({ columns, load, stress }: EvaluatedRecord, atMaximum: number): number {
  if (columns.force === undefined) return 1;
  return stress === undefined ? Number.NaN : channelValue(stress, atMaximum) / channelValue(load, atMaximum);
}

/** Area from the start of the loading to each index (ascending), in load units times strain. */
function areasUnder(
  { load, strain, blocks, startIndex }: EvaluatedRecord,
  indices: readonly number[],
): number[] {
  const { twiceArea } = blocks;
  if (strain === undefined) return [];
  const ys = load.column;
  const xs = strain.column;
  const areas: number[] = [];
  let twice = 0;
  let firstX = Number.NaN;
  let lastX = Number.NaN;
  let lastY = Number.NaN;
  let i = startIndex;
  for (const stop of indices) {
    while (i <= stop) {
      const k = Math.floor(i / BLOCK_READINGS);
      const end = (k + 1) * BLOCK_READINGS;
      // A stretch in whole, with all its readings, is known already.
      if (i % BLOCK_READINGS === 0 && end <= stop + 1 && i > startIndex && !Number.isNaN(twiceArea[k])) {
        twice += twiceArea[k] as number;
        lastX = xs[end - 1] as number;
        lastY = ys[end - 1] as number;
        i = end;
        continue;
      }
      const to = Math.min(stop + 1, end);
      for (; i < to; i++) {
        const x = xs[i] as number;
        const y = ys[i] as number;
        if (!(x === x && y === y)) continue;
        if (lastX === lastX) twice += (x - lastX) * (y + lastY);
        else firstX = x;
        lastX = x;
        lastY = y;
      }
    }
    areas.push((twice / 2 - load.zero * (lastX - firstX)) * load.factor * strain.factor);
  }
  return areas;
}
