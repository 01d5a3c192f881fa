/** Hits of several archives as one list: every pull once, in one order, whatever was shown before. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { compareLines, keyText } from '../../../core/archive/search/found-order.ts';
import type { FoundPull } from '../../../core/contract/search-requests.ts';
import { type Hit, type PageOfOne, hitsTogether } from '../../../electron/command-line/hits-of-several.ts';

const WELDERS = [null, 'B', 'a', 'Muñoz', '\uffee', '\u{1f600}'];

/** Of lines only what is sorted by here. */
const line = (pullId: number, welder: string | null, peakForceN: number | null): FoundPull =>
  ({ pullId, welder, peakForceN }) as FoundPull;

/** Smallest first, by bytes; nothing last. */
function compared(a: string | number | null, b: string | number | null, way: number): number {
  if (a === null || b === null) return Number(a === null) - Number(b === null);
  if (typeof a === 'number' && typeof b === 'number') return way * (a - b);
  return way * Buffer.compare(Buffer.from(String(a)), Buffer.from(String(b)));
}

test('page by page every pull comes once, in the order of all', () => {
  fc.assert(
    fc.property(
      fc.array(fc.array(fc.tuple(fc.constantFrom(...WELDERS), fc.option(fc.integer({ min: -3, max: 3 }))))),
      fc.constantFrom('welder' as const, 'peak' as const),
      fc.boolean(),
      fc.integer({ min: 1, max: 5 }),
      (archives, by, descending, limit) => {
        const order = { by, descending };
        const way = descending ? -1 : 1;
        const valueOf = ({ line: one }: Hit) => (by === 'welder' ? one.welder : one.peakForceN);
        const all = archives
          .flatMap((pulls, place) => pulls.map(([w, n], i): Hit => ({ place, line: line(i + 1, w, n) })))
          .sort(
            (a, b) =>
              compared(valueOf(a), valueOf(b), way) ||
              a.place - b.place ||
              way * (a.line.pullId - b.line.pullId),
          );
        // As an archive answers: behind the pull that a key names.
        const pageOf = (place: number, after: string | null | undefined): PageOfOne => {
          const own = all.filter((hit) => hit.place === place).map((hit) => hit.line);
          if (after === null) return { items: [], after: undefined, next: null };
          const from = after === undefined ? 0 : own.findIndex((one) => keyText(one, by) === after) + 1;
          const items = own.slice(from, from + limit);
          const last = items.at(-1);
          const next = last === undefined || items.length < limit ? null : keyText(last, by);
          return { items, after, next };
        };
        let keys: readonly (string | null | undefined)[] = archives.map(() => undefined);
        const shown: Hit[] = [];
        do {
          const page = hitsTogether(
            keys.map((key, place) => pageOf(place, key)),
            order,
            limit,
          );
          expect(page.hits.length).toBeLessThanOrEqual(limit);
          shown.push(...page.hits);
          keys = page.next;
        } while (keys.some((key) => key !== null));
        expect(shown).toEqual(all);
      },
    ),
    { numRuns: 300 },
  );
});

test('by when they were kept one archive comes behind the other', () => {
  const pages = [[9, 8], [30]].map((ids) => ({
    items: ids.map((id) => line(id, null, null)),
    after: undefined,
    next: ids.length < 2 ? null : '8',
  }));
  const { hits, next } = hitsTogether(pages, { by: 'kept', descending: true }, 2);
  expect(hits.map((hit) => [hit.place, hit.line.pullId])).toEqual([
    [0, 9],
    [0, 8],
    [1, 30],
  ]);
  expect(next).toEqual(['8', null]);
  expect(hits.toSorted(compareLines({ by: 'kept', descending: true }))).toEqual(hits);
});
