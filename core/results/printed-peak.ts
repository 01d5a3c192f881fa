/**
 * Fm and Rm of a record that holds a readout's peak memory alone, one reading a press of its print key. There is no
 * curve, so whatever needs one is withheld.
 */
import { channelValue } from '../curve/channel.ts';
import { STRENGTH_MPA_MAX } from '../limits.ts';
import { numberText } from '../quantity/number-text.ts';
import { type Finding, given, readingNumber, withhold } from './finding.ts';
import type { RecordColumns } from './record-columns.ts';
import type { WorkingInput } from './result.ts';
import { CURVE_SYMBOLS } from './unusable-record.ts';

const METHOD = 'largest value of the readout’s own peak memory';
const NO_CURVE =
  'The readout shows its peak alone, so there is no curve; this needs a readout that shows the load of the moment.';

export function printedPeak(columns: RecordColumns): {
  readonly findings: readonly Finding[];
  readonly remarks: readonly string[];
} {
  const [index, count] = largest(columns);
  const names = new Map(CURVE_SYMBOLS);
  const rest = CURVE_SYMBOLS.filter(([symbol]) => symbol !== 'Fm' && symbol !== 'Rm').map(([symbol, name]) =>
    withhold(symbol, name, 'no-curve', NO_CURVE),
  );
  const proof = withhold('Rp0.2', 'proof strength, 0.2 % offset', 'no-curve', NO_CURVE);
  const why = refusal(columns, index);
  const strengths = (['Fm', 'Rm'] as const).map((symbol): Finding => {
    const name = names.get(symbol) ?? symbol;
    const channel = symbol === 'Fm' ? columns.force : columns.stress;
    if (why !== null) return withhold(symbol, name, why.code, why.reason);
    if (channel === undefined)
      return withhold(
        symbol,
        name,
        columns.stressMissing?.code ?? 'no-force',
        columns.stressMissing?.reason ?? 'No peak was shown.',
      );
    const value = channelValue(channel, index);
    const unit = symbol === 'Fm' ? 'N' : 'MPa';
    return given({
      symbol,
      name,
      value,
      unit,
      rounded: [],
      method: METHOD,
      working: {
        formula: symbol === 'Fm' ? 'Fm = largest peak shown' : 'Rm = Fm / S0',
        inputs: [
          {
            symbol: 'Fm',
            name: 'maximum force',
            value: columns.force === undefined ? Number.NaN : channelValue(columns.force, index),
            unit: 'N',
            from: `reading ${readingNumber(index)} of ${String(count)}, ${METHOD}`,
          },
          ...(symbol === 'Fm' || columns.areaMm2 === undefined ? [] : [sectionInput(columns.areaMm2)]),
        ],
        substituted: `${symbol} = ${symbol === 'Fm' ? '' : quotient(columns, index)}${numberText(value)} ${unit}`,
        source: 'ISO 6892-1 and ASTM E8/E8M: maximum force over the original section (from memory)',
      },
    });
  });
  return {
    findings: [...strengths, ...rest, proof],
    remarks: [
      `The readout shows its peak alone: ${count === 1 ? 'one value was' : `${String(count)} values were`} recorded and no curve, so nothing can be checked against one. See that the peak was cleared before the pull.`,
    ],
  };
}

const sectionInput = (areaMm2: number): WorkingInput => ({
  symbol: 'S0',
  name: 'original cross-section area',
  value: areaMm2,
  unit: 'mm²',
  from: 'measured dimensions of the specimen',
});

const quotient = ({ force, areaMm2 }: RecordColumns, index: number): string =>
  force === undefined || areaMm2 === undefined
    ? ''
    : `${numberText(channelValue(force, index))} N / ${numberText(areaMm2)} mm² = `;

function refusal({ force, stress }: RecordColumns, index: number): { code: string; reason: string } | null {
  if (force === undefined) return null;
  const forceN = channelValue(force, index);
  if (!(forceN > 0))
    return {
      code: 'no-load',
      reason:
        'No peak above zero was shown, so nothing was pulled; see that the print key was pressed after the break.',
    };
  const strongest = stress === undefined ? 0 : channelValue(stress, index);
  if (strongest > STRENGTH_MPA_MAX)
    return {
      code: 'stress-implausible',
      reason: `The stress would be ${numberText(strongest, 4)} MPa, which no metal bears; the unit of the load or of a dimension is wrong.`,
    };
  return null;
}

/** Index of the largest value, and how many there are. */
function largest({ force, length }: RecordColumns): [number, number] {
  let at = 0;
  let count = 0;
  for (let index = 0; index < length && force !== undefined; index++) {
    const value = channelValue(force, index);
    if (Number.isNaN(value)) continue;
    if (count++ === 0 || value > channelValue(force, at)) at = index;
  }
  return [at, count];
}
