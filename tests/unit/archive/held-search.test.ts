/** The search in memory against plain SQL over the rows, through histories that nobody has thought of. */
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import type { Archive } from '../../../core/archive/archive.ts';
import { keepFirstStated } from '../../../core/archive/keep-first-stated.ts';
import { joinSet } from '../../../core/archive/member-store.ts';
import { sortedAsBytes } from '../../../core/archive/search/found-order.ts';
import {
  forgetHeld,
  goOnHolding,
  goOnTakingOver,
  heldPage,
} from '../../../core/archive/search/held-search.ts';
import { CommonWords } from '../../../core/archive/search/held-words.ts';
import { auditHead, keepVerdicts } from '../../../core/archive/search/keep-entries.ts';
import { makeAnew } from '../../../core/archive/search/make-index.ts';
import { foundPullIds, searchPulls } from '../../../core/archive/search/search.ts';
import { SortedPulls } from '../../../core/archive/search/sorted-pulls.ts';
import { saveSet } from '../../../core/archive/set-store.ts';
import { voidPull } from '../../../core/archive/void-store.ts';
import { conditionOf } from '../../../core/archive/search/condition.ts';
import {
  SEARCH_COLUMNS,
  type SearchOrder,
  type SearchQuery,
} from '../../../core/contract/search-requests.ts';
import { END, SPECIMEN, WALL_MS, batch, newPull, openArchive, scratchFolder } from './made-archive.ts';

const DAY_MS = 86_400_000;
const KEEPING = { wallMs: WALL_MS, programVersion: '9.9.9', packs: builtInPacks() };
/** So that a small archive has words that are common, words that are not, and not room for all of them. */
const LIMITS = {
  pullsMax: 10_000,
  words: { pullsMin: 3, bytesMax: 160 },
  changedAtOnceMax: 2,
  saved: { pullsMin: 3, changedMin: 2, changedMax: 6, wordBytesMax: 100, bytesAtOnce: 400 },
};
const NAMES = ['T-1', 'T-12', 'Ärger 7', '\u{1f600}', '\uffee', 'B'];
const NOTES = ['undercut', 'as welded', 'porosity, undercut', ''];
const PEOPLE = ['Okafor', 'Muñoz', null];
const pick = <T>(from: readonly T[], n: number): T => from[n % from.length] as T;

/** Null where a pull has nothing there. */
const COLUMN_OF: Readonly<Record<(typeof SEARCH_COLUMNS)[number], string | null>> = {
  kept: null,
  started: 'started_wall_ms',
  specimen: 'specimen_name',
  set: 'set_name',
  operator: 'operator',
  peak: 'peak_force_n',
  strength: 'strength_mpa',
  yield: 'yield_mpa',
  elongation: 'elongation_percent',
  verdict: `nullif(instr('accept    reject    undecided', coalesce(verdict, '-')) + coalesce(questionable, 0), 0)`,
  broke: `nullif(instr('weld-metal base-metal', coalesce(place, 'nowhere')), 0)`,
  questionable: 'coalesce(questionable, 0)',
  readings: 'reading_count',
  rules: 'rule_pack_name',
  // Sorted by as many signs of it.
  'base-metal': 'substr(shown_base_metal, 1, 300)',
  filler: 'shown_filler',
  heat: 'heat',
  'filler-lot': 'filler_lot',
  welder: 'welder',
};
const PACKS = ['asme-ix', 'shop-practice'];
const WELDERS = ['Muñoz', 'B', '\u{1f600}', '\uffee', undefined];
/** Of a set: the same in several sets, nothing, and texts that differ behind what is sorted by. */
const formOf = (n: number, pack: string) => ({
  name: `Coupon ${String(1 + (n % 3))}`,
  purpose: 'procedure-qualification' as const,
  rulePackId: pack,
  baseMetals: Array.from({ length: n % 4 }, (_, i) => ({
    designation: `${'SA-36 '.repeat(40)}${String((n + i) % 3)}`,
    minimum: '58 ksi',
    ...(n % 5 === 0 ? {} : { heat: `H${String((n * 3 + i) % 4)}` }),
  })),
  specimenType: 'transverse-flat' as const,
  ...(n % 3 === 0
    ? {}
    : {
        filler: {
          classification: pick(['E7018', 'ER70S-6'], n),
          ...(n % 2 === 0 ? {} : { lot: `L${String(n % 3)}` }),
        },
      }),
  ...(pick(WELDERS, n) === undefined ? {} : { welder: pick(WELDERS, n) }),
});

/** What one statement does, chosen by numbers. */
function say(
  archive: Archive,
  sets: readonly number[],
  [what, a, b]: readonly [number, number, number],
): void {
  const pulls = archive
    .sets((c) => c.prepare('SELECT pull_id FROM pull ORDER BY pull_id').pluck().all())
    .map(Number);
  const pullId = pulls.length === 0 ? null : pick(pulls, a);
  if (what < 3 || pullId === null) {
    const geometry =
      b % 2 === 0 ? SPECIMEN.geometry : { kind: 'round' as const, diameter: `${String(10 + (b % 4))} mm` };
    const specimenId = archive.saveSpecimen({
      specimen: { ...SPECIMEN, id: pick(NAMES, a), notes: pick(NOTES, b), geometry },
    });
    const id = archive.beginPull(
      newPull(specimenId, { operator: pick(PEOPLE, a + b), startedWallMs: WALL_MS + (a % 5) * DAY_MS }),
    );
    const silence = {
      cause: 'silence' as const,
      beforeSeq: 0,
      fromUs: 0,
      toUs: 9,
      words: 'no reading for 2 s',
    };
    const gaps = b % 3 === 1 ? [silence] : [];
    if (a % 7 > 0) archive.closePull(batch(id, { gaps }), { ...END, peakForceN: 20_000 + (b % 6) * 4_000 });
    else archive.closePull(batch(id), { ...END, peakForceN: null });
  } else if (what === 3)
    archive.noteFracture({
      pullId,
      note: { place: b % 2 === 0 ? 'weld-metal' : 'base-metal', remarks: pick(NOTES, b) },
    });
  else if (what === 4)
    archive.saveSpecimen({
      specimen: { ...archive.newestSpecimenOfPull(pullId).specimen, id: pick(NAMES, b) },
      supersedes: archive.newestSpecimenOfPull(pullId).specimenId,
      reason: 'mixed up',
    });
  else if (what === 5)
    archive.sets((c) => voidPull(c, { pullId, reason: 'slipped', utcOffsetMinutes: 0 }, WALL_MS));
  else if (what === 8)
    archive.sets((c) =>
      saveSet(c, { setId: pick(sets, b), form: formOf(a, pick(PACKS, b)), reason: 'read wrongly' }, KEEPING),
    );
  else if (what === 10)
    archive.sets((c) =>
      keepFirstStated(
        c,
        {
          pullId,
          specimenId: archive.newestSpecimenOfPull(pullId).specimenId,
          values: [
            { symbol: pick(['Rp0.2', 'ReL', 'Rm'], a), value: 200 + (b % 4) * 20, unit: 'MPa' },
            ...(b % 3 === 0 ? [] : [{ symbol: 'A', value: 10 + (a % 3), unit: '%' } as const]),
          ],
          methodVersion: '3',
        },
        KEEPING,
      ),
    );
  else if (what === 6 || what === 9)
    archive.sets((c) =>
      joinSet(c, { setId: pick(sets, b), specimenId: archive.getPull(pullId).specimenId }, WALL_MS),
    );
  else
    archive.sets((c) => {
      const judged = {
        pullId,
        outcome: pick(['accept', 'reject', 'undecided'] as const, b),
        questionable: b % 2 === 0,
      };
      keepVerdicts(c, pick(sets, b), [judged], auditHead(c));
    });
}

/** What is refused (a second void, a second joining) is no part of what is looked at. */
function sayIfAllowed(...args: Parameters<typeof say>): void {
  try {
    say(...args);
  } catch (error) {
    const isRefused = error instanceof Error && error.name === 'ArchiveRefusal';
    const isThereAlready =
      error instanceof Error && 'code' in error && error.code === 'SQLITE_CONSTRAINT_UNIQUE';
    if (!isRefused && !isThereAlready) throw error;
  }
}

/** Read out of the entries by what a query says, without the index of the text. */
function plainly(archive: Archive, query: SearchQuery, { by, descending }: SearchOrder): number[] {
  const column = COLUMN_OF[by];
  const way = descending ? 'DESC' : 'ASC';
  const words = (query.text ?? '')
    .toLowerCase()
    .replace('ñ', 'n')
    .split(' ')
    .filter((word) => word !== '');
  const texts = ['words', 'set_names', 'rules', 'base_metal', 'filler'];
  const where = [
    ...words.map(
      (w) => `(${texts.map((t) => `instr(${t}, ' ${w}${w.length === 1 ? ' ' : ''}') > 0`).join(' OR ')})`,
    ),
    ...(query.broke === undefined ? [] : [`place = '${query.broke}'`]),
    ...(query.geometry === undefined ? [] : [`geometry = '${query.geometry}'`]),
    ...(query.voided === undefined ? [] : [`(void_reason IS NOT NULL) = ${String(Number(query.voided))}`]),
    ...(query.questionable === undefined
      ? []
      : [`(questionable IS 1) = ${String(Number(query.questionable))}`]),
    ...(query.interrupted === undefined ? [] : [`interrupted = ${String(Number(query.interrupted))}`]),
    ...(query.verdict === undefined ? [] : [`coalesce(verdict, 'not-judged') = '${query.verdict}'`]),
    ...(query.fromDay === undefined
      ? []
      : [`date(started_wall_ms / 1000 + 7200, 'unixepoch') >= '${query.fromDay}'`]),
    ...(query.toDay === undefined
      ? []
      : [`date(started_wall_ms / 1000 + 7200, 'unixepoch') <= '${query.toDay}'`]),
    ...(query.strengthMinMpa === undefined ? [] : [`strength_mpa >= ${String(query.strengthMinMpa)}`]),
    ...(query.strengthMaxMpa === undefined ? [] : [`strength_mpa <= ${String(query.strengthMaxMpa)}`]),
    ...(typeof query.set === 'number'
      ? [
          `pull_id IN (SELECT p.pull_id FROM pull p JOIN specimen s USING (specimen_id) JOIN set_member m ON m.set_id = ${String(query.set)}
          AND m.specimen_id IN (WITH RECURSIVE up (id) AS (SELECT p.specimen_id UNION SELECT x.supersedes FROM up JOIN specimen x ON x.specimen_id = up.id
          WHERE x.supersedes IS NOT NULL), all_of (id) AS (SELECT id FROM up UNION SELECT x.specimen_id FROM all_of JOIN specimen x ON x.supersedes = all_of.id)
          SELECT id FROM all_of))`,
        ]
      : []),
  ];
  return archive.connection
    .prepare(
      `SELECT pull_id FROM search_entry ${where.length === 0 ? '' : `WHERE ${where.join(' AND ')}`}
       ORDER BY ${column === null ? '' : `${column} IS NULL, ${column} ${way}, `}pull_id ${way}`,
    )
    .pluck()
    .all()
    .map(Number);
}

function pages(archive: Archive, query: SearchQuery, order: SearchOrder): number[] {
  const ids: number[] = [];
  let after: string | undefined;
  do {
    const page = archive.sets((c) => searchPulls(c, { query, order, limit: 4, after }));
    ids.push(...page.items.map((one) => one.pullId));
    after = page.next ?? undefined;
  } while (after !== undefined);
  return ids;
}

/** A few conditions at a time: of many together next to nothing is found. */
const query = (sets: readonly number[]): fc.Arbitrary<SearchQuery> => {
  const every = fc.record({
    text: fc.constantFrom(
      ...['T-1', 't-', 'undercut', 'okafor undercut', 'muñoz', 'coupon', 'porosity welded', 'b', 'never'],
    ),
    broke: fc.constantFrom('weld-metal', 'base-metal'),
    geometry: fc.constantFrom('flat', 'round'),
    verdict: fc.constantFrom('accept', 'undecided', 'not-judged'),
    voided: fc.boolean(),
    questionable: fc.boolean(),
    interrupted: fc.boolean(),
    set: fc.constantFrom(...sets),
    fromDay: fc.constantFrom('2026-03-05', '2026-03-06'),
    toDay: fc.constant('2026-03-07'),
    strengthMinMpa: fc.integer({ min: 100, max: 250 }),
    strengthMaxMpa: fc.integer({ min: 250, max: 400 }),
  });
  return every.chain((all) =>
    fc
      .subarray(Object.keys(all), { maxLength: 3 })
      .map((keys) => Object.fromEntries(Object.entries(all).filter(([key]) => keys.includes(key)))),
  );
};

test('after any history every search finds what plain SQL finds, held in memory, partly held, or not', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.nat(10), fc.nat(40), fc.nat(40)), { minLength: 10, maxLength: 40 }),
      fc.nat(20),
      fc.integer({ min: 2, max: 15 }),
      fc.array(fc.tuple(query([1, 2, 3]), fc.constantFrom(...SEARCH_COLUMNS), fc.boolean()), {
        minLength: 12,
        maxLength: 12,
      }),
      (history, heldFrom, startedEvery, asked) => {
        const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
        const sets = [1, 2, 3].map((n) =>
          archive.sets((c) => saveSet(c, { form: formOf(n + heldFrom, pick(PACKS, n)) }, KEEPING)),
        );
        history.forEach((statement, i) => {
          sayIfAllowed(archive, sets, statement);
          if (i >= heldFrom) for (let n = i % 4; n >= 0; n--) goOnHolding(archive.connection, 0, LIMITS);
          // Another program goes on with what was saved, wherever this one was.
          if (i % startedEvery === 0) {
            forgetHeld(archive.connection);
            while (i % 2 === 0 && goOnTakingOver(archive.connection, 0, LIMITS));
          }
          const one = asked[i % asked.length];
          if (one === undefined || i % 3 > 0) return;
          const order = { by: one[1], descending: one[2] };
          expect(pages(archive, one[0], order)).toEqual(plainly(archive, one[0], order));
        });
        // A statement that is undone.
        const undone = archive.connection.transaction(() => {
          sayIfAllowed(archive, sets, [4, 1, 2]);
          sayIfAllowed(archive, sets, [0, 3, 2]);
          expect(pages(archive, {}, { by: 'specimen', descending: false })).toEqual(
            plainly(archive, {}, { by: 'specimen', descending: false }),
          );
          throw new Error('power went');
        });
        expect(() => undone()).toThrow('power went');
        while (goOnHolding(archive.connection, 0, LIMITS));
        expect(archive.check({}).lines.find((line) => line.name === 'search')).toMatchObject({ ok: true });
        for (const [one, by, descending] of asked) {
          const order = { by, descending };
          const expected = plainly(archive, one, order);
          const whole = {
            condition: conditionOf(one),
            column: null,
            descending: true,
            after: null,
            limit: 1_000,
          };
          expect(heldPage(archive.connection, whole), 'it is held').toEqual(
            plainly(archive, one, { by: 'kept', descending: true }),
          );
          expect(pages(archive, one, order)).toEqual(expected);
          expect([...foundPullIds(archive.connection, { query: one, order })]).toEqual(expected);
        }
        forgetHeld(archive.connection);
        for (const [one, by, descending] of asked)
          expect(pages(archive, one, { by, descending })).toEqual(plainly(archive, one, { by, descending }));
        archive.close();
      },
    ),
    { numRuns: 15, endOnFailure: true },
  );
});

test('what was held is there again in the next program, with what was said meanwhile, and else it is gathered anew', () => {
  const path = join(scratchFolder(), 'a.gaugemark');
  const archive = openArchive(path);
  const { connection } = archive;
  for (let i = 0; i < 12; i++) say(archive, [], [0, i + 1, i]);
  const saved = connection.prepare('SELECT count(*) FROM search_saved').pluck();
  const changed = connection.prepare('SELECT count(*) FROM search_changed').pluck();
  const search = (from: Archive) => from.check({}).lines.find((line) => line.name === 'search');
  const order = { by: 'specimen', descending: false } as const;
  const asked = {
    condition: conditionOf({ text: 'undercut' }),
    column: 'specimen',
    descending: false,
    after: null,
    limit: 50,
  } as const;
  goOnHolding(connection, 0, LIMITS);
  expect(saved.get(), 'before it is whole').toBe(0);
  while (goOnHolding(connection, 0, LIMITS));
  const pieces = Number(saved.get());
  expect(pieces).toBeGreaterThan(20);
  expect(changed.get()).toBe(0);
  archive.noteFracture({ pullId: 3, note: { place: 'base-metal', remarks: 'undercut' } });
  expect(changed.get()).toBe(1);
  expect(goOnHolding(connection, 0, LIMITS), 'so little is not saved again').toBe(false);
  expect(saved.get()).toBe(pieces);
  expect(search(archive)).toMatchObject({ ok: true });
  archive.close();

  const next = openArchive(path);
  say(next, [], [0, 5, 0]);
  expect(heldPage(next.connection, asked)).toBeNull();
  while (goOnTakingOver(next.connection, 0, LIMITS));
  const expected = plainly(next, { text: 'undercut' }, order);
  expect(expected).toContain(3);
  expect(expected).toContain(13);
  expect(heldPage(next.connection, asked)).toEqual(expected);
  // Now enough has changed.
  while (goOnHolding(next.connection, 0, LIMITS));
  expect(next.connection.prepare('SELECT count(*) FROM search_changed').pluck().get()).toBe(0);
  expect(search(next)).toMatchObject({ ok: true });

  // More than is worth reading again; then a piece that is none; then one that is missing.
  for (const spoil of [
    () => {
      for (let i = 0; i < 7; i++) say(next, [], [0, i, i]);
    },
    () => next.connection.exec("UPDATE search_saved SET body = x'010203' WHERE name = 'peak'"),
    () => next.connection.exec("DELETE FROM search_saved WHERE name = 'whole'"),
  ]) {
    forgetHeld(next.connection);
    spoil();
    while (goOnTakingOver(next.connection, 0, LIMITS));
    expect(heldPage(next.connection, asked)).toBeNull();
    while (goOnHolding(next.connection, 0, LIMITS));
    expect(heldPage(next.connection, asked)).toEqual(plainly(next, { text: 'undercut' }, order));
  }
});

test('the check finds what was saved and is not what the entries say', () => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  const { connection } = archive;
  for (let i = 0; i < 12; i++) say(archive, [], [0, i + 1, i]);
  while (goOnHolding(connection, 0, LIMITS));
  const words = () => archive.check({}).lines.find((line) => line.name === 'search')?.words;
  const isTold = (sql: string): void => {
    connection.exec(`SAVEPOINT before; ${sql}`);
    expect(words(), sql).toContain('saved of it');
    connection.exec('ROLLBACK TO before; RELEASE before');
    expect(words()).not.toContain('saved of it');
  };
  const first = "(SELECT name FROM search_saved WHERE name LIKE 'word %' LIMIT 1)";
  isTold(
    "UPDATE search_saved SET body = (SELECT body FROM search_saved WHERE name = 'peak') WHERE name = 'readings'",
  );
  isTold(
    "UPDATE search_saved SET body = (SELECT body FROM search_saved WHERE name = 'order peak') WHERE name = 'order started'",
  );
  isTold(`UPDATE search_saved SET body = x'00000000' WHERE name = ${first}`);
});

test('what can not be held is asked of the database: too many pulls, many that changed at once, an index made anew', () => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  const { connection } = archive;
  for (let i = 0; i < 9; i++) say(archive, [], [0, i + 1, i]);
  const asked = {
    condition: conditionOf({}),
    column: 'specimen',
    descending: false,
    after: null,
    limit: 50,
  } as const;
  const ofDatabase = plainly(archive, {}, { by: 'specimen', descending: false });
  while (goOnHolding(connection, 0, LIMITS));
  expect(heldPage(connection, asked)).toEqual(ofDatabase);
  for (let i = 0; i < 5; i++) archive.noteFracture({ pullId: i + 1, note: { place: 'base-metal' } });
  expect(heldPage(connection, asked)).toBeNull();
  while (goOnHolding(connection, 0, LIMITS));
  expect(heldPage(connection, asked)).toEqual(ofDatabase);
  makeAnew(connection);
  expect(heldPage(connection, asked)).toBeNull();
  while (goOnHolding(connection, 0, { ...LIMITS, pullsMax: 8 }));
  expect(heldPage(connection, asked)).toBeNull();
  expect(pages(archive, {}, { by: 'specimen', descending: false })).toEqual(ofDatabase);
});

test('common words are those that enough pulls have, and whatever they begin with', () => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  for (let i = 0; i < 12; i++) say(archive, [], [0, 1, i]);
  const common = new CommonWords(archive.connection, 6);
  while (common.goOn());
  const found = common.found.map(({ words, isBeginning }) => `${words.join(' ')}${isBeginning ? '*' : ''}`);
  // Half of them have "undercut" in their notes, a quarter "welded"; "t-12" is also written as its parts.
  expect(found).toEqual(expect.arrayContaining(['un*', 'undercut*', 't-12*', '12*', 't']));
  expect(found.some((one) => one.startsWith('we'))).toBe(false);
});

test('texts are put in the order in which the database puts them', () => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  const unit = fc.constantFrom(
    'a',
    'B',
    'é',
    '\ud7ff',
    '\ue000',
    '\uffee',
    '\u{1f600}',
    '\u{10ffff}',
    '\u{10000}',
  );
  const before = archive.connection.prepare('SELECT ? < ?').pluck();
  fc.assert(
    fc.property(fc.string({ unit, maxLength: 4 }), fc.string({ unit, maxLength: 4 }), (a, b) => {
      expect(sortedAsBytes(a) < sortedAsBytes(b)).toBe(before.get(a, b) === 1);
    }),
  );
});

test('sorted pulls stay sorted whatever comes, changes and goes', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.nat(40), fc.nat(5)), { maxLength: 120 }),
      fc.uniqueArray(fc.integer({ min: 41, max: 90 })),
      (steps, many) => {
        const values = new Map<number, number>();
        const compare = (a: number, b: number): number =>
          (values.get(a) ?? 0) - (values.get(b) ?? 0) || a - b;
        const sorted = new SortedPulls(compare);
        const half = Math.floor(steps.length / 2);
        steps.forEach(([id, value], i) => {
          if (i === half) {
            for (const one of many) values.set(one, one % 4);
            sorted.addAll(many);
          }
          if (values.has(id)) sorted.remove(id);
          values.delete(id);
          if (value === 5) return;
          values.set(id, value);
          sorted.add(id);
        });
        expect([...sorted.ids]).toEqual([...values.keys()].sort(compare));
      },
    ),
  );
});
