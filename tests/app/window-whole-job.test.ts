/**
 * The whole job from an empty window to the pull in the archive: set, specimen, readout, pull, fracture, result,
 * certificate, archive. Once with nothing but clicks (and signs typed into fields that were clicked), once with nothing
 * but keys. Nothing is known of the readout beforehand: its port and its line format are chosen in the window.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { FrameOnPort } from './support/frame-on-port.ts';
import { scratch } from './recorder-process.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import { Mouse } from './support/mouse.ts';
import { until } from './support/until.ts';

/** What is typed, by the field's id or its accessible name. */
const SET_ENTRIES = [
  ['set-name', 'Hopper seam 14'],
  ['set-base1', 'our plate'],
  ['set-base1Minimum', '400 MPa'],
  ['set-requiredCount', '1'],
  ['set-fewerReason', 'the coupon gave one specimen'],
] as const;
const SIZES = [
  ['Width, measurement 1', '19.05 mm'],
  ['Thickness, measurement 1', '4.00 mm'],
  ['Gauge length L0, measurement 1', '50 mm'],
] as const;
const KEPT = 'HS-1 is kept and in the set Hopper seam 14.';

interface Job {
  readonly window: GaugemarkWindow;
  /** Sends at fifty times true pace, on a port that nobody has listened to. */
  readonly frame: FrameOnPort;
  readonly certificate: string;
  readonly at: (place: string) => Promise<void>;
}

/** An empty archive, nothing entered; the file dialog of the certificate is answered. */
async function fromEmpty(work: (job: Job) => Promise<void>): Promise<void> {
  const folder = scratch();
  const certificate = join(folder, 'certificate.pdf');
  const frame = await FrameOnPort.on(folder);
  const window = await GaugemarkWindow.open({ folder });
  try {
    await window.connected();
    await window.app.evaluate(({ dialog }, path) => {
      dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath: path });
    }, certificate);
    await work({
      window,
      frame,
      certificate,
      at: (place) => window.page.locator(`main[data-place="${place}"]`).waitFor(),
    });
    expect(existsSync(certificate)).toBe(true);
    const judged = await window.request('set.judge', { setId: 1 });
    expect(judged).toMatchObject({
      ok: true,
      value: { members: [{ specimenName: 'HS-1', outcome: 'accept' }] },
    });
  } finally {
    await window.end();
  }
}

/** What the pull station says once its record runs; then somebody starts the frame. */
const READY = 'Ready, waiting for load';

it('is done with nothing but clicks', () =>
  fromEmpty(async ({ window: { page }, frame, at }) => {
    const hand = new Mouse(page);
    const press = (id: string): Promise<void> => hand.click(page.locator(`#${id}:not([aria-disabled])`));

    await hand.click(page.locator('label', { hasText: /^SI$/ }));
    await press('go-set');
    await press('make-set');
    for (const [id, text] of SET_ENTRIES) await hand.typeInto(page.locator(`#${id}`), text);
    await press('keep-set');

    await press('set-step');
    await at('specimen');
    await hand.typeInto(page.locator('#specimen-identity'), 'HS-1');
    for (const [name, text] of SIZES) await hand.typeInto(page.getByRole('textbox', { name }), text);
    await press('keep-specimen');
    await page.getByText(KEPT).first().waitFor();

    await press('go-readout');
    await hand.typeInto(page.getByRole('textbox', { name: 'Port by path' }), frame.port);
    await hand.choose(page.getByRole('combobox', { name: 'Readout profile' }), frame.profileName);
    await press('listen');
    await press('to-pull');
    await at('pull');
    await press('act-ready');
    // No calibrated instrument is named for a port that is new here.
    await press('calibration-known');
    await page.getByText(READY).first().waitFor();
    frame.pull();
    await page.locator('#to-fracture.call').waitFor();
    await press('to-fracture');

    await hand.click(page.locator('.places label', { hasText: 'Base metal' }));
    await press('keep-fracture');
    await press('to-result');
    await at('result');
    await page.getByRole('region', { name: 'Verdict on HS-1' }).getByText('accepted').first().waitFor();

    await press('to-set');
    await hand.click(page.getByRole('button', { name: 'Make the certificate' }));
    await at('certificate');
    await hand.typeInto(page.locator('#laboratory-name'), 'Hall 4');
    await press('keep-laboratory');
    await press('write-pdf');
    await page.locator('.written').waitFor();

    await press('go-archive');
    await hand.click(page.getByRole('button', { name: /^Open the pull of/ }));
    await page.getByRole('heading', { name: /HS-1/ }).first().waitFor();
    process.stdout.write(`From an empty window to the archive: ${String(hand.clicks)} clicks.\n`);
  }));

it('is done with nothing but keys', () =>
  fromEmpty(async ({ window: { page }, frame, at }) => {
    const { keyboard } = page;
    let presses = 0;
    const press = async (key: string): Promise<void> => {
      presses++;
      await keyboard.press(key);
    };
    /** The one marked button of the view, once it can act. */
    const step = async (id: string): Promise<void> => {
      await page.locator(`#${id}.call:not([aria-disabled])`).waitFor();
      await press('Control+Enter');
    };
    const focused = (): Promise<string> =>
      page.evaluate(() => {
        const element = document.activeElement;
        const label =
          element instanceof HTMLInputElement || element instanceof HTMLSelectElement
            ? element.labels?.[0]
            : null;
        const names = [
          element?.getAttribute('aria-label'),
          element?.getAttribute('name'),
          label?.textContent,
        ];
        return `${element?.id ?? ''} ${names.filter((name) => name !== null && name !== undefined).join(' ')}`;
      });
    const TABS_MAX = 60;
    const tabTo = async (what: string): Promise<void> => {
      for (let tabs = 0; tabs < TABS_MAX; tabs++) {
        const [id, ...name] = (await focused()).split(' ');
        if (id === what || name.join(' ').includes(what)) return;
        await press('Tab');
      }
      throw new Error(`Tab does not lead to ${what}.`);
    };
    /** By what somebody writes who wants to do it. */
    const write = async (words: string): Promise<void> => {
      await press('Control+j');
      await page.locator('dialog.doing').waitFor();
      await keyboard.type(words);
      await press('Enter');
    };

    await press('Alt+1');
    await step('make-set');
    await until(async () => (await focused()).startsWith('set-name'), 'the name can be typed');
    for (const [id, text] of SET_ENTRIES) {
      await tabTo(id);
      await keyboard.type(text);
    }
    await step('keep-set');
    await step('set-step');
    await at('specimen');
    await until(async () => (await focused()).startsWith('specimen-identity'), 'the identity can be typed');
    await keyboard.type('HS-1');
    for (const [name, text] of SIZES) {
      await tabTo(name);
      await keyboard.type(text);
    }
    await step('keep-specimen');
    await page.getByText(KEPT).first().waitFor();

    await press('Alt+3');
    await at('readout');
    await tabTo('Port by path');
    await keyboard.type(frame.port);
    await tabTo('Readout profile');
    // A list that is closed goes to what begins with what is typed.
    await keyboard.type(frame.profileName);
    await step('listen');
    await step('to-pull');
    await at('pull');
    await step('act-ready');
    await step('calibration-known');
    await page.getByText(READY).first().waitFor();
    frame.pull();
    await step('to-fracture');
    await tabTo('fracture-place');
    for (let down = 0; down < 3; down++) await press('ArrowDown');
    await step('keep-fracture');
    await step('to-result');
    await at('result');
    await page.getByRole('region', { name: 'Verdict on HS-1' }).getByText('accepted').first().waitFor();

    await write('name of the laboratory on certificates');
    await at('certificate');
    await until(async () => (await focused()).startsWith('laboratory-name'), 'the name can be typed');
    await keyboard.type('Hall 4');
    await tabTo('keep-laboratory');
    await press('Enter');
    await step('write-pdf');
    await page.locator('.written').waitFor();

    await press('Alt+8');
    await page.locator('#found-0').waitFor();
    await tabTo('found-pulls');
    await press('Enter');
    await page.getByRole('heading', { name: /HS-1/ }).first().waitFor();
    process.stdout.write(`From an empty window to the archive: ${String(presses)} key presses.\n`);
  }));
