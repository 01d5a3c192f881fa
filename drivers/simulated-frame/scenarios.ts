/** The scenarios that ship. */
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import aluminiumWeld from '../../fixtures/scenarios/aluminium-weld.json' with { type: 'json' };
import brittleWeldDefect from '../../fixtures/scenarios/brittle-weld-defect.json' with { type: 'json' };
import mildSteel from '../../fixtures/scenarios/mild-steel-yield-point.json' with { type: 'json' };
import quenchedSteel from '../../fixtures/scenarios/quenched-steel.json' with { type: 'json' };
import weldStrapUs from '../../fixtures/scenarios/weld-strap-us.json' with { type: 'json' };
import { shippedProfile } from '../profiles.ts';
import { type Scenario, scenario } from './scenario.ts';

const FILES = [mildSteel, weldStrapUs, quenchedSteel, aluminiumWeld, brittleWeldDefect];
let read: readonly Scenario[] | null = null;

/** Checked when they are first asked for: a recorder's start need not wait for it. */
export const shippedScenarios = (): readonly Scenario[] =>
  (read ??= FILES.map((file) => scenario.parse(file)));

/** Offered when nothing is configured. */
export const DEFAULT_SCENARIO = 'mild-steel-yield-point';

export function shippedScenario(name: string): Scenario | null {
  return shippedScenarios().find((candidate) => candidate.name === name) ?? null;
}

/** The profile in which a scenario's readout speaks. Throws a RangeError where none ships under its name. */
export function profileOfScenario({ profile }: Scenario): ReadoutProfile {
  const found = shippedProfile(profile);
  if (found === null) throw new RangeError(`no profile named "${profile}" ships with the program`);
  return found;
}
