/** The real window with a pull open in it, fed by a process that plays the readout. */
import { station } from '../../../electron/setup/demonstration-pull.mjs';
import type { PageReplyOf, PageRequestName, PageRequestOf } from '../../../core/contract/bridge.ts';
import { GaugemarkWindow } from '../../app/support/gaugemark-window.ts';
import { type PortPair, openPortPair } from '../../app/support/port-pair.ts';
import { until } from '../../app/support/until.ts';
import { type SendReport, prepareLines } from './line-sender.ts';
import { familyOf, processorSeconds } from './process-facts.ts';
import { BY_HAND, PROFILE, SPECIMEN } from './pull-lines.ts';

export class BenchWindow {
  readonly window: GaugemarkWindow;
  readonly pair: PortPair;
  /** Lines so far. */
  sent = 0;

  private constructor(window: GaugemarkWindow, pair: PortPair) {
    this.window = window;
    this.pair = pair;
  }

  /** Opens the window, the port and a pull that never ends by itself. */
  static async open(folder: string): Promise<BenchWindow> {
    const pair = await openPortPair(folder);
    const window = await GaugemarkWindow.open({ folder });
    await window.connected();
    const bench = new BenchWindow(window, pair);
    const { specimenId } = await bench.ask('specimen.save', { specimen: SPECIMEN });
    await bench.ask('readout.open', { source: { kind: 'serial', path: pair.port }, profile: PROFILE });
    await bench.ask('pull.ready', {
      specimenId,
      ...BY_HAND,
      plannedForceN: 60_000,
      plannedExtensionMm: 12,
    });
    // The first line after a port was opened may have lost its beginning and is not believed.
    await bench.send({ linesPerS: 100, batchMs: 16, count: 10 });
    await bench.ask('pull.start', {});
    return bench;
  }

  async ask<N extends PageRequestName>(name: N, payload: PageRequestOf<N>): Promise<PageReplyOf<N>> {
    const answer = await this.window.request(name, payload);
    if (!answer.ok) throw new Error(`${name}: ${answer.fault.sentence}`);
    return answer.value;
  }

  /** Goes to a station by what an operator would press. */
  async show(name: 'Pull' | 'Specimen'): Promise<void> {
    await station(this.window.page, name).click();
    if (name === 'Pull') await this.window.page.locator('#plot-load-time canvas').first().waitFor();
    else await this.window.page.locator('#plot-load-time').waitFor({ state: 'detached' });
  }

  async readingCount(): Promise<number> {
    return (await this.ask('session.get', {})).pull?.readingCount ?? 0;
  }

  /** Sends lines and waits until the last is a reading; `firstReading` is the number that the first became. */
  async send(order: {
    readonly linesPerS: number;
    readonly batchMs: number;
    readonly count: number;
    /** Done while the lines flow. */
    readonly meanwhile?: () => Promise<void>;
  }): Promise<SendReport & { readonly firstReading: number }> {
    const firstReading = await this.readingCount();
    const sender = await prepareLines({ ...order, path: this.pair.readoutSide, from: this.sent });
    this.sent += order.count;
    sender.begin();
    const [report] = await Promise.all([sender.done, order.meanwhile?.()]);
    await until(async () => (await this.readingCount()) >= this.sent - 1, 'the last line is a reading');
    return { ...report, firstReading };
  }

  /** Milliseconds to be added to the page's clock to have this process's monotonic one; good to half a millisecond. */
  async pageClockOffsetMs(): Promise<number> {
    let best = { roundTripMs: Infinity, offsetMs: Number.NaN };
    for (let k = 0; k < 60; k++) {
      const from = Number(process.hrtime.bigint()) / 1e6;
      const pageMs = await this.window.page.evaluate(() => performance.now());
      const roundTripMs = Number(process.hrtime.bigint()) / 1e6 - from;
      if (roundTripMs < best.roundTripMs) best = { roundTripMs, offsetMs: from + roundTripMs / 2 - pageMs };
    }
    return best.offsetMs;
  }

  /** Processor seconds so far: the page, and the process that puts its pixels together. */
  drawingSeconds(): number {
    return familyOf(this.window.mainPid)
      .filter(({ commandLine }) => /--type=(?:renderer|gpu-process)\b/.test(commandLine))
      .reduce((sum, { pid }) => sum + processorSeconds(pid), 0);
  }

  async end(): Promise<void> {
    await this.window.end();
    await this.pair.end();
  }
}
