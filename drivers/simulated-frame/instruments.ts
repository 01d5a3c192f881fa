/** Load cell, extensometer, travel and clock of the simulated frame: noise, range, resolution, and the profile's units. */
import {
  type ReadoutChannel,
  type ReadoutProfile,
  expectedUnitOf,
} from '../../core/contract/readout-profile.ts';
import { type Exact, exactFromDecimal, toNumber } from '../../core/quantity/exact.ts';
import { UNITS, factorToCore } from '../../core/quantity/units.ts';
import type { ShownField } from '../lines/line-writer.ts';
import type { TrueState } from './pull-in-time.ts';
import { normalRandom } from './random.ts';
import type { Scenario } from './scenario.ts';

export type Instruments = (state: TrueState, elapsedS: number) => ReadonlyMap<string, ShownField>;

/** What the readout's channels show of a true state. Throws a RangeError where a channel can't be simulated. */
export function instruments(scenario: Scenario, profile: ReadoutProfile, seed: number): Instruments {
  const noise = normalRandom(seed);
  const stress = profile.channels.find((channel) => channel.quantity === 'stress');
  if (stress !== undefined)
    throw new RangeError(`the simulated frame does not show stress ("${stress.field}")`);
  const shows = profile.channels.map((channel) => ({
    field: channel.field,
    channel,
    digitise: digitiser(channel, scenario.resolution[channel.field]),
  }));
  let takenOff = false;
  return (state, elapsedS) => {
    const fields = new Map<string, ShownField>();
    const gaugeMm = scenario.extensometer?.gaugeLengthMm ?? 1;
    const limit = scenario.extensometer?.takenOffAtStrain;
    if (limit !== undefined && state.extensionMm / gaugeMm >= limit) takenOff = true;
    for (const { field, channel, digitise } of shows)
      fields.set(field, show({ scenario, channel, state, elapsedS, takenOff, noise, digitise }));
    return fields;
  };
}

interface ShowRequest {
  readonly scenario: Scenario;
  readonly channel: ReadoutChannel;
  readonly state: TrueState;
  readonly elapsedS: number;
  readonly takenOff: boolean;
  readonly noise: () => number;
  readonly digitise: (coreValue: number) => ShownField;
}

function show({ scenario, channel, state, elapsedS, takenOff, noise, digitise }: ShowRequest): ShownField {
  const { loadCell, extensometer } = scenario;
  switch (channel.quantity) {
    case 'force': {
      const forceN = state.forceN + loadCell.zeroOffsetN + loadCell.noiseN * noise();
      return Math.abs(forceN) > loadCell.capacityN ? { word: 'OL', overload: true } : digitise(forceN);
    }
    case 'extension':
    case 'strain': {
      if (extensometer === undefined || takenOff) return { word: '-----', overload: false };
      const extensionMm = state.extensionMm + extensometer.noiseMm * noise();
      if (Math.abs(extensionMm) > extensometer.rangeMm) return { word: 'OL', overload: false };
      return digitise(channel.quantity === 'strain' ? extensionMm / extensometer.gaugeLengthMm : extensionMm);
    }
    case 'travel':
      return digitise(state.travelMm);
    case 'time':
      return digitise(elapsedS);
    case 'stress':
    case 'other':
      return digitise(0);
  }
}

/** From a value in the core's unit to whole steps of the display. */
function digitiser(channel: ReadoutChannel, resolutionText = '0.001'): (coreValue: number) => ShownField {
  const resolution = exactOf(resolutionText);
  const factor = factorToCore(expectedUnitOf(channel));
  const scale = toNumber(exactOf(channel.scale));
  const offset = toNumber(exactOf(channel.offset));
  const sign = channel.sign === 'inverted' ? -1 : 1;
  const step = toNumber(resolution);
  const { mantissa, exponent } = decimalParts(resolutionText);
  if (UNITS[expectedUnitOf(channel)].dimension === 'temperature')
    throw new RangeError('no temperature is simulated');
  return (coreValue) => {
    const shown = ((coreValue / factor) * sign - offset) / scale;
    const steps = Math.round(shown / step);
    return { mantissa: steps * mantissa + 0, exponent };
  };
}

function exactOf(text: string): Exact {
  const exact = exactFromDecimal(text);
  if (exact === null) throw new RangeError(`${text} is not a decimal`);
  return exact;
}

/** "0.05" is 5 × 10⁻². */
function decimalParts(text: string): { mantissa: number; exponent: number } {
  const [whole = '0', decimals = ''] = text.split('.');
  return { mantissa: Number(whole + decimals), exponent: -decimals.length };
}
