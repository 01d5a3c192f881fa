/** Checks the copy of a backup and gives it its name: reading a whole file must hold up neither port nor commits. */
import { parentPort, workerData } from 'node:worker_threads';
import { z } from 'zod';
import { keepCopy } from '../../core/archive/backup-in-steps.ts';
import type { WrittenBackup } from '../../core/archive/backup.ts';
import { tableCount } from '../../core/archive/table-counts.ts';
import { type ThreadTrouble, troubleOf } from './thread-trouble.ts';

export type CheckedBackup =
  | { readonly ok: true; readonly written: WrittenBackup }
  | { readonly ok: false; readonly trouble: ThreadTrouble };

const { to, counts } = z.object({ to: z.string(), counts: z.array(tableCount) }).parse(workerData);
parentPort?.postMessage(checked());

function checked(): CheckedBackup {
  try {
    return { ok: true, written: keepCopy(to, counts) };
  } catch (error) {
    return { ok: false, trouble: troubleOf(error) };
  }
}
