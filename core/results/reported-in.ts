/**
 * A result as it is reported in the units that are shown: the value by the rule that was chosen, in that system's
 * steps, with the working in the same units. What was measured in the other system is rounded anew from the
 * unrounded value, never from the rounded one.
 */
import { UNITS } from '../quantity/units.ts';
import type { Result, Rounded } from './result.ts';
import { type RoundingRuleName, type UnitSystem, roundByRule, roundedKind, ruleOf } from './rounding.ts';
import { shownInSystem } from './shown-in-system.ts';

/** The usual rules; one of them by name says nothing about a choice. */
const USUAL: Readonly<Record<UnitSystem, RoundingRuleName>> = { SI: 'iso-6892-1', US: 'e8-1' };

export function reportedIn(result: Result, system: UnitSystem): Result {
  const measuredIn = roundedInSystem(result) ?? system;
  const rule = result.rounded.map(ruleOf).find((name) => name !== null);
  const chosen = rule === USUAL[measuredIn] ? undefined : (rule ?? 'none');
  return shownInSystem(result, {
    units: system === 'US' ? 'us' : 'si',
    measuredIn,
    ...(chosen === undefined ? {} : { rounding: chosen }),
  });
}

/** A strength where only its value is known, as in a list: by the usual rule of the units that are shown. */
export function usuallyReported(strengthMpa: number, system: UnitSystem): Rounded | null {
  return roundByRule({ value: strengthMpa, unit: 'MPa' }, 'strength', USUAL[system], system);
}

/** The value to be reported; null where no rule covers the result, or none was to be used. */
export function reportedValue(result: Result): Rounded | null {
  return result.rounded.find((rounded) => ruleOf(rounded) !== null) ?? null;
}

/** The system of a strength's rounding is that of the specimen's measurements; a percentage belongs to both. */
function roundedInSystem(result: Result): UnitSystem | null {
  const [first] = result.rounded;
  if (first === undefined || roundedKind(result.symbol) !== 'strength') return null;
  return UNITS[first.unit].system === 'US' ? 'US' : 'SI';
}
