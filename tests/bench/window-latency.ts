/**
 * From the moment a line is written to the port to the moment its reading stands in both live plots of the real
 * window, 1 000 lines a second in writes of 16 ms; against the same way without drawing: port, recorder, main, page
 * and its next frame, with no plot on the page.
 */
import { until } from '../app/support/until.ts';
import { BenchWindow } from './support/bench-window.ts';
import { benchFolder } from './support/bench-recorder.ts';
import { ratios, shareOf, short, spreadText } from './support/statistics.ts';
import { type Row, goalText, printTable } from './support/table.ts';

const LINES_PER_S = 1_000;
const BATCH_MS = 16;
const ROUNDS = 5;
const ROUND_S = 4;

/** Moments in the page: when, and the last reading that was there by then. */
type Seen = [atMs: number, reading: number][];
interface PageSeen {
  drawn: Seen;
  nextFrame: Seen;
}

const bench = await BenchWindow.open(benchFolder());
const { page } = bench.window;

await page.evaluate(() => {
  const seen: PageSeen = { drawn: [], nextFrame: [] };
  const bridge = globalThis as unknown as {
    gaugemark: {
      on: (n: string, c: (e: { columns: { firstSeq: number; count: number } }) => void) => void;
    };
  };
  let newest = -1;
  let asked = false;
  bridge.gaugemark.on('readings', ({ columns }) => {
    newest = columns.firstSeq + columns.count - 1;
    if (!asked)
      requestAnimationFrame(() => {
        asked = false;
        seen.nextFrame.push([performance.now(), newest]);
      });
    asked = true;
  });
  // The second of the two plots: when it is drawn, both are.
  document.addEventListener('curve-drawn', (event) => {
    if ((event.target as HTMLElement).id !== 'plot-load-time') return;
    seen.drawn.push([performance.now(), (event as CustomEvent<{ reading: number }>).detail.reading]);
  });
  Object.assign(globalThis, { benchSeen: seen });
});

interface Latencies {
  readonly drawn: number[];
  readonly nextFrame: number[];
}

/** Milliseconds for each line, by each way of being seen. */
async function latencies({ isDrawn }: { readonly isDrawn: boolean }): Promise<Latencies> {
  await page.evaluate(() => {
    const { benchSeen } = globalThis as unknown as { benchSeen: PageSeen };
    for (const list of Object.values(benchSeen) as Seen[]) list.length = 0;
  });
  const offsetMs = await bench.pageClockOffsetMs();
  const { writtenUs, behindLine, firstReading } = await bench.send({
    linesPerS: LINES_PER_S,
    batchMs: BATCH_MS,
    count: LINES_PER_S * ROUND_S,
  });
  const last = firstReading + LINES_PER_S * ROUND_S - 1;
  await until(
    () =>
      page.evaluate(
        ([reading, isDrawn]) => {
          const { drawn, nextFrame } = (globalThis as unknown as { benchSeen: PageSeen }).benchSeen;
          return ((isDrawn ? drawn : nextFrame).at(-1)?.[1] ?? -1) >= reading;
        },
        [last, isDrawn] as const,
      ),
    'the last line is seen',
  );
  const seen = await page.evaluate(() => (globalThis as unknown as { benchSeen: PageSeen }).benchSeen);
  const firstLine = (behindLine.at(-1) ?? 0) - LINES_PER_S * ROUND_S;
  const of = (list: Seen): number[] => {
    const times: number[] = [];
    let at = 0;
    for (const [batch, writtenAtUs] of writtenUs.entries()) {
      const from = batch === 0 ? firstLine : (behindLine[batch - 1] ?? 0);
      for (let line = from; line < (behindLine[batch] ?? 0); line++) {
        const reading = firstReading + line - firstLine;
        while (at < list.length && (list[at]?.[1] ?? -1) < reading) at++;
        const shown = list[at];
        if (shown !== undefined) times.push(shown[0] + offsetMs - writtenAtUs / 1000);
      }
    }
    return times;
  };
  return { drawn: of(seen.drawn), nextFrame: of(seen.nextFrame) };
}

const without: Latencies[] = [];
const withPlots: Latencies[] = [];
for (let round = -1; round < ROUNDS; round++) {
  await bench.show('Specimen');
  const bare = await latencies({ isDrawn: false });
  await bench.show('Pull');
  const drawn = await latencies({ isDrawn: true });
  if (round < 0) continue;
  without.push(bare);
  withPlots.push(drawn);
}
const lines = LINES_PER_S * ROUND_S * ROUNDS;
const drawnLines = withPlots.flatMap(({ drawn }) => drawn);
if (drawnLines.length < lines * 0.999)
  throw new Error(`only ${drawnLines.length} of ${lines} lines were seen in the plot`);

const rows = (
  [
    [0.5, 1.3],
    [0.95, 1.6],
    [0.99, 1.6],
  ] as const
).map(([share, atMost]): Row => {
  const floor = shareOf(
    without.flatMap(({ nextFrame }) => nextFrame),
    share,
  );
  const measured = shareOf(drawnLines, share);
  return {
    what: `line written → in both plots, p${share * 100}`,
    floor: `${short(floor)} ms`,
    measured: `${short(measured)} ms`,
    ratio: `${short(measured / floor)} ×`,
    goal: goalText(`≤ ${atMost} ×`, measured / floor <= atMost),
    spread: spreadText(
      ratios(
        without.map(({ nextFrame }) => shareOf(nextFrame, share)),
        withPlots.map(({ drawn }) => shareOf(drawn, share)),
      ),
    ),
  };
});

printTable('From the port to the plot, in the real window', rows, [
  `${drawnLines.length} lines; both clocks are the system's monotonic one, joined to half a millisecond. The floor is the page's next frame without plots.`,
]);
await bench.end();
process.exit(0);
