/** The check of the archive in its own thread: between two of its steps other calls have their turn. */
import type { Archive } from '../../core/archive/archive.ts';
import type { ReplyOf } from '../../core/contract/index.ts';
import { type LongWork, stoppedRefusal } from './long-work.ts';
import { recomputeIn } from './recompute.ts';
import { reparse } from './reparse.ts';

/** Rejects with an ArchiveRefusal where it was stopped, also by the closing of the archive, or where there is no such pull. */
export async function checkInSteps(
  archive: Archive,
  pullId: number | undefined,
  work: LongWork,
): Promise<ReplyOf<'archive.check'>> {
  const steps = archive.checkInSteps({ pullId, reparse, recompute: recomputeIn(archive) });
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
    work.step('check', step.value.done, step.value.of);
    await new Promise<void>((done) => {
      setImmediate(done);
    });
    if (!archive.connection.open) throw stoppedRefusal('check');
  }
}
