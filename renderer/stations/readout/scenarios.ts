/** What ships for the simulated frame: each scenario with the specimen that it pulls. */
import aluminiumWeld from '../../../fixtures/scenarios/aluminium-weld.json' with { type: 'json' };
import brittleWeldDefect from '../../../fixtures/scenarios/brittle-weld-defect.json' with { type: 'json' };
import mildSteel from '../../../fixtures/scenarios/mild-steel-yield-point.json' with { type: 'json' };
import quenchedSteel from '../../../fixtures/scenarios/quenched-steel.json' with { type: 'json' };
import weldStrapUs from '../../../fixtures/scenarios/weld-strap-us.json' with { type: 'json' };
import { type SpecimenFile, specimenFile } from '../../../core/specimen/specimen-file.ts';

export interface OfferedScenario {
  readonly name: string;
  readonly title: string;
  /** Name of the profile in which its readout speaks. */
  readonly profile: string;
  readonly specimen: SpecimenFile;
}

/** The first one is for a first pull. */
export const OFFERED_SCENARIOS: readonly OfferedScenario[] = [
  mildSteel,
  weldStrapUs,
  quenchedSteel,
  aluminiumWeld,
  brittleWeldDefect,
].map(({ name, title, profile, specimen }) => ({
  name,
  title,
  profile,
  specimen: specimenFile.parse(specimen),
}));

export function offeredScenario(name: string): OfferedScenario | undefined {
  return OFFERED_SCENARIOS.find((s) => s.name === name);
}
