/** What the recorder hands over at each commit: everything since the commit before, in order. */
import type { GAP_CAUSES } from '../contract/record.ts';
import type { Reading } from '../contract/reading.ts';
import type { ReadoutProfile } from '../contract/readout-profile.ts';
import type { InstrumentIndex, Skew } from '../contract/second-readout.ts';
import type { PullSource, Source } from '../contract/source.ts';
import type { PullInstruments } from '../instruments/pull-instruments.ts';
import type { NewMark, PullRules } from '../pull/pull-state.ts';
import type { RawChunk } from './codec/raw-block.ts';

export interface NewPull {
  readonly specimenId: number;
  readonly profile: ReadoutProfile;
  readonly source: PullSource;
  readonly sourceWords: string;
  readonly rules: PullRules;
  readonly operator: string | null;
  readonly startedWallMs: number;
  /** Minutes that the local clock was ahead of UTC then. */
  readonly startedUtcOffsetMinutes: number;
  readonly startedMonotonicUs: number;
  /** Tells one run of the computer from the next; the monotonic clock holds within one. */
  readonly boot: string;
  readonly plannedForceN: number | null;
  readonly plannedExtensionMm: number | null;
  /** With what it is measured, as it stands at this moment. */
  readonly instruments: PullInstruments | null;
  /** A second instrument on a port of its own. */
  readonly second?: NewSecond | undefined;
}

export interface NewSecond {
  readonly source: Source;
  readonly sourceWords: string;
  readonly profile: ReadoutProfile;
  readonly ageMaxMs: number;
}

export interface NewGap {
  readonly cause: (typeof GAP_CAUSES)[number];
  readonly beforeSeq: number;
  readonly fromUs: number;
  /** Null while it lasts. */
  readonly toUs: number | null;
  readonly words: string;
  /** 1 where only the second of two instruments was not heard. */
  readonly instrument?: InstrumentIndex;
}

export interface NewAct {
  readonly kind: string;
  readonly elapsedUs: number;
  readonly wallMs: number;
  readonly by: string | null;
  readonly words: string;
}

export interface NewZero {
  readonly key: string;
  /** Exact ratio in the core's unit. */
  readonly value: string;
  readonly seq: number;
}

export interface Batch {
  readonly pullId: number;
  readonly chunks: readonly RawChunk[];
  readonly firstSeq: number;
  readonly readings: readonly Reading[];
  readonly marks: readonly NewMark[];
  readonly gaps: readonly NewGap[];
  /** The open gap of the pull, where there is one, has ended at this time. */
  readonly gapEndedUs: number | null;
  /** The same of the second instrument. */
  readonly secondGapEndedUs?: number;
  readonly acts: readonly NewAct[];
  readonly zeros: readonly NewZero[];
}

export interface PullEnd {
  readonly endedWallMs: number;
  readonly durationUs: number;
  readonly peakForceN: number | null;
  readonly misfitCount: Readonly<Record<string, number>>;
  /** Of two instruments. */
  readonly skew?: Skew | null;
}
