/** Finding pulls again: over everything written, by filters, page by page, and always what the rows say. */
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import type { Archive } from '../../../core/archive/archive.ts';
import { issueCertificate } from '../../../core/archive/certificate-store.ts';
import { joinSet } from '../../../core/archive/member-store.ts';
import { auditHead, keepVerdicts } from '../../../core/archive/search/keep-entries.ts';
import { foundPullIds, searchPulls } from '../../../core/archive/search/search.ts';
import { saveSet } from '../../../core/archive/set-store.ts';
import { voidPull } from '../../../core/archive/void-store.ts';
import {
  NEWEST_FIRST,
  SEARCH_COLUMNS,
  type SearchOrder,
  type SearchQuery,
  searchQuery,
} from '../../../core/contract/search-requests.ts';
import { SPECIMEN, WALL_MS, batch, newPull, openArchive, scratchFolder, END } from './made-archive.ts';

const KEEPING = { wallMs: WALL_MS, programVersion: '9.9.9', packs: builtInPacks() };
const DAY_MS = 86_400_000;

const begun = (): Archive => openArchive(join(scratchFolder(), 'a.gaugemark'));

interface Made {
  readonly name?: string;
  readonly notes?: string;
  readonly operator?: string;
  readonly peakForceN?: number;
  readonly day?: number;
}

function made(
  archive: Archive,
  { name = 'T-1', notes, operator, peakForceN = 60_000, day = 0 }: Made = {},
): number {
  const specimenId = archive.saveSpecimen({
    specimen: { ...SPECIMEN, id: name, ...(notes === undefined ? {} : { notes }) },
  });
  const startedWallMs = WALL_MS + day * DAY_MS;
  const pullId = archive.beginPull(newPull(specimenId, { startedWallMs, operator: operator ?? null }));
  archive.closePull(batch(pullId), { ...END, peakForceN });
  return pullId;
}

function madeSet(archive: Archive, pullIds: readonly number[]): number {
  return archive.sets((connection) => {
    const setId = saveSet(
      connection,
      {
        form: {
          name: 'Coupon 7, 3G',
          purpose: 'procedure-qualification',
          rulePackId: 'asme-ix',
          baseMetals: [{ designation: 'SA-36', minimum: '58 ksi', heat: 'H4471/2', lot: 'B9' }],
          filler: { classification: 'E7018', lot: 'FL-20' },
          specimenType: 'transverse-flat',
          welder: 'Muñoz',
          documents: [{ kind: 'pqr', number: 'PQR-102/3' }],
          notes: 'preheat was late',
        },
      },
      KEEPING,
    );
    for (const pullId of pullIds)
      joinSet(connection, { setId, specimenId: archive.getPull(pullId).specimenId }, WALL_MS);
    return setId;
  });
}

const found = (archive: Archive, query: SearchQuery, order: SearchOrder = NEWEST_FIRST): number[] =>
  archive.sets((connection) => [...foundPullIds(connection, { query, order })]);

describe('one text over everything written', () => {
  const written = [
    ['the name of a specimen, as written', 'PQR-12-a'],
    ['a part of the name', '12'],
    ['its notes', 'undercut'],
    ['the operator', 'Okafor'],
    ['the set', 'coupon'],
    ['a heat with a stroke', 'H4471/2'],
    ['the lot of the filler', 'fl-20'],
    ['the welder, without the sign on the letter', 'munoz'],
    ['the number of a document', 'pqr-102'],
    ['notes of the set', 'preheat'],
    ['words of the fracture', 'cup'],
    ['the beginning of a word', 'underc'],
    ['words of different fields together', 'okafor muñoz sa-36'],
  ] as const;
  test.each(written)('%s finds the pull: %s', (_what, text) => {
    const archive = begun();
    made(archive, { name: 'other' });
    const pullId = made(archive, { name: 'PQR-12-a', notes: 'Undercut left in', operator: 'Okafor' });
    archive.noteFracture({ pullId, note: { place: 'weld-metal', appearance: 'cup and cone' } });
    madeSet(archive, [pullId]);
    expect(found(archive, { text })).toEqual([pullId]);
  });

  test('what is superseded is found too, and a correction at once', () => {
    const archive = begun();
    const pullId = made(archive, { name: 'T-7' });
    archive.saveSpecimen({
      specimen: { ...SPECIMEN, id: 'T-17' },
      supersedes: archive.getPull(pullId).specimenId,
      reason: 'mixed up at the saw',
    });
    expect(found(archive, { text: 'T-17' })).toEqual([pullId]);
    expect(found(archive, { text: 'T-7' })).toEqual([pullId]);
    expect(found(archive, { text: 'saw' })).toEqual([pullId]);
  });

  test('no sign in what was typed has a meaning, and nothing typed is an error', () => {
    const archive = begun();
    const pullId = made(archive, { name: 'AND OR NOT "x"' });
    expect(found(archive, { text: 'not OR "x' })).toEqual([pullId]);
    expect(found(archive, { text: 'not\u0000or' })).toEqual([pullId]);
    fc.assert(
      fc.property(fc.string({ maxLength: 60, unit: 'binary' }), (text) => {
        expect(() => found(archive, { text, rules: text === '' ? 'a' : text })).not.toThrow();
      }),
    );
  });
});

describe('filters', () => {
  test('each finds what it says and nothing else', () => {
    const archive = begun();
    const [first, second] = [made(archive, { name: 'A' }), made(archive, { name: 'B', day: 40 })];
    const setId = madeSet(archive, [second]);
    archive.noteFracture({ pullId: second, note: { place: 'base-metal' } });
    archive.sets((connection) => {
      voidPull(connection, { pullId: first, reason: 'slipped', utcOffsetMinutes: 0 }, WALL_MS);
    });
    const only = (query: SearchQuery): number[] => found(archive, query);
    expect(only({ set: setId })).toEqual([second]);
    expect(only({ set: 'coupon 7' })).toEqual([second]);
    expect(only({ rules: 'asme-ix' })).toEqual([second]);
    expect(only({ baseMetal: 'SA-36' })).toEqual([second]);
    expect(only({ filler: 'e7018' })).toEqual([second]);
    expect(only({ broke: 'base-metal' })).toEqual([second]);
    expect(only({ broke: 'in-grips' })).toEqual([]);
    expect(only({ voided: true })).toEqual([first]);
    expect(only({ voided: false })).toEqual([second]);
    expect(only({ geometry: 'flat' })).toEqual([second, first]);
    expect(only({ geometry: 'round' })).toEqual([]);
    expect(only({ fromDay: '2026-03-05' })).toEqual([second]);
    expect(only({ toDay: '2026-03-04' })).toEqual([first]);
    expect(only({ baseMetal: '///' })).toEqual([]);
  });

  test('interrupted are those that were not heard between trigger and break, and no others', () => {
    const archive = begun();
    const specimenId = archive.saveSpecimen({ specimen: SPECIMEN });
    const heard = (
      gapsBefore: readonly number[],
      marks: readonly ['trigger' | 'break', number][],
    ): number => {
      const pullId = archive.beginPull(newPull(specimenId));
      const its = batch(pullId, {
        marks: marks.map(([kind, seq]) => ({
          kind,
          seq,
          elapsedUs: seq * 1000,
          cause: 'rule' as const,
          words: 'as made',
        })),
        gaps: gapsBefore.map((beforeSeq) => ({
          cause: 'silence' as const,
          beforeSeq,
          fromUs: beforeSeq * 1000,
          toUs: beforeSeq * 1000 + 500,
          words: 'no reading for 2 s',
        })),
      });
      archive.closePull(its, END);
      return pullId;
    };
    const marks: readonly ['trigger' | 'break', number][] = [
      ['trigger', 10],
      ['break', 20],
    ];
    const inside = heard([15], marks);
    const around = heard([5, 25], marks);
    const none = heard([], marks);
    const beforeTheEnd = heard([25], [['trigger', 10]]);
    const edges = [heard([10], marks), heard([20], marks)];
    const both = heard([5, 15], marks);
    expect(found(archive, { interrupted: true })).toEqual([inside, beforeTheEnd, ...edges, both].reverse());
    expect(found(archive, { interrupted: false })).toEqual([none, around]);
    expect(archive.sets((c) => searchPulls(c, { query: {}, order: NEWEST_FIRST, limit: 50 })).items).toEqual(
      expect.arrayContaining([
        expect.objectContaining({ pullId: inside, interrupted: true }),
        expect.objectContaining({ pullId: around, interrupted: false }),
      ]),
    );
    expect(archive.check({}).lines.find((line) => line.name === 'search')).toMatchObject({ ok: true });
  });

  test('section, place of fracture and rules together find what each of them finds', () => {
    const archive = begun();
    const round = { kind: 'round', diameter: '12.7 mm' } as const;
    const pulls = Array.from({ length: 12 }, (_, i) => {
      const specimen = { ...SPECIMEN, id: `S${String(i)}`, ...(i % 2 === 0 ? { geometry: round } : {}) };
      const pullId = archive.beginPull(newPull(archive.saveSpecimen({ specimen })));
      archive.closePull(batch(pullId), END);
      if (i % 3 > 0)
        archive.noteFracture({ pullId, note: { place: i % 3 === 1 ? 'weld-metal' : 'base-metal' } });
      return pullId;
    });
    madeSet(
      archive,
      pulls.filter((_, i) => i % 4 > 1),
    );
    const filters: SearchQuery[] = [{ geometry: 'round' }, { broke: 'base-metal' }, { rules: 'asme' }];
    for (const chosen of [
      [0, 1],
      [0, 2],
      [1, 2],
      [0, 1, 2],
    ]) {
      const query = Object.assign({}, ...chosen.map((i) => filters[i])) as SearchQuery;
      const each = chosen.map((i) => new Set(found(archive, filters[i] ?? {})));
      const both = pulls.filter((id) => each.every((ids) => ids.has(id))).reverse();
      expect(both.length).toBeGreaterThan(0);
      expect(found(archive, query), JSON.stringify(query)).toEqual(both);
    }
    expect(found(archive, { geometry: 'round', rules: 'aws' })).toEqual([]);
    expect(archive.check({}).lines.find((line) => line.name === 'search')).toMatchObject({ ok: true });
  });

  test('a verdict counts until something it rests on is said anew', () => {
    const archive = begun();
    const pullId = made(archive);
    const setId = madeSet(archive, [pullId]);
    const judge = (at: number): void => {
      archive.sets((connection) => {
        keepVerdicts(connection, setId, [{ pullId, outcome: 'accept', questionable: true }], at);
      });
    };
    const head = (): number => archive.sets(auditHead);
    judge(head());
    expect(found(archive, { verdict: 'accept', questionable: true })).toEqual([pullId]);
    expect(found(archive, { questionable: false })).toEqual([]);
    const before = head();
    archive.noteFracture({ pullId, note: { place: 'weld-metal' } });
    expect(found(archive, { verdict: 'accept' })).toEqual([]);
    expect(found(archive, { verdict: 'not-judged' })).toEqual([pullId]);
    judge(before);
    expect(found(archive, { verdict: 'accept' }), 'a verdict from before the note is not kept').toEqual([]);
  });

  test('the number of a certificate finds its pulls, and the verdict on them stays', () => {
    const archive = begun();
    const pullId = made(archive);
    const setId = madeSet(archive, [pullId]);
    archive.sets((connection) => {
      keepVerdicts(
        connection,
        setId,
        [{ pullId, outcome: 'reject', questionable: false }],
        auditHead(connection),
      );
    });
    const { number } = archive.sets((connection, keeping) =>
      issueCertificate(connection, {
        about: { setId },
        contentSha256: new Uint8Array(32),
        utcOffsetMinutes: 0,
        results: [],
        ...keeping,
      }),
    );
    expect(found(archive, { text: number, verdict: 'reject' })).toEqual([pullId]);
  });

  test('a strength is found by any range that holds it, to the last digit', () => {
    const archive = begun();
    const forces = [1, 12_000, 57_151.5, 57_152, 60_000, 90_000];
    const pulls = forces.map((peakForceN) => made(archive, { peakForceN }));
    const strengths = archive.sets((connection) =>
      searchPulls(connection, { query: {}, order: NEWEST_FIRST, limit: 50 }),
    ).items;
    const of = (pullId: number): number =>
      strengths.find((one) => one.pullId === pullId)?.strengthMpa ?? Number.NaN;
    // 19.05 mm (twice, once as 3/4 in) by 6.3 mm.
    expect(of(pulls[4] ?? 0)).toBeCloseTo(60_000 / (19.05 * 6.3), 9);
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 900, noNaN: true }),
        fc.double({ min: 0, max: 900, noNaN: true }),
        (a, b) => {
          const query = { strengthMinMpa: Math.min(a, b), strengthMaxMpa: Math.max(a, b) };
          const expected = pulls
            .filter((id) => of(id) >= query.strengthMinMpa && of(id) <= query.strengthMaxMpa)
            .reverse();
          expect(found(archive, query)).toEqual(expected);
        },
      ),
    );
    const own = of(pulls[2] ?? 0);
    expect(found(archive, { strengthMinMpa: own, strengthMaxMpa: own })).toEqual([pulls[2]]);
  });

  test('days that the calendar does not have are refused', () => {
    expect(searchQuery.safeParse({ fromDay: '2026-02-30' }).success).toBe(false);
    expect(searchQuery.safeParse({ fromDay: '2026-03-04', toDay: '2026-03-03' }).success).toBe(false);
  });
});

describe('pages', () => {
  test('by key, in any order, they hold every pull once and in the order of the whole', () => {
    const archive = begun();
    for (let i = 0; i < 23; i++)
      made(archive, {
        name: `S-${String(i % 4)}`,
        peakForceN: 1000 * (i % 5),
        day: i % 3,
        operator: `P${String(i % 2)}`,
      });
    for (const by of SEARCH_COLUMNS)
      for (const descending of [true, false])
        for (const query of [{}, { text: 'S-1' }, { text: 'P1', strengthMinMpa: 15 }]) {
          const order = { by, descending };
          const paged: number[] = [];
          let after: string | null = null;
          do {
            const page = archive.sets((connection) =>
              searchPulls(connection, { query, order, limit: 5, ...(after === null ? {} : { after }) }),
            );
            paged.push(...page.items.map((one) => one.pullId));
            after = page.next;
          } while (after !== null);
          expect(paged, `${by} ${String(descending)}`).toEqual(found(archive, query, order));
          expect(new Set(paged).size).toBe(paged.length);
          expect(paged.length).toBeGreaterThan(5);
        }
  });

  test('a key that no page ended with is refused in words', () => {
    const archive = begun();
    made(archive);
    const ask = (order: SearchOrder, after: string) => () =>
      archive.sets((connection) => searchPulls(connection, { query: {}, order, after, limit: 5 }));
    expect(ask(NEWEST_FIRST, '1; DROP TABLE pull')).toThrow(/key/);
    expect(ask({ by: 'peak', descending: true }, 'x')).toThrow(/key/);
  });
});

describe('derived, never a record', () => {
  const searchLine = (archive: Archive): { ok: boolean; words: string } | undefined =>
    archive.check({}).lines.find((line) => line.name === 'search');

  test('the check finds an entry that is not what the rows say, and the next opening makes all anew', () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    const archive = openArchive(path);
    const pullId = made(archive, { notes: 'porosity' });
    expect(searchLine(archive)).toMatchObject({ ok: true });
    archive.connection.exec("UPDATE search_entry SET operator = 'somebody else'");
    expect(searchLine(archive)).toMatchObject({ ok: false });
    archive.connection.exec(
      "UPDATE search_entry SET operator = NULL; UPDATE search_value SET operator = 'x'",
    );
    expect(searchLine(archive)?.words).toContain('sorts and filters by');
    archive.connection.exec('DELETE FROM search_entry');
    expect(searchLine(archive)).toMatchObject({ ok: false });
    archive.close();
    const again = openArchive(path);
    expect(searchLine(again)).toMatchObject({ ok: true });
    expect(found(again, { text: 'porosity' })).toEqual([pullId]);
  });

  test('the check finds words that the text index holds and the entries do not', () => {
    const archive = begun();
    made(archive);
    archive.connection.exec(
      "INSERT INTO search_text (search_text, rowid, words) VALUES ('delete', 1, 'never there')",
    );
    expect(searchLine(archive)).toMatchObject({ ok: false });
  });

  test('a statement that is not kept leaves no trace in the search', () => {
    const archive = begun();
    const pullId = made(archive);
    const undone = archive.connection.transaction(() => {
      archive.noteFracture({ pullId, note: { place: 'in-grips', remarks: 'slipped' } });
      throw new Error('power went');
    });
    expect(() => undone()).toThrow('power went');
    expect(found(archive, { text: 'slipped' })).toEqual([]);
  });
});
