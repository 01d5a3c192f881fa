/** What a record begins from, anew or after a crash, and what it tells while it is open. */
import type { Gap, Mark } from '../../core/contract/record.ts';
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { PullState } from '../../core/pull/pull-state.ts';
import type { Exact } from '../../core/quantity/exact.ts';
import type { InstrumentIndex } from '../../core/contract/second-readout.ts';
import type { ParsedLine } from '../../drivers/reading.ts';
import type { PullReadouts } from './pull-lines.ts';
import type { RangeLimit } from './range-watch.ts';

export interface RecordingStart {
  readonly pullId: number;
  readonly specimenId: number;
  readonly specimenName: string;
  readonly startedWallMs: number;
  /** On the monotonic clock of this run of the computer. */
  readonly startedUs: number;
  readonly profile: ReadoutProfile;
  /** A second instrument beside it. */
  readonly second: PullReadouts['second'];
  readonly plannedForceN: number | null;
  readonly plannedExtensionMm: number | null;
  readonly state: PullState;
  readonly marks: readonly Mark[];
  readonly gaps: readonly Gap[];
  readonly chunkCount: number;
  /** How many openings each instrument has had. */
  readonly openingCounts: readonly number[];
  readonly zeros: ReadonlyMap<string, Exact>;
  /** Of the instruments that it names. */
  readonly rangeLimits: readonly RangeLimit[];
  /** Gone on with after a crash. */
  readonly isRecovered: boolean;
}

export interface RecordingListener {
  readonly onLine: (line: ParsedLine, instrument: InstrumentIndex) => void;
  /** The state has changed or a mark was set. */
  readonly onStep: () => void;
  readonly onSpoolTrouble: (error: Error | null) => void;
  /** Raw bytes had to be let go: the archive can't be written to and memory is full; or what comes is kept again. */
  readonly onLoss: (isOver: boolean) => void;
  readonly onRangePassed: (limit: RangeLimit) => void;
}
