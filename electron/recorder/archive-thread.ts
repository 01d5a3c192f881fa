/** The archive's own thread: a slow disk makes the commits wait here, and never the port. */
import { parentPort, workerData } from 'node:worker_threads';
import { z } from 'zod';
import { Archive } from '../../core/archive/archive.ts';
import { ArchiveFault, ArchiveRefusal } from '../../core/archive/archive-fault.ts';
import { type ArchiveCalls, archiveCalls } from './archive-calls.ts';
import type { ThreadAnswer, ThreadCall, ThreadTrouble } from './archive-keeper.ts';

const options = z
  .object({
    path: z.string(),
    programVersion: z.string(),
    makeFolder: z.boolean(),
    purpose: z.enum(['record', 'read']),
  })
  .parse(workerData);
const port = parentPort;
if (port === null) throw new Error('the archive thread is started by the recorder only');

let calls: ArchiveCalls;
try {
  calls = archiveCalls(new Archive(options.path, { ...options, wallMs: Date.now }));
  answer({ id: -1, ok: true, value: null });
} catch (error) {
  answer({ id: -1, ok: false, trouble: troubleOf(error) });
}

port.on('message', ({ id, name, args }: ThreadCall) => {
  try {
    const call = calls[name] as (...given: readonly unknown[]) => unknown;
    answer({ id, ok: true, value: call(...args) });
  } catch (error) {
    answer({ id, ok: false, trouble: troubleOf(error) });
  }
});

function answer(told: ThreadAnswer): void {
  port?.postMessage(told);
}

function troubleOf(error: unknown): ThreadTrouble {
  if (error instanceof ArchiveFault)
    return { kind: 'fault', code: error.code, sentence: error.message, detail: error.detail };
  if (error instanceof ArchiveRefusal)
    return { kind: 'refusal', code: error.code, sentence: error.message, field: error.field };
  return { kind: 'bug', sentence: error instanceof Error ? (error.stack ?? error.message) : String(error) };
}
