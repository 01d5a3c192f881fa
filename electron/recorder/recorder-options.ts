/** What a recorder is started with. */
import type { MakeTransport } from './readout.ts';

export interface RecorderOptions {
  readonly archivePath: string;
  readonly programVersion: string;
  /** Make the archive's folder where it is missing: the default place only. */
  readonly makeFolder: boolean;
  /** Go on with a record that was left open; false for work that only reads. */
  readonly resume: boolean;
  readonly makeTransport?: MakeTransport;
  /** Says what must not be lost when nobody is connected: bugs, and troubles of the disk. */
  readonly log: (line: string) => void;
  /** The archive's thread has died: nothing can be kept by this process any more. */
  readonly onArchiveGone?: () => void;
}
