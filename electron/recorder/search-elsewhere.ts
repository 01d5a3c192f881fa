/** A search in another archive: opened for reading, closed again at once, so that nobody is locked out. */
import { Archive } from '../../core/archive/archive.ts';
import { indexProgress } from '../../core/archive/search/make-index.ts';
import { foundPullIds, searchPulls } from '../../core/archive/search/search.ts';
import type { ReplyOf, RequestOf } from '../../core/contract/index.ts';

/** Throws an ArchiveFault where it can't be read. */
export function searchElsewhere(
  { file, query, order, limit }: RequestOf<'archive.search-elsewhere'>,
  programVersion: string,
): ReplyOf<'archive.search-elsewhere'> {
  const other = new Archive(file, { programVersion, wallMs: Date.now, purpose: 'read' });
  try {
    return other.sets((connection) => ({
      total: foundPullIds(connection, { query, order }).length,
      items: searchPulls(connection, { query, order, limit }).items,
      index: indexProgress(connection),
      // What rests on verdicts is asked of a recorder of its own, which judges (read-elsewhere.ts).
      setsNotJudged: 0,
      setsUnjudged: 0,
      isHalfCopy: other.isHalfCopy,
    }));
  } finally {
    other.close();
  }
}
