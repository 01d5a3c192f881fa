/** The simulated frame as the readout of a real window; for tests and for measurements. */
import type { Page } from 'playwright';
import type { GaugemarkWindow } from './gaugemark-window.ts';

const SCENARIO = 'mild-steel-yield-point';

/** Listens to the simulated frame at so many times true pace; at fifty a whole pull takes a second. */
export async function openSimulated(window: GaugemarkWindow, pace = 50): Promise<void> {
  const known = await window.request('readout.scenarios', {});
  const scenario = known.ok ? known.value.scenarios.find(({ name }) => name === SCENARIO) : undefined;
  const profiles = await window.request('readout.profiles', {});
  const profile = profiles.ok
    ? profiles.value.profiles.find((one) => one.profile.name === scenario?.profileName)?.profile
    : undefined;
  if (profile === undefined) throw new Error('The simulated frame has no profile.');
  const opened = await window.request('readout.open', {
    source: { kind: 'simulated', scenario: SCENARIO, seed: 1, pace },
    profile,
  });
  if (!opened.ok) throw new Error(opened.fault.sentence);
}

export async function chooseSi(page: Page): Promise<void> {
  await page.getByRole('radio', { name: 'SI' }).check({ force: true });
}
