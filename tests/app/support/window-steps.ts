/** Steps of an operator in the real window, by what the page shows. */
import type { Page } from 'playwright';
import { expect } from 'vitest';
import type { ReplyOf } from '../../../core/contract/index.ts';
import { QUIET_BEFORE_LINE_MS } from '../../../drivers/lines/line-parser.ts';
import { enterSpecimen, makeReady, stateIs, station } from '../../../electron/setup/demonstration-pull.mjs';
import { PROFILE, type Readout } from '../recorder-process.ts';
import type { GaugemarkWindow } from './gaugemark-window.ts';
import { chooseSi, openSimulated } from './simulated-readout.ts';
import { until } from './until.ts';

export const LOAD_EXTENSION = 'Load – extension';

/** Rises to 30.2 kN in 150 lines, breaks, stays near zero. */
export const COURSE = (count: number): number => (count < 20 ? 3 : count < 170 ? 200 * (count - 18) : 12);
/** A pull that goes on for as long as the test wants: rises slowly and never breaks. */
export const ENDLESS = (count: number): number => (count < 20 ? 3 : 1_000 + count);

/** Enters a specimen, opens the port that was typed by hand with the test's own profile, and makes ready. */
export async function readyAtPort(window: GaugemarkWindow, port: string): Promise<void> {
  await window.connected();
  const saved = await window.request('readout.save-profile', { profile: PROFILE });
  expect(saved.ok).toBe(true);
  const { page } = window;
  await chooseSi(page);
  await enterSpecimen(page, 'P-1');
  await station(page, 'Readout').click();
  await page.getByRole('textbox', { name: 'Port by path' }).fill(port);
  await page.getByRole('combobox', { name: 'Readout profile' }).selectOption(PROFILE.name);
  await page.getByRole('button', { name: 'Listen', exact: true }).click();
  await page.getByRole('button', { name: 'Go to the pull' }).click();
  await page.getByRole('button', { name: 'Make ready' }).click();
  // The profile's factors are as they come, and no calibrated instrument is named.
  await page.getByRole('button', { name: 'It is known: make ready' }).click();
  await page.getByText('Ready, waiting for load').first().waitFor();
  // The port was opened anew for the record: a line that comes at once could be the rest of one.
  await new Promise((done) => setTimeout(done, 2 * QUIET_BEFORE_LINE_MS));
}

/** Makes a whole pull of the simulated frame at fifty times true pace with the specimen that has been entered, and closes it. */
export async function pullSimulated(window: GaugemarkWindow): Promise<void> {
  await openSimulated(window);
  await station(window.page, 'Pull').click();
  await makeReady(window.page);
  await stateIs(window.page, ['broken']);
  expect(await window.request('pull.close', {})).toMatchObject({ ok: true, value: { state: 'ended' } });
}

/** Longer than a button has to be held. */
const HELD_MS = 1_500;

export async function hold(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name }).click({ delay: HELD_MS });
}

/** The button goes elsewhere while it is held, as when an alarm comes above it; the finger trembles and stays. */
export async function holdWhileItMoves(page: Page, name: string): Promise<void> {
  const button = page.getByRole('button', { name });
  // Waits until it stands still: the page may be drawing what the step before has changed.
  await button.hover();
  const box = await button.boundingBox();
  if (box === null) throw new Error(`The button "${name}" is not shown.`);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  const moved = await button.elementHandle();
  await moved.evaluate((it) => ((it as HTMLElement).style.translate = '0 -200px'));
  await page.mouse.move(x + 1, y);
  await new Promise((done) => setTimeout(done, HELD_MS));
  await page.mouse.up();
  await moved.evaluate((it) => ((it as HTMLElement).style.translate = ''));
}

/** Holds the button that closes the record until the page says that it is closed; what it says instead is told. */
export async function closeRecord(page: Page): Promise<void> {
  await hold(page, 'Hold: close the record');
  try {
    await page.getByText('Record closed', { exact: true }).first().waitFor();
  } catch (cause) {
    const shown = await page.locator('body').innerText();
    throw new Error(`The record was not closed. The page says:\n${shown}`, { cause });
  }
}

export async function untilReadings(window: GaugemarkWindow, count: number): Promise<void> {
  await until(async () => {
    const answer = await window.request('session.get', {});
    return answer.ok && (answer.value.pull?.readingCount ?? 0) >= count;
  }, `${count} readings are kept`);
}

/**
 * What is told as missing of a pull that has every line, but for the silence of the readout where this test itself had
 * stopped it: on a slow machine a pause is long enough to be told.
 */
export const gapsBesidePauses = (
  { gaps }: Pick<ReplyOf<'pull.get'>, 'gaps'>,
  { pausedAt }: Pick<Readout, 'pausedAt'>,
): ReplyOf<'pull.get'>['gaps'] =>
  gaps.filter(({ cause, beforeSeq }) => cause !== 'silence' || !pausedAt.includes(beforeSeq));

export async function untilState(window: GaugemarkWindow, state: string): Promise<void> {
  let told: unknown = null;
  try {
    await until(async () => {
      const answer = await window.request('session.get', {});
      told = answer.ok ? answer.value.state : answer;
      return told === state;
    }, `the session is ${state}`);
  } catch (cause) {
    const shown = await window.page.locator('body').innerText();
    throw new Error(`The session is not ${state}: ${JSON.stringify(told)}. The page says:\n${shown}`, {
      cause,
    });
  }
}

/** First and last reading that the plot can show, as its keys and its spoken text tell them. */
export async function shownEnds(page: Page): Promise<{ first: number; last: number }> {
  const plot = page.getByRole('slider', { name: LOAD_EXTENSION });
  const at = async (key: 'Home' | 'End'): Promise<number> => {
    await plot.press(key);
    const spoken = (await plot.getAttribute('aria-valuetext')) ?? '';
    return Number(/^Reading (\d+):/.exec(spoken)?.[1] ?? Number.NaN);
  };
  return { first: await at('Home'), last: await at('End') };
}

/** A pull as it comes back from the archive; typed arrays as plain ones, to be compared. */
export async function keptPull(
  window: GaugemarkWindow,
  pullId: number,
): Promise<{ pull: ReplyOf<'pull.get'>; counts: number[]; raw: string; curve: string; result: string }> {
  const text = await window.page.evaluate(async (id) => {
    const value = async (name: string, payload: object): Promise<unknown> => {
      const bridge = globalThis as unknown as {
        gaugemark: { request: (n: string, p: object) => Promise<{ ok: boolean; value: unknown }> };
      };
      const answer = await bridge.gaugemark.request(name, payload);
      if (!answer.ok) throw new Error(JSON.stringify(answer));
      return answer.value;
    };
    const plain = (_key: string, entry: unknown): unknown =>
      ArrayBuffer.isView(entry) ? [...(entry as Float64Array)].map(String) : entry;
    return JSON.stringify(
      {
        pull: await value('pull.get', { pullId: id }),
        readings: await value('pull.readings', { pullId: id, fromSeq: 0, count: 200_000, shown: true }),
        raw: await value('pull.raw', { pullId: id, fromChunk: 0, count: 100_000 }),
        evaluation: await value('pull.evaluate', { pullId: id }),
      },
      plain,
    );
  }, pullId);
  const kept = JSON.parse(text) as {
    pull: ReplyOf<'pull.get'>;
    readings: { columns: { channels: { value: string[] }[] } };
    raw: { bytes: string[] };
    evaluation: unknown;
  };
  return {
    pull: kept.pull,
    counts: kept.readings.columns.channels[0]?.value.map(Number) ?? [],
    raw: Buffer.from(kept.raw.bytes.map(Number)).toString('latin1'),
    // The basis counts the zeros that a running recorder has taken; it says nothing about the kept curve.
    curve: JSON.stringify({ ...kept.readings, basis: undefined }),
    result: JSON.stringify(kept.evaluation),
  };
}

export async function openPullId(window: GaugemarkWindow): Promise<number> {
  const answer = await window.request('session.get', {});
  const pullId = answer.ok ? answer.value.pull?.pullId : undefined;
  if (pullId === undefined) throw new Error('No pull is open.');
  return pullId;
}
