/** What typed values would mean for the specimen: refused where it is impossible, asked where it is improbable. */
import { STRENGTH_MPA_MAX } from '../limits.ts';
import { numberText } from '../quantity/number-text.ts';
import { area } from '../results/area.ts';
import type { Specimen } from '../specimen/specimen.ts';
import { type TypedValues, typedNumbers } from './typed-values.ts';

/** Above it lie drawn wire and the strongest maraging steels alone (common practice, no source). */
const STRENGTH_ASKED_ABOVE_MPA = 2_000;
/** Below it lies no structural metal; annealed pure aluminium has three times as much (common practice, no source). */
const STRENGTH_ASKED_BELOW_MPA = 20;
/** No metal of a tension test of welds or bars stretches further over its gauge length (common practice, no source). */
const ELONGATION_ASKED_ABOVE_PERCENT = 80;
const ELONGATION_MAX_PERCENT = 1_000;

export type TypedField = keyof TypedValues;

export interface TypedDoubt {
  readonly field: TypedField;
  /** `refused`: can't be. `asked`: kept when a person says that it is right. */
  readonly kind: 'refused' | 'asked';
  readonly sentence: string;
}

/** The first doubt, refusals before questions; null where there is none. Values must have been checked. */
export function typedDoubt(typed: TypedValues, specimen: Specimen): TypedDoubt | null {
  const { loadN, yieldLoadN, elongationPercent } = typedNumbers(typed);
  const section = area(specimen.geometry);
  const strength = section.ok ? loadN / section.area.areaMm2 : null;
  const over = (mpa: number): string =>
    `${typed.load} over the measured section would be ${numberText(mpa, 4)} MPa (${numberText(mpa / 0.006_894_757_293_168_36, 4)} psi)`;
  if (strength !== null && strength > STRENGTH_MPA_MAX)
    return {
      field: 'load',
      kind: 'refused',
      sentence: `${over(strength)}, which no metal bears; the unit of the load or of a dimension is wrong.`,
    };
  if (yieldLoadN !== undefined && yieldLoadN > loadN)
    return {
      field: 'yieldLoad',
      kind: 'refused',
      sentence: `The yield load ${typed.yieldLoad ?? ''} is above the peak load ${typed.load}; the peak is the largest load of all: read both again.`,
    };
  if (elongationPercent !== undefined && elongationPercent > ELONGATION_MAX_PERCENT)
    return {
      field: 'elongation',
      kind: 'refused',
      sentence: `An elongation of ${typed.elongation ?? ''} can't be; type it in percent of the gauge length, for example "22 %".`,
    };
  if (strength !== null && strength > STRENGTH_ASKED_ABOVE_MPA)
    return {
      field: 'load',
      kind: 'asked',
      sentence: `${over(strength)}, more than all but drawn wire bears: is the load right, and its unit?`,
    };
  if (strength !== null && strength < STRENGTH_ASKED_BELOW_MPA)
    return {
      field: 'load',
      kind: 'asked',
      sentence: `${over(strength)}, less than any structural metal: is the load right, and its unit?`,
    };
  if (elongationPercent !== undefined && elongationPercent > ELONGATION_ASKED_ABOVE_PERCENT)
    return {
      field: 'elongation',
      kind: 'asked',
      sentence: `An elongation of ${typed.elongation ?? ''} is more than almost any metal shows: is it right, and in percent?`,
    };
  return null;
}
