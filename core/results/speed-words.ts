/** What a check of the testing speed found, as a sentence in the units of one system: made from figures, never from text. */
import { type DisplaySystem, inDisplayUnit } from '../quantity/display-unit.ts';
import { numberText } from '../quantity/number-text.ts';
import type { SpeedQuantity, SpeedStage, SpeedWindow } from './speed-windows.ts';

/** A measured rate against its windows; rates in MPa/s or 1/s. */
export interface JudgedSpeed {
  readonly stage: SpeedStage;
  readonly quantity: SpeedQuantity;
  readonly unit: 'MPa/s' | '1/s';
  readonly rate: number;
  /** Windows that would do; where the rate is inside, the one that it is in. */
  readonly allowed: readonly SpeedWindow[];
  /** How far outside the nearest limit, below it negative, and the window of that limit. */
  readonly outside?: { readonly beyond: number; readonly nearest: SpeedWindow };
}

export const SPEED_VERDICT_WORDS = {
  within: 'Within',
  outside: 'Outside',
  'not-known': "Can't tell",
} as const;

export const STAGE_WORDS: Readonly<Record<SpeedStage, string>> = {
  elastic: 'the elastic part',
  yield: 'the stretch through yield',
  'to-maximum': 'the stretch from yield to the maximum force',
};
const QUANTITY_WORDS: Readonly<Record<SpeedQuantity, string>> = {
  'stress-rate': 'stress rate',
  'strain-rate': 'strain rate',
  'crosshead-rate': 'crosshead rate over the parallel length',
};
const DIGITS = 3;

/** "stress rate 30 MPa/s in the elastic part, too fast by 18.5 MPa/s; allowed 1.15 to 11.5 MPa/s." */
export function judgedSpeedWords(judged: JudgedSpeed, system: DisplaySystem): string {
  const { stage, quantity, unit, rate, allowed, outside } = judged;
  const shown = (value: number) => inDisplayUnit(value, unit, system);
  const text = (value: number): string => `${numberText(shown(value).value, DIGITS)} ${shown(value).unit}`;
  const windowText = ({ name, lower, upper }: SpeedWindow): string => {
    const limits =
      lower === undefined
        ? `up to ${text(upper)}`
        : `${numberText(shown(lower).value, DIGITS)} to ${text(upper)}`;
    return name === undefined ? limits : `${limits} (${name})`;
  };
  const windows = allowed.map(windowText).join(' or ');
  const words = `${QUANTITY_WORDS[quantity]} ${text(rate)} in ${STAGE_WORDS[stage]}`;
  if (outside === undefined) return `${words}, allowed ${windows}.`;
  const tooMuch = `${outside.beyond > 0 ? 'too fast' : 'too slow'} by ${text(Math.abs(outside.beyond))}`;
  const near = allowed.length > 1 ? `, nearest ${windowText(outside.nearest)}` : '';
  return `${words}, ${tooMuch}; allowed ${windows}${near}.`;
}
