/**
 * From a set that is made to its certificate by keyboard alone, in the real window with the simulated frame. A key
 * pressed together with Alt or Ctrl counts as one press; characters typed into entries don't count. The readout is
 * open already, at fifty times true pace, as in a shop where it stays open from one specimen to the next.
 */
import { stateIs } from '../../../electron/setup/demonstration-pull.mjs';
import type { GaugemarkWindow } from './gaugemark-window.ts';
import { chooseSi, openSimulated } from './simulated-readout.ts';
import { until } from './until.ts';

/** The measure of ease that the program holds itself to. */
export const PRESSES_MAX = 40;

/** The steel of the simulated frame reaches some 435 MPa on 76.2 mm², above the minimum stated here. */
export const KEYBOARD_SET = {
  name: 'Hopper seam 12',
  purpose: 'procedure-qualification',
  rulePackId: 'asme-ix',
  baseMetals: [{ designation: 'our plate', minimum: '400 MPa' }],
  specimenType: 'transverse-flat',
  requiredCount: 1,
  fewerReason: 'the coupon gave one specimen',
};

/** The set made, the laboratory named, the readout open; the certificate goes to `out`. */
export async function readyForKeyboard(window: GaugemarkWindow, out: string): Promise<void> {
  await window.connected();
  await chooseSi(window.page);
  for (const answer of [
    await window.request('set.save', { form: KEYBOARD_SET }),
    await window.request('laboratory.save', { name: 'Hall 4', lines: ['Quay 9'] }),
  ])
    if (!answer.ok) throw new Error(answer.fault.sentence);
  await openSimulated(window);
  await window.app.evaluate(({ dialog }, path) => {
    dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath: path });
  }, out);
}

export interface KeyboardPath {
  readonly presses: number;
  /** Typed into entries. */
  readonly characters: number;
  /** The specimens of the set, as the page lists them before the certificate. */
  readonly listed: string;
}

/** Throws where a key does not lead where it should. */
export async function fromSetToCertificate({ page }: GaugemarkWindow): Promise<KeyboardPath> {
  let presses = 0;
  const press = async (key: string): Promise<void> => {
    presses++;
    await page.keyboard.press(key);
  };
  let characters = 0;
  const type = async (text: string): Promise<void> => {
    characters += text.length;
    await page.keyboard.type(text);
  };
  const step = (): Promise<void> => press('Control+Enter');
  const focused = (): Promise<string> =>
    page.evaluate(() => {
      const element = document.activeElement;
      return `${element?.getAttribute('aria-label') ?? ''} ${element?.getAttribute('name') ?? ''} ${element?.id ?? ''}`;
    });
  const tabTo = async (what: string): Promise<void> => {
    for (let tabs = 0; tabs < PRESSES_MAX; tabs++) {
      if ((await focused()).includes(what)) return;
      await press('Tab');
    }
    throw new Error(`Tab does not lead to ${what}.`);
  };
  const at = (place: string) => page.locator(`main[data-place="${place}"]`).waitFor();
  const button = (id: string) => page.locator(`#${id}`).waitFor();

  await press('Alt+1');
  await page.getByRole('button', { name: `Open ${KEYBOARD_SET.name}` }).waitFor();
  await tabTo(`Open ${KEYBOARD_SET.name}`);
  await press('Enter');
  await page.getByRole('button', { name: 'Measure specimen 1 of 1' }).waitFor();
  await step();
  await until(async () => (await focused()).includes('specimen-identity'), 'the identity can be typed');
  await type('HS-1');
  await tabTo('Width, measurement 1');
  await type('19.05 mm');
  await tabTo('Thickness, measurement 1');
  await type('4.00 mm');
  await tabTo('Gauge length L0, measurement 1');
  await type('50 mm');
  await step();
  await page.getByText(`HS-1 is kept and in the set ${KEYBOARD_SET.name}.`).first().waitFor();
  await step();
  await at('pull');
  await until(
    async () => (await page.locator('#act-ready').getAttribute('aria-disabled')) === null,
    'it can be made ready',
  );
  await step();
  await stateIs(page, ['broken', 'ended']);
  await page.locator('#to-fracture.call').waitFor();
  await step();
  await page.locator('input[name="fracture-place"]').first().waitFor();
  await tabTo('fracture-place');
  for (let down = 0; down < 3; down++) await press('ArrowDown');
  await step();
  await button('to-result');
  await step();
  await at('result');
  await page.getByRole('region', { name: 'Verdict on HS-1' }).getByText('accepted').first().waitFor();
  await step();
  await page.getByRole('button', { name: 'Make the certificate' }).waitFor();
  const listed = (await page.getByRole('region', { name: 'Specimens of the set' }).textContent()) ?? '';
  await step();
  await at('certificate');
  await page.getByRole('region', { name: 'What it says' }).waitFor();
  await step();
  await page.locator('.written').waitFor();
  return { presses, characters, listed };
}
