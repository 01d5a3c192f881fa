/** Splits a copy of the archive by year: reading every pull again takes long, and must hold up neither port nor commits. */
import { statSync } from 'node:fs';
import { parentPort, workerData } from 'node:worker_threads';
import { z } from 'zod';
import { Archive } from '../../core/archive/archive.ts';
import { partName, planSplit, splitByYear } from '../../core/archive/split-archive.ts';
import type { ExchangeProgress, WrittenParts } from '../../core/contract/exchange-requests.ts';
import { longWork } from './long-work.ts';
import { recomputeIn } from './recompute.ts';
import { reparse } from './reparse.ts';
import { HELD_UP } from './split-control.ts';
import { type ThreadTrouble, troubleOf } from './thread-trouble.ts';

export type SplitAnswer =
  | { readonly ok: true; readonly written: Omit<WrittenParts, 'folderName'> }
  | { readonly ok: false; readonly trouble: ThreadTrouble };
export interface SplitProgress {
  readonly progress: ExchangeProgress;
}

/** Between two looks at whether it goes on, or is to be stopped. */
const LOOK_AGAIN_MS = 500;

parentPort?.postMessage(split());

function split(): SplitAnswer {
  const { copy, namedAfter, folder, programVersion, control } = z
    .object({
      copy: z.string(),
      namedAfter: z.string(),
      folder: z.string(),
      programVersion: z.string(),
      control: z.instanceof(Int32Array),
    })
    .parse(workerData);
  const keeping = { programVersion, wallMs: Date.now };
  const work = longWork(control, (progress) => {
    parentPort?.postMessage({ progress } satisfies SplitProgress);
  });
  try {
    const original = new Archive(copy, { ...keeping, purpose: 'read' });
    try {
      const written = splitByYear(original, folder, {
        ...keeping,
        namedAfter,
        checkOf: (part) => ({ reparse, recompute: recomputeIn(part) }),
        onStep: (done, of) => {
          while (Atomics.load(control, HELD_UP) === 1 && !work.isStopped())
            Atomics.wait(control, HELD_UP, 1, LOOK_AGAIN_MS);
          work.step('split', Math.floor(done), of);
        },
      });
      const { open, certificatesLeft } = planSplit(original.connection);
      const parts = written.map(({ path, year, pulls, certificates }) => ({
        ...{ year, pulls, certificates },
        name: partName(namedAfter, year),
        bytes: statSync(path).size,
      }));
      return { ok: true, written: { parts, open, certificatesLeft } };
    } finally {
      original.close();
    }
  } catch (error) {
    return { ok: false, trouble: troubleOf(error) };
  }
}
