/** What a recorder is started with. */
import type { ListedPort } from '../../core/contract/source.ts';
import type { ArchiveOpening } from './archive-opening.ts';
import type { MakeTransport } from './readout.ts';

/** `told`: a notice says it in plain words at the same time, so that whoever listens need not be told twice. */
export type RecorderLog = (line: string, told?: 'by-notice') => void;

export interface RecorderOptions {
  readonly archivePath: string;
  readonly programVersion: string;
  /** Make the archive's folder where it is missing: the default place only. */
  readonly makeFolder: boolean;
  /** Go on with a record that was left open; false for work that only reads. */
  readonly resume: boolean;
  /** Of the archive, where its thread has been started already. */
  readonly opening?: ArchiveOpening;
  /** From which size on it is told that the file can be split; usually ARCHIVE_LARGE_BYTES. */
  readonly largeBytes?: number;
  /** Raw bytes held while the archive can't be written to; usually HELD_BYTES_MAX. */
  readonly heldBytesMax?: number;
  /** Free bytes on the archive's disk; usually asked of the file system. */
  readonly readFreeBytes?: () => number | null;
  /** What an evaluation may take of the engine's heap; usually EVALUATION_HEAP_MIB_MAX. */
  readonly evaluationHeapMib?: () => number;
  readonly makeTransport?: MakeTransport;
  /** The ports that this computer has now; tests hand in lists of their own. */
  readonly ports?: () => Promise<readonly ListedPort[]>;
  /** Says what must not be lost when nobody is connected: bugs, and troubles of the disk. */
  readonly log: RecorderLog;
  /** The archive's thread has died: nothing can be kept by this process any more. */
  readonly onArchiveGone?: () => void;
}
