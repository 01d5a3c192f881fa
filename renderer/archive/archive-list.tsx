/** Every kept pull, newest first, with one field to find by. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { Fault } from '../../core/contract/index.ts';
import type { PullLine } from '../../core/contract/pull-requests.ts';
import { NAME_LENGTH_MAX } from '../../core/limits.ts';
import { Button } from '../design/button.tsx';
import { FaultBlock, Field } from '../design/field.tsx';
import { ReadingsMark } from '../design/readings-mark.tsx';
import { fixed, momentText } from '../numbers/format.ts';
import { peakText } from './peak-text.ts';
import { archivePullId } from '../store/place.ts';
import { archiveGeneration, request, session } from '../store/session-store.ts';
import { language } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { ArchiveCare } from './archive-care.tsx';

const PAGE_LENGTH = 50;
/** Typing pauses this long before the archive is asked. */
const TYPING_PAUSE_MS = 200;

export function ArchiveList() {
  const text = words.value.archive;
  const search = useSignal('');
  const items = useSignal<readonly PullLine[] | null>(null);
  const next = useSignal<number | null>(null);
  const fault = useSignal<Fault | null>(null);
  const connected = session.value !== null;

  const load = async (cursor: number | null): Promise<void> => {
    const asked = search.value.trim();
    const answer = await request('pull.list', {
      limit: PAGE_LENGTH,
      ...(asked === '' ? {} : { search: asked }),
      ...(cursor === null ? {} : { cursor }),
    });
    // An answer to what was typed before is not the answer any more.
    if (asked !== search.value.trim()) return;
    fault.value = answer.ok ? null : answer.fault;
    if (!answer.ok) return;
    items.value = cursor === null ? answer.value.items : [...(items.value ?? []), ...answer.value.items];
    next.value = answer.value.nextCursor;
  };
  useEffect(() => {
    if (!connected) return;
    const timer = setTimeout(() => void load(null), items.value === null ? 0 : TYPING_PAUSE_MS);
    return () => clearTimeout(timer);
  }, [search.value, connected, archiveGeneration.value, session.value?.state]);

  return (
    <div class="station">
      <div class="archive-head">
        <Field
          id="archive-search"
          label={text.search}
          hint={text.searchHint}
          value={search.value}
          lengthMax={NAME_LENGTH_MAX}
          onInput={(value) => (search.value = value)}
        />
        <ArchiveCare />
      </div>
      <FaultBlock fault={fault.value} />
      {items.value === null ? null : items.value.length === 0 ? (
        <p class="empty">
          {search.value.trim() === '' ? text.empty : text.nothingFound(search.value.trim())}
        </p>
      ) : (
        <PullTable items={items.value} />
      )}
      {next.value === null ? null : (
        <div class="actions">
          <Button onPress={() => void load(next.value)}>{text.more}</Button>
        </div>
      )}
    </div>
  );
}

function PullTable({ items }: { readonly items: readonly PullLine[] }) {
  const text = words.value.archive;
  return (
    // A table too wide for the window scrolls by itself, and can be reached by keyboard for it.
    <div class="table-scroll" tabIndex={0} role="region" aria-label={text.title}>
      <table class="pull-table">
        <thead>
          <tr>
            <th scope="col">{text.specimen}</th>
            <th scope="col">{text.when}</th>
            <th scope="col" class="amount">
              {text.peak}
            </th>
            <th scope="col">{text.state}</th>
            <th scope="col" class="amount">
              {text.readings}
            </th>
            <th scope="col">{text.operator}</th>
          </tr>
        </thead>
        <tbody>
          {items.map((pull) => (
            <tr key={pull.pullId}>
              <td>
                <button
                  type="button"
                  class="open-pull"
                  aria-label={text.open(pull.specimenName)}
                  onClick={() => (archivePullId.value = pull.pullId)}
                >
                  {pull.specimenName}
                </button>{' '}
                <span class="pencil small">{words.value.set.pullNumber(String(pull.pullId))}</span>
                <ReadingsMark readings={pull.readings} />
              </td>
              <td class="number">{momentText(pull.startedWallMs)}</td>
              <td class="amount number">
                {pull.peakForceN === null ? words.value.common.none : peakText(pull.peakForceN)}
              </td>
              <td>
                {pull.typed !== null
                  ? words.value.typed.mark
                  : pull.state === 'ended'
                    ? pull.broke
                      ? text.broke
                      : text.notBroke
                    : words.value.states[pull.state]}
                {pull.voided === null ? '' : ` · ${words.value.trail.isVoid}`}
                {pull.gapCount > 0 ? ` · ${text.gaps(String(pull.gapCount))}` : ''}
              </td>
              <td class="amount number">{fixed(pull.readingCount, 0, language.value)}</td>
              <td>{pull.operator ?? words.value.common.none}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
