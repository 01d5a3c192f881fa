/** Another archive taken into this one; runs in the archive's own thread. */
import { resolve } from 'node:path';
import { Archive } from '../../core/archive/archive.ts';
import { ArchiveRefusal } from '../../core/archive/archive-fault.ts';
import { refuseHalfCopy } from '../../core/archive/half-copy.ts';
import { certificatesOnlyThere } from '../../core/archive/certificate-store.ts';
import { mergeArchive, pullsThere } from '../../core/archive/merge-archive.ts';
import type { ReplyOf } from '../../core/contract/index.ts';
import type { LongWork } from './long-work.ts';
import { MergeLines } from './merge-lines.ts';

/** The other archive is only read. Throws an ArchiveFault or an ArchiveRefusal in one sentence. */
export function mergeFrom(
  archive: Archive,
  from: string,
  write: boolean,
  work: LongWork,
): ReplyOf<'archive.merge'> {
  if (resolve(from) === archive.path)
    throw new ArchiveRefusal('merge-with-itself', `${from} is this very archive; give another one.`, 'from');
  return archive.sets((connection, { wallMs, programVersion }) => {
    const other = new Archive(from, {
      programVersion,
      wallMs: () => wallMs,
      purpose: 'read',
      onCopied: (done, of) => work.step('copy', done, of),
      onBroughtUp: (done, of) => work.step('bring-up', done, of),
    });
    try {
      refuseHalfCopy(from, other.isHalfCopy);
      const count = { taken: 0, 'added-to': 0, 'here-already': 0, conflict: 0 };
      let seen = 0;
      const lines = new MergeLines();
      const archiveIdentity = other.identity();
      const of = pullsThere(other.connection);
      let stopped = false;
      for (const line of mergeArchive({ connection, wallMs }, { connection: other.connection }, write)) {
        count[line.fate]++;
        seen++;
        lines.add(line);
        // Each pull is a transaction of its own: what was taken is whole.
        stopped = work.isStopped();
        if (stopped) break;
        work.step('merge', seen, of);
      }
      return {
        archiveIdentity,
        taken: count.taken,
        addedTo: count['added-to'],
        hereAlready: count['here-already'],
        conflicts: count.conflict,
        certificatesThere: certificatesOnlyThere(other.connection, connection),
        lines: lines.all,
        stopped,
      };
    } finally {
      other.close();
    }
  });
}
