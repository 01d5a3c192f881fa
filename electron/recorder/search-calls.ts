/** What the recorder asks of the archive to find pulls again; runs in the archive's own thread. */
import type { Archive } from '../../core/archive/archive.ts';
import {
  type JudgedPull,
  auditHead,
  keepVerdicts,
  setsNotJudged,
  setsToJudge,
} from '../../core/archive/search/keep-entries.ts';
import { goOnHolding, goOnTakingOver } from '../../core/archive/search/held-search.ts';
import { forgetSearch, saveSearch, savedSearches } from '../../core/archive/search/saved-searches.ts';
import { goOn, indexProgress, tidy } from '../../core/archive/search/make-index.ts';
import { type SearchPage, foundPullIds, linesOf, searchPulls } from '../../core/archive/search/search.ts';
import { thumbnailsOf } from '../../core/archive/search/thumbnails.ts';
import type { SavedSearch } from '../../core/contract/search-requests.ts';

export function searchCalls(archive: Archive) {
  return {
    searchPulls: (page: SearchPage) =>
      archive.sets((connection) => ({ ...searchPulls(connection, page), index: indexProgress(connection) })),
    foundPullIds: (asked: Pick<SearchPage, 'query' | 'order'>) =>
      archive.sets((connection) => ({
        pullIds: foundPullIds(connection, asked),
        index: indexProgress(connection),
        setsNotJudged: setsNotJudged(connection, asked),
      })),
    indexProgress: () => archive.sets(indexProgress),
    tidyIndex: (isFirst: boolean) => archive.sets((connection) => tidy(connection, isFirst)),
    goOnWithIndex: (msMax: number) => archive.sets((connection) => goOn(connection, msMax)),
    /** The next two only of an index that is whole. */
    goOnTakingOver: (msMax: number) =>
      archive.sets((connection) => indexProgress(connection) === null && goOnTakingOver(connection, msMax)),
    goOnHolding: (msMax: number) =>
      archive.sets((connection) => indexProgress(connection) === null && goOnHolding(connection, msMax)),
    linesOf: (pullIds: readonly number[]) => archive.sets((connection) => linesOf(connection, pullIds)),
    thumbnailsOf: (pullIds: readonly number[]) =>
      archive.sets((connection) => thumbnailsOf(connection, pullIds)),
    auditHead: () => archive.sets(auditHead),
    setsToJudge: () => archive.sets(setsToJudge),
    keepVerdicts: (setId: number, judged: readonly JudgedPull[], judgedAtAudit: number) => {
      archive.sets((connection) => {
        keepVerdicts(connection, setId, judged, judgedAtAudit);
      });
    },
    savedSearches: () => archive.sets(savedSearches),
    saveSearch: (search: SavedSearch) => {
      archive.sets((connection, { wallMs }) => {
        saveSearch(connection, search, wallMs);
      });
    },
    forgetSearch: (name: string) => {
      archive.sets((connection) => {
        forgetSearch(connection, name);
      });
    },
  };
}
