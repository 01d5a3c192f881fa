/** Archives of other years or machines, looked through with the same search; each is only read, and can be gone over to. */
import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { PageReplyOf, PageRequestOf } from '../../core/contract/bridge.ts';
import type { ChosenFile } from '../../core/contract/file-requests.ts';
import type { Answer } from '../../core/contract/message.ts';
import { draft, order } from '../archive/found-pulls.ts';
import { peakText } from '../archive/peak-text.ts';
import { readSearch } from '../archive/search-draft.ts';
import { Button } from '../design/button.tsx';
import { FaultBlock, Field } from '../design/field.tsx';
import { TableScroll } from '../design/table-scroll.tsx';
import { fixed } from '../numbers/format.ts';
import { errand } from '../store/errand.ts';
import { request } from '../store/session-store.ts';
import { language, units } from '../store/view-settings.ts';
import { NAME_LENGTH_MAX } from '../../core/limits.ts';
import { words } from '../words/words.ts';
import { LayOver } from '../archive/found-acts.tsx';
import { isMarked, marked, toggleMark } from '../archive/marked-pulls.ts';
import { keyElsewhere } from '../store/elsewhere.ts';
import { archivePullId } from '../store/place.ts';
import type { FoundPull } from '../../core/contract/search-requests.ts';
import { dateOfFound } from './day-of-pull.ts';
import { closeExchange } from './exchange-view.ts';

/** Hits that are shown of each. */
const SHOWN_MAX = 20;

type Found = Answer<PageReplyOf<'archive.search-elsewhere'>>;

const files = signal<readonly ChosenFile[]>([]);
/** By sign; absent until its archive has answered. */
const found = signal<ReadonlyMap<string, Found>>(new Map());
const listing = errand();
const searching = errand();

async function list(change: PageRequestOf<'window.other-archives'>): Promise<void> {
  const answer = await listing.run(() => request('window.other-archives', change));
  if (answer !== null) files.value = answer.files;
}

/** Raised when another search begins, and when this one is stopped. */
let generation = 0;

/** Sets are judged no further; what is found by then stays. */
export function stopSearching(): void {
  generation++;
}

/**
 * One after the other: each is opened, searched and closed. Where a verdict is asked for, sets are judged a few at a time,
 * and what is found grows meanwhile.
 */
async function searchAll(): Promise<void> {
  const read = readSearch(draft.value, units.value);
  if (!read.ok) return;
  const { query } = read;
  const own = ++generation;
  const asked = order.value;
  found.value = new Map();
  await searching.run(async () => {
    for (const { sign } of files.value)
      for (let left = Infinity, before = Infinity; left > 0 && own === generation; before = left) {
        const answer = await request('archive.search-elsewhere', {
          file: sign,
          query,
          order: asked,
          limit: SHOWN_MAX,
        });
        if (own === generation) found.value = new Map([...found.value, [sign, answer]]);
        left = answer.ok && answer.value.setsNotJudged < before ? answer.value.setsNotJudged : 0;
      }
    return { ok: true, value: null };
  });
}

export function OtherArchivesSheet() {
  const text = words.value.exchange;
  useEffect(() => {
    void list({});
    return stopSearching;
  }, []);
  return (
    <div class="block">
      <form
        class="others-search"
        onSubmit={(event) => {
          event.preventDefault();
          void searchAll();
        }}
      >
        <Field
          id="search-elsewhere"
          label={words.value.archive.search}
          hint={text.filtersToo}
          value={draft.value.text}
          lengthMax={NAME_LENGTH_MAX}
          onInput={(value) => (draft.value = { ...draft.value, text: value })}
        />
        <Button
          kind="call"
          id="search-others"
          notNow={files.value.length === 0 ? text.noOthers : undefined}
          onPress={() => void searchAll()}
        >
          {searching.busy.value ? text.looking : text.searchOthers}
        </Button>
        {searching.busy.value ? (
          <Button kind="compact" id="stop-search-others" onPress={stopSearching}>
            {text.stop}
          </Button>
        ) : null}
        <Button kind="compact" id="add-other" onPress={() => void list({ add: true })}>
          {text.addOther}
        </Button>
        <LayOver id="lay-over-others" />
      </form>
      <FaultBlock fault={listing.fault.value} />
      {files.value.length === 0 ? <p class="empty">{text.noOthers}</p> : null}
      {files.value.map((file) => (
        <OneArchive key={file.sign} file={file} />
      ))}
    </div>
  );
}

function OneArchive({ file }: { readonly file: ChosenFile }) {
  const text = words.value.exchange;
  const answer = found.value.get(file.sign);
  const open = async (): Promise<void> => {
    const gone = await listing.run(() => request('window.open-other-archive', { sign: file.sign }));
    if (gone?.isOpen === true) closeExchange();
  };
  return (
    <section class="block" aria-label={file.name}>
      <div class="actions">
        <h3>{file.name}</h3>
        {answer?.ok === true ? (
          <span role="status">{words.value.find.count(fixed(answer.value.total, 0, language.value))}</span>
        ) : null}
        <Button kind="compact" onPress={() => void open()}>
          {text.openOther}
        </Button>
        <Button kind="compact" onPress={() => void list({ forget: file.sign })}>
          {text.forgetOther}
        </Button>
      </div>
      {answer?.ok === false ? <FaultBlock fault={answer.fault} /> : null}
      {answer?.ok === true && answer.value.isHalfCopy ? <p>▲ {text.halfCopy}</p> : null}
      {answer?.ok === true && answer.value.setsNotJudged > 0 ? (
        <p role="status">▲ {text.setsNotJudged(fixed(answer.value.setsNotJudged, 0, language.value))}</p>
      ) : null}
      {answer?.ok === true && answer.value.setsUnjudged > 0 ? (
        <p>▲ {text.setsUnjudged(fixed(answer.value.setsUnjudged, 0, language.value))}</p>
      ) : null}
      {answer?.ok === true && answer.value.index !== null ? (
        <p>
          {text.indexing(
            fixed(answer.value.index.made, 0, language.value),
            fixed(answer.value.index.of, 0, language.value),
          )}
        </p>
      ) : null}
      {answer?.ok === true && answer.value.items.length > 0 ? (
        <TableScroll label={words.value.find.count(fixed(answer.value.total, 0, language.value))}>
          <table>
            <tbody>
              {answer.value.items.map((pull) => (
                <tr key={pull.pullId}>
                  <td>
                    <MarkElsewhere file={file} pull={pull} />
                  </td>
                  <th scope="row">
                    <button
                      type="button"
                      class="open-pull"
                      aria-label={text.openElsewhere(pull.specimenName)}
                      onClick={() => (archivePullId.value = keyElsewhere(file, pull.pullId))}
                    >
                      {pull.specimenName}
                    </button>
                  </th>
                  <td>{dateOfFound(pull)}</td>
                  <td class="number">{pull.peakForceN === null ? '–' : peakText(pull.peakForceN)}</td>
                  <td>{pull.setName ?? ''}</td>
                  <td>{pull.operator ?? ''}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </TableScroll>
      ) : null}
    </section>
  );
}

/** Marked as in the table, to be laid over pulls of this archive and of others. */
function MarkElsewhere({ file, pull }: { readonly file: ChosenFile; readonly pull: FoundPull }) {
  const key = keyElsewhere(file, pull.pullId);
  return (
    <label class="mark-cell">
      <span class="heard">{words.value.look.markPull(`${pull.specimenName}, ${file.name}`)}</span>
      <input type="checkbox" checked={isMarked(marked.value, key)} onChange={() => toggleMark(key)} />
    </label>
  );
}
