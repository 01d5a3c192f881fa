/**
 * Finding pulls among 100 000: the first 50 hits of searches of every kind, against the fetch of one pull by its number
 * in the same run. The search never looks at readings, so a pull has few; `--readings=10000` makes the file of 10⁹.
 */
import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { Archive } from '../../core/archive/archive.ts';
import { forgetHeld, goOnHolding, goOnTakingOver } from '../../core/archive/search/held-search.ts';
import { auditHead, keepVerdicts } from '../../core/archive/search/keep-entries.ts';
import { makeAnew } from '../../core/archive/search/make-index.ts';
import { readingBlocks } from '../../core/archive/read-blocks.ts';
import { foundPullIds, linesOf, searchPulls } from '../../core/archive/search/search.ts';
import { NEWEST_FIRST, type SearchOrder, type SearchQuery } from '../../core/contract/search-requests.ts';
import { BEGUN_MS, SETS, makeRows } from './support/archive-of-many.ts';
import { benchFolder } from './support/bench-recorder.ts';
import { milliseconds } from './support/rounds.ts';
import { shareOf, short } from './support/statistics.ts';
import { type Row, goalText, printTable } from './support/table.ts';

const optionOf = (name: string): string | undefined =>
  process.argv.find((one) => one.startsWith(`${name}=`))?.slice(name.length + 1);
/** `--pulls=N`: fewer, for a look while working. */
const PULLS = Number(optionOf('--pulls') ?? Number.NaN) || 100_000;
/** `--readings=N`: of each pull. */
const READINGS = Number(optionOf('--readings') ?? Number.NaN) || undefined;
/** `--file=PATH`: keeps the archive there, so that the next run need not make it. */
const FILE = optionOf('--file');
/** `--kinds`: every kind of search by itself, also while nothing is held in memory yet. */
const TELLS_KINDS = process.argv.includes('--kinds');
const ASKED = 2_000;
const OPENED = 200;
const HITS = 50;
const TIMES_A_FETCH = 25;
const P99_MS = 2;

const isThere = FILE !== undefined && existsSync(FILE);
const archive = new Archive(FILE ?? join(benchFolder(), 'search.gaugemark'), {
  programVersion: 'bench',
  wallMs: Date.now,
});
const { connection } = archive;

/** Verdicts as judging leaves them: two sets in three are judged, a tenth of their pulls are rejected, some are questionable. */
function judge(): void {
  for (let setId = 1; setId <= SETS; setId++) {
    if (setId % 3 === 0) continue;
    const ids = connection
      .prepare('SELECT pull_id FROM search_entry WHERE set_id = ?')
      .pluck()
      .all(setId)
      .map(Number);
    const judged = ids.map((pullId) => ({
      pullId,
      outcome: pullId % 10 === 0 ? ('reject' as const) : ('accept' as const),
      questionable: pullId % 23 === 0,
    }));
    keepVerdicts(connection, setId, judged, auditHead(connection));
  }
}

/** Yield and elongation of one pull in three, as a first evaluation leaves them. */
function state(): void {
  connection.exec(`UPDATE search_entry SET yield_mpa = 250 + (pull_id * 7919 % 3000) / 10.0,
    elongation_percent = 10 + (pull_id * 104729 % 250) / 10.0 WHERE pull_id % 3 = 0`);
}

type Asked = SearchQuery & { readonly by?: SearchOrder };
const by = (column: SearchOrder['by'], descending = true): { by: SearchOrder } => ({
  by: { by: column, descending },
});

/** Of every kind: common words and rare ones, beginnings, filters alone and together, nothing found; newest first and by a column. */
const QUERIES: readonly ((n: number) => Asked)[] = [
  () => ({}),
  (n) => ({ text: `T-${String(n)}` }),
  (n) => ({ text: `T-${String(n % 90)}` }),
  () => ({ text: 'welded' }),
  () => ({ text: 'we' }),
  (n) => ({ text: `H${String(4000 + (n % SETS))}` }),
  (n) => ({ text: `pqr-${String(100 + (n % SETS))}` }),
  (n) => ({ text: `operator ${String(n % 12)} undercut` }),
  (n) => ({ text: `welder ${String(n % 25)} cup` }),
  () => ({ text: 'neverwritten' }),
  () => ({ broke: 'weld-metal' }),
  () => ({ geometry: 'round', broke: 'base-metal', rules: 'asme' }),
  () => ({ baseMetal: 'SA-516', filler: 'er70' }),
  (n) => ({ set: 1 + (n % SETS) }),
  (n) => ({ fromDay: dayText(n % 3000), toDay: dayText((n % 3000) + 30) }),
  (n) => ({ fromDay: dayText(n % 3000), toDay: dayText((n % 3000) + 400), text: 'undercut' }),
  () => ({ strengthMinMpa: 413.7, strengthMaxMpa: 482.6 }),
  (n) => ({ strengthMinMpa: 300 + (n % 200), broke: 'fusion-line', text: 'operator' }),
  () => ({ verdict: 'not-judged', voided: false }),
  () => ({ interrupted: true }),
  () => ({ ...by('strength') }),
  (n) => ({ text: 'welded', ...by('specimen', n % 2 === 0) }),
  (n) => ({ text: 'undercut', ...by('peak', n % 2 === 0) }),
  (n) => ({ text: `operator ${String(n % 12)}`, ...by('started', n % 2 === 0) }),
  (n) => ({ text: `T-${String(n % 900)}`, ...by('strength', n % 2 === 0) }),
  () => ({ broke: 'weld-metal', ...by('set') }),
  () => ({ strengthMinMpa: 413.7, strengthMaxMpa: 482.6, ...by('strength') }),
  // Half of all are in no set, and none of those broke there.
  () => ({ broke: 'weld-metal', ...by('set', false) }),
  () => ({ broke: 'weld-metal', text: 'undercut', ...by('set', false) }),
  (n) => ({ interrupted: true, ...by('peak', n % 2 === 0) }),
  (n) => ({ baseMetal: 'SA-516', filler: 'er70', ...by('operator', n % 2 === 0) }),
  (n) => ({ text: `T-${String(n % 9)}`, set: 1 + (n % SETS), ...by('started', n % 2 === 0) }),
  (n) => ({ fromDay: dayText(n % 3000), toDay: dayText((n % 3000) + 400), ...by('specimen', n % 2 === 0) }),
  (n) => ({ ...by('verdict', n % 2 === 0) }),
  (n) => ({ text: 'undercut', ...by('verdict', n % 2 === 0) }),
  (n) => ({ verdict: 'reject', ...by('verdict', n % 2 === 0) }),
  (n) => ({ ...by('broke', n % 2 === 0) }),
  // Those that broke there come last in one order, first in the other.
  (n) => ({ broke: 'base-metal', text: `operator ${String(n % 12)}`, ...by('broke', n % 2 === 0) }),
  (n) => ({ text: 'welded', ...by('questionable', n % 2 === 0) }),
  (n) => ({ questionable: true, geometry: 'flat', ...by('questionable', n % 2 === 0) }),
  (n) => ({ text: `welder ${String(n % 25)}`, ...by('readings', n % 2 === 0) }),
  (n) => ({ interrupted: true, ...by('readings', n % 2 === 0) }),
  (n) => ({ ...by('heat', n % 2 === 0) }),
  // Two in three have none of it, and come last.
  (n) => ({ ...by('yield', n % 2 === 0) }),
  (n) => ({ broke: 'base-metal', text: `operator ${String(n % 12)}`, ...by('elongation', n % 2 === 0) }),
  // The pulls in no set come last, whichever way, and only they have it.
  (n) => ({ broke: 'base-metal', text: `operator ${String(n % 12)}`, ...by('welder', n % 2 === 0) }),
  (n) => ({ questionable: false, text: `welder ${String(n % 25)} cup`, ...by('strength', n % 2 === 0) }),
];
const dayText = (n: number): string => new Date(BEGUN_MS + n * 86_400_000).toISOString().slice(0, 10);

const rowsMs = isThere
  ? 0
  : milliseconds(() => {
      makeRows(archive, PULLS, READINGS);
    });
const anewMs = isThere
  ? 0
  : milliseconds(() => {
      makeAnew(connection);
    });
if (!isThere) {
  judge();
  state();
}

let chance = 1;
const random = (below: number): number => {
  chance = (Math.imul(chance, 1_664_525) + 1_013_904_223) >>> 0;
  return chance % below;
};
const search = ({ by: order = NEWEST_FIRST, ...query }: Asked): number =>
  searchPulls(connection, { query, order, limit: HITS }).items.length;

interface Times {
  readonly fetches: number[];
  readonly searches: number[];
  readonly byKind: readonly number[][];
}

function measured(asked: number): Times {
  const times: Times = { fetches: [], searches: [], byKind: QUERIES.map(() => []) };
  for (const query of QUERIES) search(query(7));
  for (let i = 0; i < asked; i++) {
    const pullId = 1 + random(PULLS);
    times.fetches.push(milliseconds(() => linesOf(connection, [pullId])));
    const kind = i % QUERIES.length;
    const query = QUERIES[kind]?.(random(PULLS)) ?? {};
    const ms = milliseconds(() => search(query));
    times.searches.push(ms);
    times.byKind[kind]?.push(ms);
  }
  return times;
}

function collectGarbage(): void {
  setFlagsFromString('--expose-gc');
  runInNewContext('gc()');
}

// As the first program ever; then as it goes on, and as the next one, which finds what this one has saved.
forgetHeld(connection);
connection.exec('DELETE FROM search_saved');
const cold = measured(ASKED / 4);
collectGarbage();
const heldBefore = process.memoryUsage();
let longestStepMs = 0;
const holdMs = milliseconds(() => {
  let isMore = true;
  while (isMore) {
    const stepMs = milliseconds(() => {
      isMore = goOnHolding(connection, 0);
    });
    longestStepMs = Math.max(longestStepMs, stepMs);
  }
});
collectGarbage();
const heldAfter = process.memoryUsage();
const heldMiB =
  (heldAfter.heapUsed + heldAfter.arrayBuffers - heldBefore.heapUsed - heldBefore.arrayBuffers) / 1_048_576;
const { fetches, searches, byKind } = measured(ASKED);
const savedMiB =
  Number(connection.prepare('SELECT sum(length(body)) FROM search_saved').pluck().get()) / 1_048_576;
// A few pulls of which something is said before the next start.
for (let i = 0; i < 100; i++)
  connection.exec(`UPDATE search_entry SET verdict = verdict WHERE pull_id = ${String(1 + random(PULLS))}`);
forgetHeld(connection);
let longestTakingMs = 0;
const takingMs = milliseconds(() => {
  for (let isMore = true; isMore;) {
    const stepMs = milliseconds(() => {
      isMore = goOnTakingOver(connection, 0);
    });
    longestTakingMs = Math.max(longestTakingMs, stepMs);
  }
});
const next = measured(ASKED / 2);

const us = (ms: number): string => `${short(ms * 1000)} µs`;
const ratio = shareOf(searches, 0.5) / shareOf(fetches, 0.5);
const p99 = shareOf(searches, 0.99);
const rows: Row[] = [
  {
    what: `first ${String(HITS)} hits, middle of all searches`,
    floor: `${us(shareOf(fetches, 0.5))} (one line by its number)`,
    measured: us(shareOf(searches, 0.5)),
    ratio: `${short(ratio)} ×`,
    goal: goalText(`≤ ${String(TIMES_A_FETCH)} ×`, ratio <= TIMES_A_FETCH),
    spread: `${String(ASKED)} searches of ${String(QUERIES.length)} kinds`,
  },
  {
    what: `first ${String(HITS)} hits, 99 of 100 searches`,
    floor: `${us(shareOf(fetches, 0.99))} (one line by its number)`,
    measured: us(p99),
    ratio: `${short(p99 / shareOf(fetches, 0.99))} ×`,
    goal: goalText(`≤ ${String(P99_MS)} ms`, p99 <= P99_MS),
    spread: '',
  },
];
const slowest = byKind
  .map((times, kind) => ({ kind, p99: shareOf(times, 0.99) }))
  .toSorted((a, b) => b.p99 - a.p99)
  .slice(0, 3)
  .map(({ kind, p99 }) => `${JSON.stringify(QUERIES[kind]?.(7))} ${us(p99)}`);
const kinds = QUERIES.map((query, kind) => {
  const [its, atFirst] = [byKind[kind] ?? [], cold.byKind[kind] ?? []];
  return `${JSON.stringify(query(7))}: p50 ${us(shareOf(its, 0.5))}, p99 ${us(shareOf(its, 0.99))}; at first ${us(shareOf(atFirst, 0.5))}, ${us(shareOf(atFirst, 0.99))}`;
});
const allMs = milliseconds(() =>
  foundPullIds(connection, { query: { text: 'welded' }, order: NEWEST_FIRST }),
);
const hitsMs = milliseconds(() =>
  connection.prepare('SELECT count(*) FROM search_text WHERE search_text MATCH ?').get('welded'),
);
/** Any pull looked up, and its whole curve read. */
const openedMs = Array.from({ length: OPENED }, () => {
  const pullId = 1 + random(PULLS);
  return milliseconds(() => {
    archive.getPull(pullId);
    for (const { readings } of readingBlocks(connection, pullId))
      if (readings.length === 0) throw new Error('empty');
  });
});
const readingCount = Number(connection.prepare('SELECT sum(reading_count) FROM search_entry').pluck().get());
const fileBytes = statSync(archive.path).size;

printTable(`Search over ${String(PULLS)} pulls`, rows, [
  `slowest kinds, 99 of 100: ${slowest.join('; ')}`,
  `of the next program, after it has taken over what was saved (${short(savedMiB)} MiB, in ${short(takingMs)} ms, longest step ${short(longestTakingMs)} ms): middle ${us(shareOf(next.searches, 0.5))}, 99 of 100 ${us(shareOf(next.searches, 0.99))}`,
  `before anything was ever held or saved: middle ${us(shareOf(cold.searches, 0.5))}, 99 of 100 ${us(shareOf(cold.searches, 0.99))}`,
  `held in memory: ${short(heldMiB)} MiB, read in ${short(holdMs / 1000)} s in steps of at most ${short(longestStepMs)} ms`,
  `a common word in the text index, to count who has it: ${short(hitsMs)} ms`,
  `numbers of all ${String(PULLS)} pulls of a common word, for the table of the window: ${short(allMs)} ms`,
  ...(isThere
    ? []
    : [
        `the whole index made anew: ${short(anewMs / 1000)} s (the rows themselves ${short(rowsMs / 1000)} s)`,
      ]),
  `any pull looked up and its curve read, ${short(readingCount / PULLS)} readings: middle ${short(shareOf(openedMs, 0.5))} ms, 99 of 100 ${short(shareOf(openedMs, 0.99))} ms`,
  `the file, rows and index: ${short(fileBytes / 1_048_576)} MiB, ${short(fileBytes / readingCount)} bytes a reading of ${short(readingCount)}`,
  ...(TELLS_KINDS ? kinds : []),
]);
archive.close();
