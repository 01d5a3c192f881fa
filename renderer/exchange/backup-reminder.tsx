/** When the last good backup was made; called to mind where that is long ago. */
import { computed, signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { PageReplyOf } from '../../core/contract/bridge.ts';
import { Button } from '../design/button.tsx';
import { FaultBlock } from '../design/field.tsx';
import { say } from '../design/said.tsx';
import { fixed, momentText } from '../numbers/format.ts';
import { errand } from '../store/errand.ts';
import { archiveGeneration, exchangeProgress, request } from '../store/session-store.ts';
import { language } from '../store/view-settings.ts';
import { words } from '../words/words.ts';

/** What this window knows of the archive's backups; null until it was asked. */
export const backups = signal<PageReplyOf<'window.backup-state'> | null>(null);
/** Also while a folder is chosen. */
export const backingUpByAge = errand();
/** Not while a place is chosen: a backup is told of by its first step. */
export const isBackingUp = computed(() => exchangeProgress.value?.work.startsWith('backup') === true);

export async function lookAtBackups(): Promise<void> {
  const answer = await request('window.backup-state', {});
  if (answer.ok) backups.value = answer.value;
}

/** Into the folder of the last time, or one that is asked for. */
export async function backUpByAge(folder: 'same' | 'ask'): Promise<void> {
  exchangeProgress.value = null;
  const answer = await backingUpByAge.run(() => request('window.back-up', { folder }));
  const written = answer?.written ?? null;
  if (written !== null)
    say(
      words.value.exchange.backedUp(
        written.name,
        written.folderName,
        fixed(written.dropped, 0, language.value),
      ),
    );
  await lookAtBackups();
}

/** Backs up into the folder of the last time; null: one is asked for. */
export function BackUpByAge({ id, folderName }: { readonly id: string; readonly folderName: string | null }) {
  const text = words.value.exchange;
  return (
    <Button kind="compact" id={id} onPress={() => void backUpByAge('same')}>
      {backingUpByAge.busy.value
        ? text.backingUp
        : folderName === null
          ? text.backUpInto
          : text.backUpTo(folderName)}
    </Button>
  );
}

/** `hasPulls`: an archive without any needs no backup. */
export function BackupReminder({ hasPulls }: { readonly hasPulls: boolean }) {
  const text = words.value.exchange;
  useEffect(() => void lookAtBackups(), [archiveGeneration.value]);
  const now = backups.value;
  if (now === null || !hasPulls) return null;
  const calls = now.isOld;
  return (
    <div class={calls ? 'backup-state old' : 'backup-state'}>
      <span>
        {calls ? '◆ ' : ''}
        {now.lastWallMs === null
          ? text.noBackup
          : (calls ? text.oldBackup : text.lastBackup)(momentText(now.lastWallMs))}
      </span>
      <BackUpByAge id="back-up-by-age" folderName={now.folderName} />
      {now.folderName === null ? null : (
        <Button kind="compact" id="back-up-elsewhere" onPress={() => void backUpByAge('ask')}>
          {text.otherFolder}
        </Button>
      )}
      <FaultBlock fault={backingUpByAge.fault.value} />
    </div>
  );
}
