/** One pull in the real window over a real pty, from the empty sheet to the archive and back after everything was closed. */
import { type AddressInfo, type Server, createServer } from 'node:net';
import { expect, it } from 'vitest';
import { noteFracture, station } from '../../electron/setup/demonstration-pull.mjs';
import { lineOf, makeReadout, scratch } from './recorder-process.ts';
import { until } from './support/until.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import { killAndWait } from './support/processes.ts';
import { chooseSi } from './support/simulated-readout.ts';
import {
  COURSE,
  closeRecord,
  keptPull,
  LOAD_EXTENSION,
  openPullId,
  readyAtPort,
  shownEnds,
  untilReadings,
  untilState,
} from './support/window-steps.ts';

const resultsOf = ({ result }: { readonly result: string }): unknown =>
  (JSON.parse(result) as { results: unknown }).results;

it('is shown as it happens, kept to the byte, and is the same after everything was closed', async () => {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const window = await GaugemarkWindow.open({ folder });
  try {
    await readyAtPort(window, readout.port);
    const { page } = window;
    const pullId = await openPullId(window);
    readout.run(8, COURSE);
    await page.getByText('Pulling', { exact: true }).first().waitFor();
    await page.getByText('Broken', { exact: true }).first().waitFor();
    await untilReadings(window, 170 + 100);
    await readout.pause();
    // What a client sees while the record runs is what the archive has when it is closed.
    const running = await keptPull(window, pullId);
    await closeRecord(page);

    const before = await keptPull(window, pullId);
    const sent = Array.from({ length: readout.sent() }, (_, i) => lineOf(i, COURSE(i))).join('');
    expect(sent.startsWith(before.raw)).toBe(true);
    expect(before.counts).toEqual(before.counts.map((_, i) => i));
    expect(before.pull).toMatchObject({
      state: 'ended',
      broke: true,
      triggerSeq: 21,
      breakSeq: 170,
    });
    // Behind the break a readout may be quiet for as long as it likes.
    expect(before.pull.gaps.filter((gap) => gap.beforeSeq <= 170)).toEqual([]);
    // The mark of the break cut nothing off.
    expect(before.pull.readingCount).toBeGreaterThanOrEqual(170 + 100);
    expect(running.pull).toMatchObject({
      state: 'broken',
      peakForceN: before.pull.peakForceN,
      readingCount: before.pull.readingCount,
    });
    expect([running.curve, resultsOf(running)]).toEqual([before.curve, resultsOf(before)]);
    // The peak is said where the operator looks: 200 N × (169 − 18).
    await expect(
      page
        .getByText(/30.200|30\.20/)
        .first()
        .isVisible(),
    ).resolves.toBe(true);
    const shown = await shownEnds(page);
    expect(shown).toEqual({ first: 0, last: before.pull.readingCount - 1 });

    await noteFracture(page, 'Weld metal');
    await station(page, 'Result').click();
    await page.getByText('maximum force').first().waitFor();
    const recorders = window.recorderPids();
    await window.app.close();
    // What was in memory of a recorder must not help: the archive alone gives the curve back.
    for (const pid of recorders) await killAndWait(pid);

    const again = await GaugemarkWindow.open({ folder });
    try {
      await again.connected();
      await chooseSi(again.page);
      await again.page.locator('#go-archive').click();
      await again.page.getByRole('button', { name: 'Open the pull of P-1' }).click();
      await again.page.getByRole('slider', { name: LOAD_EXTENSION }).waitFor();
      // The plot is drawn from the archive as it was live.
      await expect.poll(() => shownEnds(again.page), { timeout: 30_000 }).toEqual(shown);
      const after = await keptPull(again, pullId);
      expect(after.pull.fractureNotes.map(({ note }) => note.place)).toEqual(['weld-metal']);
      expect(after.curve).toBe(before.curve);
      expect(after.raw).toBe(before.raw);
      expect(after.result).toBe(before.result);
    } finally {
      await again.end();
    }
  } finally {
    await window.end();
  }
});

/** Sends one line again and again to whoever connects. */
async function lineServer(line: string): Promise<Server> {
  const server = createServer((socket) => {
    const sending = setInterval(() => socket.write(line), 50);
    socket.on('error', () => undefined).on('close', () => clearInterval(sending));
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  return server;
}

it('shows raw lines and readings side by side before anything is recorded', async () => {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const server = await lineServer('G,1.250,731,0.0123,0.456\r\n');
  const window = await GaugemarkWindow.open({ folder });
  try {
    await window.connected();
    const { page } = window;
    await station(page, 'Readout').click();
    await page.getByRole('textbox', { name: 'Port by path' }).fill(readout.port);
    await page.getByRole('combobox', { name: 'Readout profile' }).selectOption('Simulated frame (SI)');
    await page.getByRole('button', { name: 'Listen', exact: true }).click();
    await page.getByRole('button', { name: 'Stop listening', exact: true }).waitFor();
    // The first line after opening may be half of one and is not believed: the readout goes on sending.
    const reading = page.getByRole('cell', { name: /^512(\s*N)?$/ }).first();
    await until(async () => {
      await readout.pty.write('G,1.250,512,0.0123,0.456\r\nthis is no reading\r\n');
      return reading.isVisible();
    }, 'the reading is shown');
    await page.getByText('G,1.250,512,0.0123,0.456').first().waitFor();
    await page.getByText('this is no reading').first().waitFor();
    const list = await window.request('pull.list', { limit: 10 });
    expect(list.ok && list.value.items).toEqual([]);
    await page.getByRole('button', { name: 'Stop listening', exact: true }).click();
    await untilState(window, 'closed');

    // The same lines from a device server: its address is typed where a path is.
    const { port } = server.address() as AddressInfo;
    await page.getByRole('textbox', { name: 'Port by path' }).fill(`tcp:127.0.0.1:${String(port)}`);
    await page.getByRole('combobox', { name: 'Readout profile' }).selectOption('Simulated frame (SI)');
    await page.getByRole('button', { name: 'Listen', exact: true }).click();
    await page
      .getByRole('cell', { name: /^731(\s*N)?$/ })
      .first()
      .waitFor();
    await page.getByRole('button', { name: 'Stop listening', exact: true }).click();
    await untilState(window, 'closed');
  } finally {
    await window.end();
    server.close();
  }
});

it.each([
  ['/dev/there-is-no-such-port', /There is no port/],
  ['A_PLAIN_FILE', /plain file|not a (serial )?port|ordinary file|no (serial )?port/i],
])('answers %s given as a port with one sentence and goes on', async (path, sentence) => {
  const folder = scratch();
  const window = await GaugemarkWindow.open({ folder });
  try {
    await window.connected();
    const { page } = window;
    await station(page, 'Readout').click();
    const typed = path === 'A_PLAIN_FILE' ? window.archivePath : path;
    await page.getByRole('textbox', { name: 'Port by path' }).fill(typed);
    await page.getByRole('button', { name: 'Listen', exact: true }).click();
    await page.getByRole('alert').filter({ hasText: sentence }).waitFor();
    await untilState(window, 'closed');
  } finally {
    await window.end();
  }
});
