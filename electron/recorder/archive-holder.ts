/** The archive with its spool, as one recorder holds them: opened, or not and why, or set aside. */
import { statSync } from 'node:fs';
import { archiveFaultOf } from '../../core/archive/archive-fault.ts';
import { takenBackSentence } from '../../core/archive/cut-short-restore.ts';
import { halfCopySentence } from '../../core/archive/half-copy.ts';
import { logBytesOf } from '../../core/archive/log-room.ts';
import type { OpenRecord } from '../../core/archive/open-record.ts';
import type { ExchangeProgress } from '../../core/contract/exchange-requests.ts';
import type { Fault } from '../../core/contract/message.ts';
import { ARCHIVE_LARGE_BYTES, FREE_BYTES_WARNING, WAL_BYTES_MAX } from '../../core/limits.ts';
import { ArchiveKeeper } from './archive-keeper.ts';
import { type ArchiveOpening, beginOpening } from './archive-opening.ts';
import type { NoticeBoard } from './notice-board.ts';
import { type WorkWatch, stoppedRefusal } from './long-work.ts';
import { RequestRefused, faultOf } from './request-refused.ts';
import { Spool, readSpool } from './spool.ts';
import type { SpoolRecord } from './spool-record.ts';

export interface ArchiveHolderOptions {
  readonly archivePath: string;
  readonly programVersion: string;
  readonly makeFolder: boolean;
  /** Go on with a record that was left open; false for work that only reads. */
  readonly resume: boolean;
  /** Begun already, for the first time that it is opened. */
  readonly opening?: ArchiveOpening | undefined;
  /** From which size on it is told that the file can be split; usually ARCHIVE_LARGE_BYTES. */
  readonly largeBytes?: number | undefined;
  /** Free bytes on the archive's disk; usually asked of the file system. */
  readonly readFreeBytes?: (() => number | null) | undefined;
  readonly notices: NoticeBoard;
  readonly log: (line: string) => void;
  readonly onBug: (error: unknown) => void;
  readonly onProgress: (progress: ExchangeProgress) => void;
  /** The archive's thread has ended by itself. */
  readonly onGone: (why: string) => void;
}

/** Goes on with an open record; rejects where that can't be done, and the archive is then closed again. */
export type Recover = (open: OpenRecord, spooled: readonly SpoolRecord[]) => Promise<void>;

const MEBIBYTE = 1_048_576;
const GIBIBYTE = 1024 * MEBIBYTE;

export class ArchiveHolder {
  readonly #options: ArchiveHolderOptions;
  #keeper: ArchiveKeeper | null = null;
  #spool: Spool | null = null;
  #fault: Fault | null = NOT_OPENED;
  #freeBytes: number | null = null;
  /** Which file was opened for recording; null where none is. */
  #opened: string | null = null;
  #opening: ArchiveOpening | null;

  constructor(options: ArchiveHolderOptions) {
    this.#options = options;
    this.#opening = options.opening ?? null;
  }

  /** The open archive; throws a RequestRefused that says why there is none. */
  get keeper(): ArchiveKeeper {
    if (this.#keeper !== null) return this.#keeper;
    const { code, sentence, field, detail } = this.#fault ?? NOT_OPENED;
    throw new RequestRefused(code, sentence, field, detail);
  }
  /** Null while it is not, or not yet wholly, open. */
  get keeperIfOpen(): ArchiveKeeper | null {
    return this.#fault === null && this.#keeper?.isClosing === false ? this.#keeper : null;
  }
  get fault(): Fault | null {
    return this.#fault;
  }
  get spool(): Spool | null {
    return this.#spool;
  }
  get freeBytes(): number | null {
    return this.#freeBytes;
  }

  /** Tries to open the archive. Never rejects: `fault` says why it could not be. */
  async open(recover: Recover): Promise<void> {
    if (this.#keeper !== null) return;
    const { archivePath, programVersion, makeFolder, resume, onGone, onProgress } = this.#options;
    let keeper: ArchiveKeeper | null = null;
    try {
      const opening =
        this.#opening ??
        beginOpening({
          path: archivePath,
          programVersion,
          makeFolder,
          purpose: resume ? 'record' : 'read',
        });
      this.#opening = null;
      keeper = await ArchiveKeeper.open(opening, { onGone, onProgress });
      this.#keeper = keeper;
      this.#fault = null;
      if (keeper.opened.isHalfCopy)
        this.#tellOfOpening('warning', 'archive-half-copy', halfCopySentence(archivePath));
      if (keeper.opened.isTakenBack)
        this.#tellOfOpening('note', 'archive-restore-taken-back', takenBackSentence(archivePath));
      if (!resume) return;
      await this.#resume(keeper, recover);
      this.#opened = fileAt(archivePath);
      this.#takeFreeSpace(keeper.opened.freeBytes);
    } catch (error) {
      this.#keeper = null;
      await keeper?.close();
      this.#failed(error);
    }
  }

  async #resume(keeper: ArchiveKeeper, recover: Recover): Promise<void> {
    const { archivePath } = this.#options;
    const { identity, openRecord: open } = keeper.opened;
    const { records, nextGeneration } = orArchiveFault(archivePath, () =>
      readSpool(archivePath, {
        identity,
        pullId: open?.pull.pullId ?? -1,
        fromChunk: open?.pull.chunkCount ?? 0,
      }),
    );
    if (open !== null) await recover(open, records);
    // Only now: beginning the spool anew writes over what it held.
    this.#spool = orArchiveFault(
      archivePath,
      () => new Spool(archivePath, { identity, generation: nextGeneration }),
    );
  }

  #failed(error: unknown): void {
    const fault = faultOf(error);
    if (fault === null) this.#options.onBug(error);
    this.#fault = fault ?? {
      code: 'archive-unreadable',
      sentence:
        'The archive could not be opened because of a fault in the program. Nothing was changed; keep the file and report what the recorder wrote to its log.',
    };
  }

  /** Damaged archives only, and only because a person asked; a fresh one is begun in its place. */
  async setAside(recover: Recover): Promise<{ setAsideTo: string; path: string }> {
    // Before anything is looked at: nothing may come between. No start needs this or what restores.
    const { setArchiveAside } = await import('../../core/archive/set-aside.ts');
    if (this.#keeper !== null || this.#fault?.code !== 'archive-damaged')
      throw new RequestRefused(
        'archive-sound',
        'The archive is not known to be damaged, so it is not set aside. Nothing was changed.',
      );
    const { archivePath } = this.#options;
    const setAsideTo = setArchiveAside(archivePath, Date.now());
    await this.open(recover);
    return { setAsideTo, path: archivePath };
  }

  /** A copy of the backup beside the archive, which stays open meanwhile. */
  async copyBeside(backup: string, { signal, tell }: WorkWatch): Promise<string> {
    const { archivePath, programVersion } = this.#options;
    const { copyBeside } = await import('../../core/archive/restore-backup.ts');
    let toldPercent = -1;
    return copyBeside(backup, archivePath, { programVersion, wallMs: Date.now }, (done, of) => {
      if (signal.aborted) throw stoppedRefusal('restore');
      const percent = Math.floor((100 * done) / Math.max(1, of));
      if (percent === toldPercent) return;
      toldPercent = percent;
      tell({ work: 'restore', done, of });
    });
  }

  /**
   * Between records only. The copy of `copyBeside` in the archive's place, which is open again afterwards: that one, or
   * the one before.
   */
  async restore(copy: string, recover: Recover): Promise<{ setAsideTo: string | null }> {
    const { putInPlace } = await import('../../core/archive/restore-backup.ts');
    await this.close({ spoolIsNeeded: false });
    try {
      return { setAsideTo: putInPlace(copy, this.#options.archivePath, Date.now()) };
    } finally {
      await this.open(recover);
    }
  }

  async lookAtFreeSpace(): Promise<void> {
    this.#takeFreeSpace((await this.#keeper?.call('freeBytes')) ?? null);
  }

  #takeFreeSpace(freeBytes: number | null): void {
    const { notices, readFreeBytes } = this.#options;
    this.#freeBytes = readFreeBytes === undefined ? freeBytes : readFreeBytes();
    if (this.#freeBytes !== null && this.#freeBytes < FREE_BYTES_WARNING)
      notices.raise(
        'warning',
        'disk-nearly-full',
        `Less than ${Math.ceil(FREE_BYTES_WARNING / MEBIBYTE)} MiB are free on the archive's disk; free some space before the next pull.`,
      );
    else notices.over('disk-nearly-full');
    this.#lookAtSize();
  }

  /**
   * Whether the file that is open still stands at its place. A system that lets an open file be deleted or its medium be
   * taken away goes on as if nothing had been, and what is recorded is gone when the program ends.
   */
  lookAtPlace(): boolean {
    const { archivePath, notices } = this.#options;
    if (this.#opened === null || fileAt(archivePath) === this.#opened) {
      notices.over('archive-gone');
      return true;
    }
    notices.raise('alarm', 'archive-gone', goneSentence(archivePath));
    return false;
  }

  /** Nothing new is begun in a file that nobody will find; what is open goes on. Throws a RequestRefused. */
  requireInPlace(): void {
    if (!this.lookAtPlace())
      throw new RequestRefused('archive-gone', goneSentence(this.#options.archivePath));
  }

  #tellOfOpening(severity: 'note' | 'warning', code: string, sentence: string): void {
    const { notices, log } = this.#options;
    notices.raise(severity, code, sentence);
    log(sentence);
  }

  #lookAtSize(): void {
    const { archivePath, notices, largeBytes = ARCHIVE_LARGE_BYTES } = this.#options;
    const bytes = statSync(archivePath, { throwIfNoEntry: false })?.size ?? 0;
    if (bytes > largeBytes)
      notices.raise(
        'note',
        'archive-large',
        `The archive has ${String(Math.round(bytes / GIBIBYTE))} GiB. It works as it is; “Split by year” under its table, or gaugemark archive split --by-year, makes checked files by year of it, and a new archive can be begun for what comes.`,
      );
    else notices.over('archive-large');
    // Its room included it stays below; what a merge or an import writes at once is taken in as soon as it is kept.
    const logBytes = logBytesOf(archivePath);
    if (logBytes > 2 * WAL_BYTES_MAX)
      notices.raise(
        'warning',
        'archive-log-large',
        `The log beside the archive has ${String(Math.round(logBytes / MEBIBYTE))} MiB, since it could not be taken into the archive. Nothing is lost; close Gaugemark and its recorder between two pulls, and the next start takes it in.`,
      );
    else notices.over('archive-log-large');
  }

  /** Everything is in the archive: the spool is not waited for, and the log can be taken into the main file. */
  async settle(): Promise<void> {
    this.#spool?.releaseAll();
    await this.#keeper?.call('checkpoint');
    await this.lookAtFreeSpace();
  }

  /** `spoolIsNeeded`: a record stays open, and the next recorder takes up what the spool holds. */
  async close({ spoolIsNeeded }: { readonly spoolIsNeeded: boolean }): Promise<void> {
    if (spoolIsNeeded) this.#spool?.close();
    else this.#spool?.remove();
    this.#spool = null;
    await this.#keeper?.close();
    this.#keeper = null;
    this.#fault = NOT_OPENED;
    this.#opened = null;
    this.#options.notices.over('archive-gone');
  }
}

/** Device and number of a file; null where there is none that can be reached. */
function fileAt(path: string): string | null {
  try {
    const { dev, ino } = statSync(path, { bigint: true });
    return `${String(dev)} ${String(ino)}`;
  } catch {
    return null;
  }
}

const goneSentence = (path: string): string =>
  `The archive's file is no longer at ${path}: it was deleted or renamed, or its folder or medium was taken away. Put it back there, or make a backup on another disk now, before Gaugemark is closed; it still holds everything.`;

/** The spool stands beside the archive: what its disk refuses is a fault of that place, not of the program. */
function orArchiveFault<T>(archivePath: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw archiveFaultOf(error, archivePath) ?? error;
  }
}

const NOT_OPENED: Fault = {
  code: 'archive-not-open',
  sentence: 'The archive is not open; what was kept before is safe.',
};
