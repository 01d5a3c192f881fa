/** Which components of the page were drawn since it was asked for: the page's own code, counted by the engine. */
import { readFileSync, readdirSync } from 'node:fs';
import { SourceMap } from 'node:module';
import { join, normalize } from 'node:path';
import type { CDPSession, Page } from 'playwright';

const PROJECT = new URL('../../../', import.meta.url).pathname;
const PAGE_CODE = join(PROJECT, 'build', 'renderer', 'main.js');
/** A component is a function whose name begins with a capital letter, in a file with markup. */
const COMPONENT = /^(?:export )?function ([A-Z]\w*)/;
/** The camera's sheet is a page of its own. */
const OTHER_PAGES = ['renderer/camera/'];

/**
 * Drawn by none of the views of `window-looked-over`, and the test in which they are looked over instead, which says so by
 * `notDrawnAsSaid`.
 */
export const LOOKED_AT_ELSEWHERE: Readonly<Record<string, string>> = {
  'renderer/again/again-place.tsx ChangedTable': 'window-many-pulls',
  'renderer/again/again-place.tsx PullCell': 'window-many-pulls',
  'renderer/again/again-place.tsx KeepChanged': 'window-many-pulls',
  'renderer/again/again-place.tsx SetsBlock': 'window-many-pulls',
  'renderer/exchange/other-archives-sheet.tsx OneArchive': 'window-exchange',
  'renderer/exchange/other-archives-sheet.tsx MarkElsewhere': 'window-exchange',
  'renderer/exchange/restore-sheet.tsx StateRow': 'window-exchange',
  'renderer/exchange/restore-sheet.tsx Only': 'window-exchange',
  'renderer/self-check/self-check-place.tsx Findings': 'window-self-check',
  'renderer/self-check/self-check-place.tsx Group': 'window-self-check',
  'renderer/self-check/self-check-place.tsx Row': 'window-self-check',
  'renderer/stations/specimen/correction-block.tsx CorrectionBlock': 'window-calliper-typed-board',
  'renderer/stations/specimen/corrected-pulls.tsx CorrectedPulls': 'window-calliper-typed-board',
  'renderer/stations/specimen/corrected-pulls.tsx OnePull': 'window-calliper-typed-board',
};

/** All of them, as "renderer/app.tsx App". */
export function allComponents(): string[] {
  return readdirSync(join(PROJECT, 'renderer'), { recursive: true, encoding: 'utf8' })
    .map((name) => `renderer/${name}`)
    .filter((file) => file.endsWith('.tsx') && OTHER_PAGES.every((other) => !file.startsWith(other)))
    .flatMap((file) => linesOf(file).flatMap((line) => componentAt(file, line) ?? []));
}

const linesOf = (file: string): string[] => readFileSync(join(PROJECT, file), 'utf8').split('\n');
const componentAt = (file: string, line: string): string | null => {
  const name = COMPONENT.exec(line)?.[1];
  return name === undefined ? null : `${file} ${name}`;
};

export class DrawnComponents {
  readonly #debugger: CDPSession;

  private constructor(session: CDPSession) {
    this.#debugger = session;
  }

  static async from(page: Page): Promise<DrawnComponents> {
    const session = await page.context().newCDPSession(page);
    await session.send('Profiler.enable');
    await session.send('Profiler.startPreciseCoverage', { callCount: true, detailed: false });
    return new DrawnComponents(session);
  }

  /** What was to be drawn by this test and was not. */
  async notDrawnAsSaid(test: string): Promise<string[]> {
    const drawn = await this.soFar();
    const said = Object.keys(LOOKED_AT_ELSEWHERE).filter((one) => LOOKED_AT_ELSEWHERE[one] === test);
    if (said.length === 0) throw new Error(`Nothing is said to be looked at by ${test}.`);
    return said.filter((one) => !drawn.has(one));
  }

  /** Named as in `allComponents`. Until then the page must not have been loaded again. */
  async soFar(): Promise<ReadonlySet<string>> {
    const { result } = await this.#debugger.send('Profiler.takePreciseCoverage');
    const code = readFileSync(PAGE_CODE, 'utf8');
    const map = new SourceMap(
      JSON.parse(readFileSync(`${PAGE_CODE}.map`, 'utf8')) as ConstructorParameters<typeof SourceMap>[0],
    );
    const at = placesIn(code);
    const lines = new Map<string, string[]>();
    const drawn = new Set<string>();
    for (const { url, functions } of result) {
      if (!url.endsWith('/main.js')) continue;
      for (const { ranges } of functions) {
        const [whole] = ranges;
        if (whole === undefined || whole.count === 0) continue;
        const { line, column } = at(whole.startOffset);
        const origin = map.findEntry(line, column);
        if (!('originalSource' in origin)) continue;
        const file = normalize(join('build/renderer', origin.originalSource));
        if (!file.startsWith('renderer/') || !file.endsWith('.tsx')) continue;
        if (!lines.has(file)) lines.set(file, linesOf(file));
        const component = componentAt(file, lines.get(file)?.[origin.originalLine] ?? '');
        if (component !== null) drawn.add(component);
      }
    }
    return drawn;
  }
}

/** Line and column of a place in a text, both from 0. */
function placesIn(text: string): (offset: number) => { line: number; column: number } {
  const starts = [0];
  for (let end = text.indexOf('\n'); end >= 0; end = text.indexOf('\n', end + 1)) starts.push(end + 1);
  return (offset) => {
    let [low, high] = [0, starts.length];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if ((starts[middle] ?? 0) <= offset) low = middle;
      else high = middle;
    }
    return { line: low, column: offset - (starts[low] ?? 0) };
  };
}
