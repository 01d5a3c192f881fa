/** Hits of several archives as one list: in the order asked, a page of it at a time. */
import { compareLines, keyText } from '../../core/archive/search/found-order.ts';
import type { FoundPull, SearchOrder } from '../../core/contract/search-requests.ts';

/** A page of one archive, and behind which key it was asked for. */
export interface PageOfOne {
  readonly items: readonly FoundPull[];
  readonly after: string | undefined;
  readonly next: string | null;
}

export interface Hit {
  readonly line: FoundPull;
  /** Of its archive among them. */
  readonly place: number;
}

/**
 * The first `limit` of all, and behind which key each archive goes on: undefined from its beginning, null no further. In
 * the order of recording, of which archives know nothing of each other, all of each page, one archive behind the other.
 */
export function hitsTogether(
  pages: readonly PageOfOne[],
  order: SearchOrder,
  limit: number,
): { readonly hits: readonly Hit[]; readonly next: readonly (string | null | undefined)[] } {
  const all = pages.flatMap(({ items }, place) => items.map((line): Hit => ({ line, place })));
  if (order.by === 'kept') return { hits: all, next: pages.map(({ next }) => next) };
  const hits = all.sort(compareLines(order)).slice(0, limit);
  return {
    hits,
    next: pages.map(({ items, after, next }, place) => {
      const taken = hits.filter((hit) => hit.place === place);
      if (taken.length === items.length) return next;
      const last = taken.at(-1);
      return last === undefined ? after : keyText(last.line, order.by);
    }),
  };
}
