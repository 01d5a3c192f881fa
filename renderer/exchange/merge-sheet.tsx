/** Another archive's pulls taken in: what would happen is shown first, conflicts are listed, nothing is decided unasked. */
import { useSignal } from '@preact/signals';
import type { ChosenFile } from '../../core/contract/file-requests.ts';
import type { PageReplyOf } from '../../core/contract/bridge.ts';
import { Button } from '../design/button.tsx';
import { FaultBlock } from '../design/field.tsx';
import { TableScroll } from '../design/table-scroll.tsx';
import { fixed } from '../numbers/format.ts';
import { errand } from '../store/errand.ts';
import { archiveGeneration, exchangeProgress, request } from '../store/session-store.ts';
import { language } from '../store/view-settings.ts';
import { told as inWords } from '../words/told.ts';
import { words } from '../words/words.ts';
import { chosenFile } from './chosen-file.ts';
import { UnderWay } from './under-way.tsx';

/** Lines that are shown, conflicts first; all are counted, and the command line lists more. */
const SHOWN_MAX = 1_000;

const merging = errand();

const seen = ({ taken, addedTo, hereAlready, conflicts }: PageReplyOf<'archive.merge'>): number =>
  taken + addedTo + hereAlready + conflicts;

export function MergeSheet() {
  const text = words.value.exchange;
  const file = useSignal<ChosenFile | null>(null);
  const told = useSignal<(PageReplyOf<'archive.merge'> & { readonly written: boolean }) | null>(null);
  const merge = async (from: ChosenFile, write: boolean): Promise<void> => {
    exchangeProgress.value = null;
    const answer = await merging.run(() => request('archive.merge', { from: from.sign, write }));
    if (answer === null) return;
    told.value = { ...answer, written: write };
    if (write) archiveGeneration.value++;
  };
  const choose = async (): Promise<void> => {
    const chosen = await chosenFile(merging, 'archive');
    if (chosen === null) return;
    file.value = chosen;
    told.value = null;
    await merge(chosen, false);
  };
  const result = told.value;
  const conflictsFirst = (result?.lines ?? []).toSorted(
    (a, b) => Number(b.fate === 'conflict') - Number(a.fate === 'conflict'),
  );
  return (
    <div class="block">
      <div class="actions">
        <Button
          id="choose-archive"
          kind={file.value === null ? 'call' : 'plain'}
          onPress={() => void choose()}
        >
          {text.chooseArchive}
        </Button>
        {file.value === null ? null : <span>{file.value.name}</span>}
      </div>
      <UnderWay busy={merging.busy.value && file.value !== null} what={text.merging} />
      <FaultBlock fault={merging.fault.value} />
      {result === null ? null : (
        <>
          <p role="status">
            <strong>
              {(result.written ? text.merged : text.wouldMerge)(
                number(result.taken),
                number(result.addedTo),
                number(result.hereAlready),
                number(result.conflicts),
              )}
            </strong>{' '}
            {result.stopped ? text.mergeStopped : null}
          </p>
          {result.certificatesThere.count === 0 ? null : (
            <p>
              {text.certificatesThere(
                number(result.certificatesThere.count),
                someOf(result.certificatesThere),
              )}
            </p>
          )}
          {result.written || result.taken + result.addedTo === 0 || file.value === null ? null : (
            <div class="actions">
              <Button
                kind="call"
                id="merge-now"
                onPress={() => file.value !== null && void merge(file.value, true)}
              >
                {text.mergeNow(number(result.taken), number(result.addedTo))}
              </Button>
            </div>
          )}
          <TableScroll label={words.value.copy.taken} of="told-lines">
            <table>
              <thead>
                <tr>
                  <th scope="col">{text.fate}</th>
                  <th scope="col">{text.pullThere}</th>
                  <th scope="col">{words.value.archive.specimen}</th>
                  <th scope="col">{text.pullHere}</th>
                </tr>
              </thead>
              <tbody>
                {conflictsFirst.slice(0, SHOWN_MAX).map((line) => (
                  <tr key={line.pullIdThere} data-fate={line.fate}>
                    <td>
                      {line.fate === 'conflict' ? '▲ ' : ''}
                      {text.fates[line.fate]}
                    </td>
                    <td class="number">{line.pullIdThere}</td>
                    <td>{line.specimenName}</td>
                    <td>
                      {line.pullIdHere ?? ''} {inWords(line.words)}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </TableScroll>
          {seen(result) > SHOWN_MAX ? <p>{text.mergeNotShown(number(seen(result) - SHOWN_MAX))}</p> : null}
        </>
      )}
    </div>
  );
}

const number = (n: number): string => fixed(n, 0, language.value);

const someOf = ({ count, numbers }: PageReplyOf<'archive.merge'>['certificatesThere']): string =>
  `${numbers.join(', ')}${count > numbers.length ? ' …' : ''}`;
