/** Checks the copy of a backup and gives it its name, or looks through one that was made before: reading a whole file must hold up neither port nor commits. */
import { parentPort, workerData } from 'node:worker_threads';
import { z } from 'zod';
import { keepCopy } from '../../core/archive/backup-in-steps.ts';
import { type WrittenBackup, pagesAreSound } from '../../core/archive/backup.ts';
import { type TableCount, tableCount } from '../../core/archive/table-counts.ts';
import { type ThreadTrouble, troubleOf } from './thread-trouble.ts';

export type CheckedBackup =
  | { readonly ok: true; readonly written: WrittenBackup }
  | { readonly ok: false; readonly trouble: ThreadTrouble };

const task = z
  .union([z.object({ to: z.string(), counts: z.array(tableCount) }), z.object({ look: z.string() })])
  .parse(workerData);
parentPort?.postMessage('look' in task ? pagesAreSound(task.look) : checked(task.to, task.counts));

function checked(to: string, counts: readonly TableCount[]): CheckedBackup {
  try {
    return { ok: true, written: keepCopy(to, counts) };
  } catch (error) {
    return { ok: false, trouble: troubleOf(error) };
  }
}
