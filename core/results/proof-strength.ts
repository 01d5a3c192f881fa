/** Rp at any offset: the curve's first crossing with the elastic line moved along the strain axis by the offset. */
import { channelValue } from '../curve/channel.ts';
import { numberText } from '../quantity/number-text.ts';
import { crossingDoubt } from './crossing-doubt.ts';
import { curvedLineRemark } from './curved-line.ts';
import type { EvaluatedRecord } from './evaluated-record.ts';
import { type Finding, given, readingNumber, withhold } from './finding.ts';
import { type Crossing, findCrossing } from './strain-crossing.ts';

export interface ProofStrength {
  readonly finding: Finding;
  readonly crossing?: Crossing;
}

export const offsetSymbol = (offsetPercent: number): string => `Rp${numberText(offsetPercent, 4)}`;

/** Stress between two readings that differ by more than this part is a guess, and said to be one. */
const JUMP_FRACTION = 0.02;

export function proofStrength(record: EvaluatedRecord, offsetPercent: number): ProofStrength {
  const symbol = offsetSymbol(offsetPercent);
  const name = `proof strength, ${numberText(offsetPercent, 4)} % offset (offset yield strength)`;
  const { stress, strain, line, end, trust } = record;
  const reason = record.strainReason ?? record.lineReason;
  if (stress === undefined || strain === undefined || line === null || reason !== null) {
    const because = reason ?? { code: 'no-strain', reason: 'The curve has no strain.' };
    return { finding: withhold(symbol, name, because.code, because.reason) };
  }
  const { slope, intercept } = line.fit;
  const footStrain = -intercept / slope;
  const last = Math.min(end.index, trust.until);
  const input = {
    stress,
    strain,
    range: { from: line.range.to - 1, to: last + 1 },
    zeroStrain: footStrain,
    compliance: 1 / slope,
    target: offsetPercent / 100,
  };
  const found = findCrossing(input);
  if (!found.found) return { finding: notReached(record, symbol, name, found.largest) };

  const { crossing } = found;
  const value = crossing.stressMpa;
  const doubt = crossingDoubt(record, input, crossing);
  if (doubt.code !== null) return { finding: withhold(symbol, name, doubt.code, doubt.reason) };
  const remarks = [...doubt.remarks];
  if (record.steps.some((step) => step.index <= line.range.from))
    remarks.push(
      'The elastic line is taken from the readings after a step of the extension (see the remark on the record).',
    );
  const before = channelValue(stress, crossing.beforeIndex);
  const after = channelValue(stress, crossing.index);
  if (crossing.method === 'between-two-readings' && Math.abs(after - before) > JUMP_FRACTION * value)
    remarks.push(
      `The line is crossed between two readings far apart (${numberText(before, 4)} and ${numberText(after, 4)} MPa), so the value in between is interpolated over what was not recorded.`,
    );
  const curved = curvedLineRemark(stress, strain, line, last, offsetPercent / 100);
  if (curved !== null) remarks.push(curved);
  if (record.yielding?.present === true)
    remarks.push('The curve has a yield point; upper and lower yield strength describe it better.');
  const lineWords = line.chosen === 'standard' || line.chosen === 'hand' ? null : LINE_WORDS[line.chosen];
  return {
    crossing,
    finding: given({
      symbol,
      name,
      value,
      unit: 'MPa',
      rounded: [],
      method: `offset ${numberText(offsetPercent, 4)} % from the elastic line between ${numberText(line.lowerMpa, 4)} and ${numberText(line.upperMpa, 4)} MPa${lineWords === null ? '' : ` (${lineWords})`}`,
      working: {
        formula: `${symbol} = R where e − e0 − R/mE = ${numberText(offsetPercent, 4)} %`,
        inputs: [
          {
            symbol: 'mE',
            name: 'slope of the elastic part',
            value: slope,
            unit: 'MPa',
            from: `line through ${String(line.fit.readings)} readings`,
          },
          {
            symbol: 'e0',
            name: 'extension at which the line meets zero stress',
            value: 100 * footStrain,
            unit: '%',
            from: 'same line',
          },
        ],
        substituted: `${symbol} = ${numberText(value)} MPa between readings ${readingNumber(crossing.beforeIndex)} and ${readingNumber(crossing.index)}`,
        source: 'ISO 6892-1, proof strength, plastic extension; ASTM E8/E8M 7.7.1, offset method',
        steps: [
          crossing.method === 'local-line'
            ? `straight line through ${String(crossing.readings)} readings within 0.02 % of the crossing`
            : 'straight line between the two readings',
        ],
      },
      atIndex: crossing.index,
      ...(remarks.length === 0 ? {} : { remarks }),
    }),
  };
}

const LINE_WORDS = {
  'above-toe': 'window moved up, out of the toe',
  'below-early-yield': 'window moved down, below early yielding',
  whole: 'the whole elastic part, which is bent',
  sparse: 'few readings in the elastic part',
  loop: 'slope of the unloading loop, origin where its parallel touches the loading',
} as const;

function notReached(record: EvaluatedRecord, symbol: string, name: string, largest: number): Finding {
  const { end, trust } = record;
  const got = Number.isFinite(largest) ? ` (largest ${numberText(Math.max(0, 100 * largest), 3)} %)` : '';
  if (trust.trouble !== undefined && trust.until < end.index)
    return withhold(
      symbol,
      name,
      'extension-lost',
      `Before the offset was reached${got}, ${trust.trouble.clause}.`,
    );
  return withhold(
    symbol,
    name,
    'offset-not-reached',
    end.kind === 'stops' || end.kind === 'unloaded'
      ? `The record stops before the plastic extension reaches the offset${got}.`
      : `The specimen broke before the plastic extension reached the offset${got}.`,
  );
}
