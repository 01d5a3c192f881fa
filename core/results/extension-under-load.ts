/** Rt at any total extension: the stress when the extension under load reaches it. */
import { channelValue, columnValue } from '../curve/channel.ts';
import { firstAtLeast } from '../curve/record-blocks.ts';
import { numberText } from '../quantity/number-text.ts';
import { crossingDoubt } from './crossing-doubt.ts';
import type { EvaluatedRecord } from './evaluated-record.ts';
import { type Finding, given, readingNumber, withhold } from './finding.ts';
import { findCrossing } from './strain-crossing.ts';

/** Above this a total extension of 0.5 % is little more than elastic (note in ASTM A370 and E8; from memory). */
const TOO_STRONG_MPA = 550;

/** Where the extension was reached, for the uncertainty. */
export interface TotalExtensionFact {
  readonly symbol: string;
  readonly totalPercent: number;
  /** Slope of the curve over strain there, and the scatter about it, MPa. */
  readonly tangentMpa: number;
  readonly scatterMpa: number;
  readonly readings: number;
  /** True where the extension counts from the foot of the elastic line. */
  readonly fromFoot: boolean;
}

export interface ExtensionUnderLoad {
  readonly finding: Finding;
  readonly fact?: TotalExtensionFact;
}

export function extensionUnderLoad(record: EvaluatedRecord, totalPercent: number): ExtensionUnderLoad {
  const text = numberText(totalPercent, 4);
  const symbol = `Rt${text}`;
  const name = `proof strength, ${text} % total extension (yield strength by extension under load)`;
  const { stress, strain, end, trust, zeroStrain } = record;
  if (stress === undefined || strain === undefined || record.strainReason !== null) {
    const because = record.strainReason ?? { code: 'no-strain', reason: 'The curve has no strain.' };
    return { finding: withhold(symbol, name, because.code, because.reason) };
  }
  const last = Math.min(end.index, trust.until);
  const from = nearTarget(record, totalPercent / 100);
  const input = {
    stress,
    strain,
    range: { from, to: last + 1 },
    zeroStrain,
    compliance: 0,
    target: totalPercent / 100,
  };
  const found = findCrossing(input);
  if (!found.found) {
    const got = Number.isFinite(found.largest) ? ` (largest ${numberText(100 * found.largest, 3)} %)` : '';
    const finding =
      trust.trouble !== undefined && trust.until < end.index
        ? withhold(
            symbol,
            name,
            'extension-lost',
            `Before ${text} % was reached${got}, ${trust.trouble.clause}.`,
          )
        : withhold(
            symbol,
            name,
            'extension-not-reached',
            `The extension doesn't reach ${text} % before the ${end.kind === 'stops' ? 'record stops' : 'break'}${got}.`,
          );
    return { finding };
  }
  const { crossing } = found;
  const value = crossing.stressMpa;
  if (crossing.beforeIndex === crossing.index)
    return {
      finding: withhold(
        symbol,
        name,
        'begins-beyond',
        `The record begins beyond ${text} % of extension, at reading ${readingNumber(crossing.index)}; look at the zero of the extension and the order of the readings.`,
      ),
    };
  const doubt = crossingDoubt(record, input, crossing);
  if (doubt.code !== null) return { finding: withhold(symbol, name, doubt.code, doubt.reason) };
  const remarks = [...doubt.remarks];
  if (totalPercent <= 0.5 && value > TOO_STRONG_MPA)
    remarks.push(
      `Above about ${String(TOO_STRONG_MPA)} MPa ${text} % total extension is too small to mean yielding; a larger stated extension is usual (from memory).`,
    );
  const before = channelValue(stress, crossing.beforeIndex);
  const after = channelValue(stress, crossing.index);
  if (crossing.method === 'between-two-readings' && Math.abs(after - before) > 0.02 * value)
    remarks.push(
      `The extension is reached between two readings far apart (${numberText(before, 4)} and ${numberText(after, 4)} MPa).`,
    );
  if (record.line === null) remarks.push('Extension counts from the record’s own zero.');
  const finding = given({
    symbol,
    name,
    value,
    unit: 'MPa',
    rounded: [],
    method: `stress at ${text} % total extension, extension from ${record.line === null || zeroStrain === 0 ? 'the record’s own zero' : 'the foot of the elastic line'}`,
    working: {
      formula: `${symbol} = R where e − e0 = ${text} %`,
      inputs: [
        {
          symbol: 'e0',
          name: 'extension that counts as zero',
          value: 100 * zeroStrain,
          unit: '%',
          from: zeroStrain === 0 ? 'zero of the record' : 'foot of the elastic line',
        },
      ],
      substituted: `${symbol} = ${numberText(value)} MPa between readings ${readingNumber(crossing.beforeIndex)} and ${readingNumber(crossing.index)}`,
      source: 'ISO 6892-1, proof strength, total extension; ASTM E8/E8M 7.7.2, extension-under-load method',
      steps: [
        crossing.method === 'local-line'
          ? `straight line through ${String(crossing.readings)} readings about it`
          : 'straight line between the two readings',
      ],
    },
    atIndex: crossing.index,
    ...(remarks.length === 0 ? {} : { remarks }),
  });
  return {
    finding,
    fact: {
      symbol,
      totalPercent,
      tangentMpa: crossing.tangentMpa,
      scatterMpa: crossing.scatterMpa,
      readings: crossing.readings,
      fromFoot: record.line !== null && zeroStrain !== 0,
    },
  };
}

/** The search may begin a little before the target: nothing earlier can reach it. */
const LEAD_STRAIN = 0.0005;

function nearTarget(
  { strain, blocks, startIndex, end, zeroStrain }: EvaluatedRecord,
  target: number,
): number {
  if (strain === undefined || blocks.extension === undefined) return startIndex;
  const lead = columnValue(strain, zeroStrain + target - LEAD_STRAIN);
  const near = firstAtLeast(blocks.extension, { from: startIndex, to: end.index + 1 }, lead);
  return Math.max(startIndex, near - 1);
}
