/** A correction says why: what is kept is never changed without a word. */
import { ArchiveRefusal } from './archive-fault.ts';

/** Throws an ArchiveRefusal where the reason of a correction is missing. */
export function checkReason(reason: string | undefined): void {
  if (reason === undefined)
    throw new ArchiveRefusal(
      'reason-missing',
      'A correction needs its reason; say in a few words why.',
      'reason',
    );
}
