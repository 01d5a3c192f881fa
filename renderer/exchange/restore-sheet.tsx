/** A backup in the place of the archive: what would change is shown first, and what is here is kept under another name. */
import { giveUpMarks } from '../archive/marked-pulls.ts';
import { useSignal } from '@preact/signals';
import type { ArchiveState, RestorePlan } from '../../core/contract/exchange-requests.ts';
import type { ChosenFile } from '../../core/contract/file-requests.ts';
import { Button } from '../design/button.tsx';
import { FaultBlock } from '../design/field.tsx';
import { say } from '../design/said.tsx';
import { TableScroll } from '../design/table-scroll.tsx';
import { fixed, momentText } from '../numbers/format.ts';
import { errand } from '../store/errand.ts';
import { giveUpTyping, typedNotKept } from '../store/held-typing.ts';
import { archiveGeneration, exchangeProgress, request } from '../store/session-store.ts';
import { language } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { chosenFile } from './chosen-file.ts';
import { closeExchange } from './exchange-view.ts';
import { UnderWay } from './under-way.tsx';

/** Numbers of pulls that are named; all are counted. */
const NAMED_MAX = 20;

/** Looking at a backup, and putting it back. */
const looking = errand();
const restoring = errand();

export function RestoreSheet() {
  const text = words.value.exchange;
  const file = useSignal<ChosenFile | null>(null);
  const plan = useSignal<RestorePlan | null>(null);
  const sure = useSignal(false);
  const choose = async (): Promise<void> => {
    const chosen = await chosenFile(looking, 'backup');
    if (chosen === null) return;
    file.value = chosen;
    sure.value = false;
    restoring.fault.value = null;
    plan.value = await looking.run(() => request('archive.plan-restore', { backup: chosen.sign }));
  };
  const restore = async (from: ChosenFile): Promise<void> => {
    exchangeProgress.value = null;
    const done = await restoring.run(() =>
      request('archive.restore', { backup: from.sign, confirmed: true }),
    );
    if (done === null) return;
    giveUpTyping();
    giveUpMarks();
    archiveGeneration.value++;
    say(text.restored(done.setAsideTo ?? ''));
    closeExchange();
  };
  const now = plan.value;
  return (
    <div class="block">
      <div class="actions">
        <Button
          id="choose-backup"
          kind={file.value === null ? 'call' : 'plain'}
          onPress={() => void choose()}
        >
          {text.chooseBackup}
        </Button>
        {file.value === null ? null : <span>{file.value.name}</span>}
        {looking.busy.value ? <span role="status">{text.looking}</span> : null}
      </div>
      <UnderWay busy={restoring.busy.value} what={text.restoring} />
      <FaultBlock fault={looking.fault.value ?? restoring.fault.value} />
      {now === null || file.value === null ? null : (
        <>
          <TableScroll label={words.value.copy.states}>
            <table class="states">
              <thead>
                <tr>
                  <td />
                  <th scope="col">{text.pulls}</th>
                  <th scope="col">{text.specimens}</th>
                  <th scope="col">{words.value.archive.readings}</th>
                  <th scope="col">{text.lastPull}</th>
                </tr>
              </thead>
              <tbody>
                <StateRow name={text.theBackup} state={now.backup} />
                {now.here === null || typeof now.here === 'string' ? null : (
                  <StateRow name={text.theArchive} state={now.here} />
                )}
              </tbody>
            </table>
          </TableScroll>
          {typeof now.here === 'string' ? <p>{now.here}</p> : null}
          {now.isSameArchive === false ? <p class="fault-line">▲ {text.otherArchive}</p> : null}
          {losesNothing(now) ? <p>{text.restoreLosesNothing}</p> : null}
          <Only what={text.onlyHere} ids={now.onlyHere} count={now.onlyHereCount} />
          {now.statementsOnlyHere === 0 ? null : (
            <p>
              <strong>{text.statementsOnlyHere(fixed(now.statementsOnlyHere, 0, language.value))}</strong>
            </p>
          )}
          <Only what={text.onlyInBackup} ids={now.onlyInBackup} count={now.onlyInBackupCount} />
          {typedNotKept.value.length === 0 ? null : (
            <p>
              <strong>
                {text.restoreLosesTyped(
                  typedNotKept.value.map((name) => words.value.notKept[name]).join(' · '),
                )}
              </strong>
            </p>
          )}
          <label class="sure">
            <input
              type="checkbox"
              id="restore-sure"
              checked={sure.value}
              onChange={(event) => (sure.value = event.currentTarget.checked)}
            />{' '}
            {text.restoreSure}
          </label>
          <div class="actions">
            <Button
              id="restore-now"
              notNow={sure.value ? undefined : text.restoreNotSure}
              onPress={() => file.value !== null && void restore(file.value)}
            >
              {text.restoreNow}
            </Button>
          </div>
        </>
      )}
    </div>
  );
}

/** Everything that is here is in the backup too: otherwise it is told what isn't. */
const losesNothing = ({ isSameArchive, onlyHereCount, statementsOnlyHere }: RestorePlan): boolean =>
  isSameArchive === true && onlyHereCount === 0 && statementsOnlyHere === 0;

function StateRow({ name, state }: { readonly name: string; readonly state: ArchiveState }) {
  const number = (n: number): string => fixed(n, 0, language.value);
  return (
    <tr>
      <th scope="row">{name}</th>
      <td class="number">{number(state.pullCount)}</td>
      <td class="number">{number(state.specimenCount)}</td>
      <td class="number">{number(state.readingCount)}</td>
      <td>{state.lastPullWallMs === null ? words.value.common.none : momentText(state.lastPullWallMs)}</td>
    </tr>
  );
}

function Only({
  what,
  ids,
  count,
}: {
  readonly what: (count: string) => string;
  readonly ids: readonly number[];
  readonly count: number;
}) {
  if (count === 0) return null;
  return (
    <p>
      <strong>{what(fixed(count, 0, language.value))}</strong> {ids.slice(0, NAMED_MAX).join(', ')}
      {count > NAMED_MAX ? ' …' : ''}
    </p>
  );
}
