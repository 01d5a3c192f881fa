/** The archive as one checked file for each year: what would be made is shown first, and nothing in the archive changes. */
import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { SplitPlanTold, WrittenParts } from '../../core/contract/exchange-requests.ts';
import { Button } from '../design/button.tsx';
import { FaultBlock } from '../design/field.tsx';
import { say } from '../design/said.tsx';
import { TableScroll } from '../design/table-scroll.tsx';
import { changeArchive } from '../keys/change-archive.ts';
import { fixed } from '../numbers/format.ts';
import { sizeText } from '../numbers/size-text.ts';
import { errand } from '../store/errand.ts';
import { archiveGeneration, exchangeProgress, recording, request } from '../store/session-store.ts';
import { language } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { chosenFile } from './chosen-file.ts';
import { openExchange } from './exchange-view.ts';
import { UnderWay } from './under-way.tsx';

const planning = errand();
const plan = signal<SplitPlanTold | null>(null);
const splitting = errand();
/** The work itself, not the choice of a folder; it goes on where the sheet is left. */
const isWriting = signal(false);
/** Of which generation of the archive it tells. */
const written = signal<(WrittenParts & { readonly of: number }) | null>(null);

async function split(): Promise<void> {
  const folder = await chosenFile(splitting, 'years');
  if (folder === null) return;
  exchangeProgress.value = null;
  written.value = null;
  isWriting.value = true;
  const done = await splitting.run(() => request('archive.split', { folder: folder.sign }));
  isWriting.value = false;
  if (done === null) return;
  written.value = { ...done, of: archiveGeneration.value };
  say(words.value.exchange.split.written(count(done.parts.length), done.folderName));
}

const count = (n: number): string => fixed(n, 0, language.value);

export function SplitSheet() {
  const text = words.value.exchange.split;
  useEffect(() => {
    void planning
      .run(() => request('archive.plan-split', {}))
      .then((answer) => {
        plan.value = answer;
      });
  }, [archiveGeneration.value]);
  const now = plan.value;
  const done = written.value?.of === archiveGeneration.value ? written.value : null;
  const whyNot = recording.value
    ? words.value.doing.recording
    : now === null || now.parts.length === 0
      ? text.nothing
      : undefined;
  return (
    <div class="block">
      <FaultBlock fault={planning.fault.value} />
      {now === null ? null : (
        <p>
          {now.archiveBytes > now.largeBytes ? '◆ ' : ''}
          {(now.archiveBytes > now.largeBytes ? text.isLarge : text.isNotLarge)(
            sizeText(now.archiveBytes),
            sizeText(now.largeBytes),
          )}
        </p>
      )}
      {now === null || done !== null ? null : now.parts.length === 0 ? (
        <p class="empty">{text.nothing}</p>
      ) : (
        <>
          <Parts caption={text.wouldMake} size={text.aboutSize} parts={now.parts} />
          <p>{text.setsTogether}</p>
          <Left {...now} />
          <p>{text.needs(sizeText(now.neededBytes))}</p>
        </>
      )}
      {done === null ? null : (
        <>
          <p role="status">
            <strong>{text.written(count(done.parts.length), done.folderName)}</strong>
          </p>
          <Parts caption={text.areThere(done.folderName)} size={text.size} parts={done.parts} />
          <Left {...done} />
          <p>{text.unchanged}</p>
          <div class="actions">
            <Button kind="compact" id="split-elsewhere" onPress={() => openExchange('elsewhere')}>
              {words.value.exchange.short.elsewhere}
            </Button>
            <Button kind="compact" id="split-new-archive" onPress={() => void changeArchive('new')}>
              {text.beginNew}
            </Button>
          </div>
        </>
      )}
      <div class="actions">
        <Button
          kind={done === null ? 'call' : 'compact'}
          id="split-now"
          notNow={whyNot}
          onPress={() => void split()}
        >
          {text.chooseFolder}
        </Button>
      </div>
      <UnderWay busy={isWriting.value} what={text.copying} />
      <FaultBlock fault={splitting.fault.value} />
    </div>
  );
}

/** What stays in the original only. */
function Left({ open, certificatesLeft }: { readonly open: number; readonly certificatesLeft: number }) {
  const text = words.value.exchange.split;
  return (
    <>
      {open === 0 ? null : <p>{text.openStays}</p>}
      {certificatesLeft === 0 ? null : <p>{text.certificatesStay(count(certificatesLeft))}</p>}
    </>
  );
}

function Parts({
  caption,
  size,
  parts,
}: {
  readonly caption: string;
  readonly size: string;
  readonly parts: WrittenParts['parts'];
}) {
  const text = words.value.exchange;
  return (
    <TableScroll label={caption} of="told-lines">
      <table>
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">{text.split.year}</th>
            <th scope="col">{text.pulls}</th>
            <th scope="col">{text.split.certificates}</th>
            <th scope="col">{size}</th>
            <th scope="col">{text.split.file}</th>
          </tr>
        </thead>
        <tbody>
          {parts.map((part) => (
            <tr key={part.year}>
              <th scope="row">{part.year}</th>
              <td class="number">{count(part.pulls)}</td>
              <td class="number">{count(part.certificates)}</td>
              <td class="number">{sizeText(part.bytes)}</td>
              <td>{part.name}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </TableScroll>
  );
}
