/** Sets a damaged archive aside for the verb: by the recorder that is running for it, or here where none is. */
import { Archive } from '../../core/archive/archive.ts';
import { ArchiveFault } from '../../core/archive/archive-fault.ts';
import { setArchiveAside } from '../../core/archive/set-aside.ts';
import { connectToRecorder } from '../recorder/client.ts';
import { reparse } from '../recorder/reparse.ts';
import { faultOf } from '../recorder/request-refused.ts';
import { PROGRAM_VERSION } from './program-version.ts';
import { errorOf, existingArchive, valueOf } from './recorder-access.ts';
import { InputError } from './verb.ts';

export interface SetAside {
  readonly setAsideTo: string;
  readonly path: string;
  /** A running recorder has begun a fresh archive at once. */
  readonly isBegunAnew: boolean;
}

/** Throws an InputError where the archive is sound: only a damaged one is taken out of the way. */
export async function setDamagedArchiveAside(archive: string | undefined): Promise<SetAside> {
  const path = existingArchive(archive);
  const client = await connectToRecorder(path);
  if (client !== null) {
    try {
      return {
        ...valueOf(await client.request('archive.set-aside', { confirmed: true })),
        isBegunAnew: true,
      };
    } finally {
      client.close();
    }
  }
  if (!isDamaged(path))
    throw new InputError(
      'archive-sound',
      `The archive ${path} is sound, so it is not set aside; nothing was changed.`,
      'archive',
    );
  return { setAsideTo: setArchiveAside(path, Date.now()), path, isBegunAnew: false };
}

/** Opens it for reading, and where that goes well checks it whole: a large archive is not checked when it is opened. */
function isDamaged(path: string): boolean {
  try {
    const opened = new Archive(path, {
      programVersion: PROGRAM_VERSION,
      wallMs: Date.now,
      purpose: 'read',
    });
    try {
      return !opened.check({ reparse }).sound;
    } finally {
      opened.close();
    }
  } catch (error) {
    if (error instanceof ArchiveFault && error.code === 'archive-damaged') return true;
    const fault = faultOf(error);
    throw fault === null ? error : errorOf(fault);
  }
}
