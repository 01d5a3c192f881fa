/** An old backup called to mind wherever one is, with the way to the next one: see backup-due.ts. */
import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { z } from 'zod';
import { Button } from '../design/button.tsx';
import { FaultBlock } from '../design/field.tsx';
import { momentText } from '../numbers/format.ts';
import { place } from '../store/place.ts';
import { remember, remembered } from '../store/remembered.ts';
import { archiveGeneration, heldOpen, recording, request, session } from '../store/session-store.ts';
import { words } from '../words/words.ts';
import { isBackupCalledFor } from './backup-due.ts';
import { BackUpByAge, backingUpByAge, backups, isBackingUp, lookAtBackups } from './backup-reminder.tsx';
import { UnderWay } from './under-way.tsx';

const KEY = 'gaugemark.backup-put-off';
/** Archives whose reminder was put off are remembered, the newest of them. */
const REMEMBERED_MAX = 50;
/** Behind whatever a start, the end of a pull or a change of archives has to do. */
const FIRST_LOOK_MS = 2_000;
/** A window that stays open for days is told too. */
const LOOK_AGAIN_MS = 3_600_000;

/** By the path of the archive: when it was put off. */
const putOff = signal<Readonly<Record<string, number>>>(
  remembered(KEY, z.record(z.string(), z.number()), {}),
);
remember(KEY, () => putOff.value);

const firstPullWallMs = signal<number | null>(null);
/** Of the last look. */
const lookedWallMs = signal(0);

/** Two short questions, and none of them in a pull. */
async function look(): Promise<void> {
  await lookAtBackups();
  if (backups.value?.isOld === true && firstPullWallMs.value === null) {
    // The first one has number 1; what is listed stands before the cursor.
    const oldest = await request('pull.list', { limit: 1, cursor: 2 });
    if (oldest.ok) firstPullWallMs.value = oldest.value.items[0]?.startedWallMs ?? null;
  }
  lookedWallMs.value = Date.now();
}

export function BackupNotice() {
  const text = words.value.exchange;
  const archive = session.value?.archive.path ?? null;
  const inPull = recording.value || heldOpen.value;
  useEffect(() => {
    firstPullWallMs.value = null;
  }, [archive, archiveGeneration.value]);
  useEffect(() => {
    if (archive === null || inPull) return;
    const first = setTimeout(() => void look(), FIRST_LOOK_MS);
    const timer = setInterval(() => void look(), LOOK_AGAIN_MS);
    return () => {
      clearTimeout(first);
      clearInterval(timer);
    };
  }, [archive, archiveGeneration.value, inPull]);
  const now = backups.value;
  // Beneath the archive's table it stands already.
  if (archive === null || inPull || now === null || place.value === 'archive') return null;
  const isCalledFor = isBackupCalledFor({
    isOld: now.isOld,
    firstPullWallMs: firstPullWallMs.value,
    putOffWallMs: putOff.value[archive] ?? null,
    wallMs: lookedWallMs.value,
  });
  if (!isCalledFor) return null;
  const later = (): void => {
    const newestFirst = Object.entries({ ...putOff.value, [archive]: Date.now() }).toSorted(
      ([, a], [, b]) => b - a,
    );
    putOff.value = Object.fromEntries(newestFirst.slice(0, REMEMBERED_MAX));
  };
  return (
    <div class="notice" data-severity="warning" id="backup-notice">
      <strong>◆ {words.value.notices.severity.warning}</strong>
      <span>{now.lastWallMs === null ? text.noBackup : text.oldBackup(momentText(now.lastWallMs))}</span>
      <BackUpByAge id="back-up-from-notice" folderName={now.folderName} />
      <Button kind="compact" id="backup-not-today" onPress={later}>
        {text.notToday}
      </Button>
      <UnderWay busy={backingUpByAge.busy.value && isBackingUp.value} what={text.backingUp} />
      <FaultBlock fault={backingUpByAge.fault.value} />
    </div>
  );
}
