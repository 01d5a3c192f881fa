/** The archive's own thread: a slow disk makes the commits wait here, and never the port. */
import { parentPort, workerData } from 'node:worker_threads';
import { z } from 'zod';
import { Archive } from '../../core/archive/archive.ts';
import { type ArchiveCalls, archiveCalls } from './archive-calls.ts';
import { PROGRESS_ID, type ThreadCall, type ThreadProgress } from './archive-keeper.ts';
import type { ThreadAnswer } from './archive-opening.ts';
import { longWork } from './long-work.ts';
import { troubleOf } from './thread-trouble.ts';

const options = z
  .object({
    path: z.string(),
    programVersion: z.string(),
    makeFolder: z.boolean(),
    purpose: z.enum(['record', 'read']),
    stop: z.instanceof(Int32Array),
  })
  .parse(workerData);
const port = parentPort;
if (port === null) throw new Error('the archive thread is started by the recorder only');

let archive: Archive | undefined;
let calls: ArchiveCalls;
try {
  const work = longWork(options.stop, (progress) => {
    port.postMessage({ id: PROGRESS_ID, progress } satisfies ThreadProgress);
  });
  archive = new Archive(options.path, { ...options, wallMs: Date.now });
  calls = archiveCalls(archive, work);
  answer({ id: -1, ok: true, value: null });
} catch (error) {
  answer({ id: -1, ok: false, trouble: troubleOf(error) });
}

port.on('message', ({ id, name, args }: ThreadCall) => {
  try {
    const call = calls[name] as (...given: readonly unknown[]) => unknown;
    const value = call(...args);
    // Work in steps lets the calls behind it pass.
    if (value instanceof Promise)
      value.then(
        (done: unknown) => answer({ id, ok: true, value: done }),
        (error: unknown) => answer({ id, ok: false, trouble: troubleOf(error) }),
      );
    else answer({ id, ok: true, value });
    // Behind the answer: the recorder does not wait for it.
    if (name === 'appendPacked') archive?.tendLog();
  } catch (error) {
    answer({ id, ok: false, trouble: troubleOf(error) });
  }
});

function answer(told: ThreadAnswer): void {
  port?.postMessage(told);
}
