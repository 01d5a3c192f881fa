/** Looking after the archive: check it, back it up. */
import { useSignal } from '@preact/signals';
import type { CheckLine } from '../../core/contract/archive-requests.ts';
import { Button } from '../design/button.tsx';
import { FaultBlock } from '../design/field.tsx';
import { say } from '../design/said.tsx';
import { BackupReminder, backingUpByAge, isBackingUp, lookAtBackups } from '../exchange/backup-reminder.tsx';
import { type ExchangeView, openExchange } from '../exchange/exchange-view.ts';
import { UnderWay } from '../exchange/under-way.tsx';
import { errand } from '../store/errand.ts';
import { exchangeProgress, notices, request } from '../store/session-store.ts';
import { told } from '../words/told.ts';
import { words } from '../words/words.ts';

const EXCHANGES: readonly ExchangeView[] = ['import', 'merge', 'results', 'restore', 'elsewhere', 'split'];

const caring = errand();
/** By itself: what takes a minute must not look like a check. */
const backingUp = errand();

/** What the last check found; null before one. */
type Findings = { readonly sound: boolean; readonly lines: readonly CheckLine[] } | null;

/** Asks where, then backs up and reads the backup back. */
export async function backUp(): Promise<string | null> {
  const day = new Date().toISOString().slice(0, 10);
  const place = await backingUp.run(() =>
    request('window.choose-save-path', { kind: 'archive', suggestedName: `gaugemark-${day}.gaugemark` }),
  );
  const to = place?.path ?? null;
  if (to === null) return null;
  exchangeProgress.value = null;
  const done = await backingUp.run(() => request('archive.backup', { to }));
  if (done === null) return null;
  say(words.value.archive.backedUp(done.path));
  void lookAtBackups();
  return done.path;
}

export function ArchiveCare({
  pullId,
  hasPulls = false,
}: {
  readonly pullId?: number;
  readonly hasPulls?: boolean;
}) {
  const text = words.value.archive;
  const found = useSignal<Findings>(null);
  // The file has grown past its size: the way to split it stands among the buttons.
  const large = notices.value.get('archive-large');
  const check = async () => {
    exchangeProgress.value = null;
    found.value = await caring.run(() => request('archive.check', pullId === undefined ? {} : { pullId }));
    if (found.value !== null) say(found.value.sound ? text.checked : text.notSound);
  };
  return (
    <div class="block">
      <div class="actions">
        <Button kind="compact" id="check-archive" onPress={() => void check()}>
          {caring.busy.value ? text.checking : pullId === undefined ? text.checkAll : text.check}
        </Button>
        {pullId === undefined ? (
          <>
            <Button kind="compact" id="back-up" onPress={() => void backUp()}>
              {backingUp.busy.value ? words.value.exchange.backingUp : text.backup}
            </Button>
            {EXCHANGES.map((view) => (
              <Button
                key={view}
                kind="compact"
                id={`open-${view}`}
                name={words.value.exchange.titles[view]}
                onPress={() => openExchange(view)}
              >
                {words.value.exchange.short[view]}
              </Button>
            ))}
            <BackupReminder hasPulls={hasPulls} />
          </>
        ) : null}
      </div>
      {pullId !== undefined || large === undefined ? null : <p>◆ {told(large.sentence)}</p>}
      <UnderWay busy={caring.busy.value} what={text.checking} />
      <UnderWay
        busy={(backingUp.busy.value || backingUpByAge.busy.value) && isBackingUp.value}
        what={words.value.exchange.backingUp}
      />
      <FaultBlock fault={caring.fault.value ?? backingUp.fault.value} />
      {found.value === null ? null : (
        <ul class="check-lines">
          {found.value.lines.map((line) => (
            <li key={line.name}>
              <span aria-hidden="true">{line.ok ? '✓' : '▲'}</span>
              <strong>
                {line.ok ? text.checked : text.notSound}: {text.checkedThings[line.name] ?? told(line.name)}
              </strong>
              <span>{told(line.words)}</span>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
