/** Every kept pull that fits the search, in a table of which only the visible rows are read. */
import { useEffect, useRef } from 'preact/hooks';
import { FaultBlock } from '../design/field.tsx';
import { useWorkSaid } from '../design/told-in-parts.ts';
import { fixed } from '../numbers/format.ts';
import { archiveGeneration, session } from '../store/session-store.ts';
import { language, units } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { ArchiveCare } from './archive-care.tsx';
import {
  draft,
  fault,
  find,
  found,
  indexLeft,
  loadSaved,
  order,
  rememberFoundColumns,
  setsLeft,
} from './found-pulls.ts';
import { FoundActs, StepFromList } from './found-acts.tsx';
import { FoundTable } from './found-table.tsx';
import { SearchBar } from './search-bar.tsx';
import { EMPTY_SEARCH, readSearch } from './search-draft.ts';

/** Typing pauses this long before the archive is asked. */
const TYPING_PAUSE_MS = 150;

rememberFoundColumns();

/** Between two looks at a search index that is being made. */
const GROWING_MS = 1_500;

/** `narrow`: a pull is open beside it. */
export function ArchiveList({ narrow }: { readonly narrow: boolean }) {
  const text = words.value;
  const connected = session.value !== null;
  const read = readSearch(draft.value, units.value);
  const isFirst = useRef(true);
  // What was typed is asked after a pause; on coming here it is asked once, below.
  useEffect(() => {
    if (isFirst.current) {
      isFirst.current = false;
      return;
    }
    if (!connected || !read.ok) return;
    const timer = setTimeout(() => void find(read.query, false), TYPING_PAUSE_MS);
    return () => clearTimeout(timer);
  }, [draft.value, order.value, units.value]);
  useEffect(() => {
    if (!connected) return;
    if (read.ok) void find(read.query, true);
    void loadSaved();
  }, [connected, archiveGeneration.value, session.value?.state]);
  // While the index is being made, what is found grows.
  useEffect(() => {
    if (indexLeft.value === null || !read.ok) return;
    const timer = setTimeout(() => void find(read.query, false), GROWING_MS);
    return () => clearTimeout(timer);
  }, [indexLeft.value]);
  const count = found.value?.length ?? 0;
  const made = indexLeft.value;
  const indexing =
    made === null
      ? null
      : text.exchange.indexing(fixed(made.made, 0, language.value), fixed(made.of, 0, language.value));
  useWorkSaid({
    isUnderWay: made !== null,
    part: made === null ? null : made.made / made.of,
    sentence: indexing ?? '',
    // The count, which grows no more, says it.
    saysEnd: false,
  });
  return (
    <div class={narrow ? 'archive-list narrow' : 'archive-list'}>
      <SearchBar wrong={read.ok ? null : read.field} query={read.ok ? read.query : null} />
      <FaultBlock fault={fault.value} />
      <p class="found-count">
        {/* What changes with every step of the index is told at its quarters instead. */}
        <span role={made === null ? 'status' : undefined}>
          {!read.ok
            ? text.find.unread
            : found.value === null
              ? ''
              : text.find.count(fixed(count, 0, language.value))}
        </span>
        {indexing === null ? '' : ` · ${indexing}`}
        {setsLeft.value === null ? '' : ` · ${text.find.judging(fixed(setsLeft.value, 0, language.value))}`}
      </p>
      {narrow || count === 0 ? null : <FoundActs notNow={read.ok ? undefined : text.find.unread} />}
      {found.value !== null && count === 0 ? (
        <>
          <p class="empty">{draft.value === EMPTY_SEARCH ? text.archive.empty : text.find.nothing}</p>
          {narrow ? null : (
            <div class="actions">
              <StepFromList />
            </div>
          )}
        </>
      ) : (
        <FoundTable narrow={narrow} />
      )}
      {narrow ? null : <ArchiveCare hasPulls={count > 0} />}
    </div>
  );
}
