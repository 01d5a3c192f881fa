/** A command line answers once, so it waits until everything can be found, and says how far that is. */
import type { RecorderAccess } from './recorder-access.ts';

/** Between two looks at an index that is being made. */
const WAIT_MS = 200;
/** Looks without any progress: a record is open, or a damaged row stops it. */
const LOOKS_MAX = 25;

export async function indexMade(access: RecorderAccess, note: (words: string) => void): Promise<void> {
  let [told, before, looks] = [-1, -1, 0];
  for (;;) {
    const { index } = await access.ask('archive.index', {});
    if (index === null) return;
    const { made, of } = index;
    looks = made === before ? looks + 1 : 0;
    before = made;
    if (looks > LOOKS_MAX) {
      note(
        `Only ${String(made)} of ${String(of)} pulls can be searched now; the answer may lack older ones.`,
      );
      return;
    }
    const tenth = Math.floor((10 * made) / Math.max(1, of));
    if (tenth > told) note(`The index for searching is being made: ${String(made)} of ${String(of)} pulls.`);
    told = Math.max(told, tenth);
    await new Promise((done) => setTimeout(done, WAIT_MS));
  }
}
