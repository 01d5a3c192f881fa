/** What page, main and recorder of an open window hold, MiB. */
import type { GaugemarkWindow } from '../../app/support/gaugemark-window.ts';
import { residentBytes } from './process-facts.ts';
import { wait } from './rounds.ts';

const MIB = 2 ** 20;
/** Time, load and extension in core units, in columns that double (renderer/store/curve-columns.ts). */
const BYTES_PER_READING = 3 * 8;
const COLUMN_ROOM_MIN = 4_096;

export interface MemorySample {
  readonly page: number;
  readonly main: number;
  readonly recorder: number;
}

/** Resident memory once a second; what was thrown away and is not collected yet is in it. */
export async function memoryUntil(window: GaugemarkWindow, untilMs: number): Promise<MemorySample[]> {
  const pagePid = await window.pagePid();
  const [recorderPid = Number.NaN] = window.recorderPids();
  const samples = [];
  while (performance.now() < untilMs) {
    samples.push({
      page: residentBytes(pagePid) / MIB,
      main: residentBytes(window.mainPid) / MIB,
      recorder: residentBytes(recorderPid) / MIB,
    });
    await wait(1_000);
  }
  return samples;
}

/** What the page holds once its garbage is collected: a pause, so only before and after. */
export async function pageMemory(
  window: GaugemarkWindow,
): Promise<() => Promise<{ readonly resident: number; readonly heap: number }>> {
  const devtools = await window.page.context().newCDPSession(window.page);
  const pagePid = await window.pagePid();
  return async () => {
    await devtools.send('HeapProfiler.collectGarbage');
    const { usedSize } = await devtools.send('Runtime.getHeapUsage');
    return { resident: residentBytes(pagePid) / MIB, heap: usedSize / MIB };
  };
}

/** What the page's columns of a record take. */
export const columnsMib = (readings: number): number =>
  (Math.max(2 ** Math.ceil(Math.log2(Math.max(readings, 1))), COLUMN_ROOM_MIN) * BYTES_PER_READING) / MIB;
