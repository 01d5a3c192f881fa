/** The session as one snapshot, from what the recorder holds. Pure arithmetic on what it is given. */
import type { LiveValue, Session, SessionPull } from '../../core/contract/session.ts';
import type { Reading } from '../../core/contract/reading.ts';
import type { ChannelConverter } from '../../core/pull/channel-value.ts';
import { toldPeak } from '../../core/pull/pull-state.ts';
import { loadIsBack } from '../../core/pull/record-end.ts';
import { shownText } from '../../core/pull/decimal-text.ts';
import type { Recording } from './recording.ts';

/** Marks and gaps shown in a snapshot; the record itself keeps all of them. */
const ROWS_SHOWN_MAX = 1_000;

/** What one instrument shows. */
export interface ShownReading {
  readonly fresh: boolean;
  readonly reading: Reading | null;
  readonly converters: readonly ChannelConverter[];
}

export type SnapshotParts = Omit<Session, 'live' | 'pull'> & {
  /** Of each instrument, the one that gives the load first. */
  readonly shown: readonly ShownReading[];
  readonly recording: Recording | null;
  readonly nowUs: number;
};

export function snapshotOf({ shown, recording, nowUs, ...session }: SnapshotParts): Session {
  return {
    ...session,
    live: shown.flatMap((its) => (its.fresh ? liveValues(its) : [])),
    pull: recording === null ? null : pullOf(recording, nowUs),
  };
}

function liveValues({ reading, converters }: ShownReading): LiveValue[] {
  if (reading === null) return [];
  return converters.flatMap((converter, index) => {
    const shown = reading.channels[index];
    if (shown === undefined) return [];
    const value = converter.value(shown);
    return [
      {
        key: converter.info.key,
        quantity: converter.info.quantity,
        coreUnit: converter.info.coreUnit,
        value: Number.isNaN(value) ? null : value,
        status: shown.status,
        shownText: shownText(shown).slice(0, 80),
        resolution: converter.lastDigit(shown),
      },
    ];
  });
}

function pullOf(recording: Recording, nowUs: number): SessionPull {
  const { start, state } = recording;
  const peak = toldPeak(state);
  const elapsedUs = Math.max(0, recording.isEnded ? state.lastElapsedUs : nowUs - start.startedUs);
  const { triggerSeq, breakSeq } = recording.effective;
  const secondsUntil = (us: number | null): number | null =>
    us === null ? null : Math.max(0, us - elapsedUs) / 1e6;
  return {
    pullId: start.pullId,
    specimenId: start.specimenId,
    specimenName: start.specimenName,
    startedWallMs: start.startedWallMs,
    ...state.rules,
    recordS: elapsedUs / 1e6,
    pullS: state.trigger === null ? null : Math.max(0, elapsedUs - state.trigger.elapsedUs) / 1e6,
    readingCount: state.nextSeq,
    savedThroughSeq: recording.savedThroughSeq,
    triggerSeq,
    breakSeq,
    tailEndsInS: secondsUntil(state.tailEndsAtUs),
    loadIsBack: loadIsBack(state),
    closesInS: secondsUntil(state.closesAtUs),
    peak: peak === null ? null : { forceN: peak.forceN, seq: peak.seq, recordS: peak.elapsedUs / 1e6 },
    forceRateNPerS: recording.forceRate.perS(elapsedUs),
    extensionRateMmPerS: recording.extensionRate.perS(elapsedUs),
    skew: recording.skew,
    marks: recording.marks.slice(-ROWS_SHOWN_MAX),
    gaps: recording.gaps.slice(-ROWS_SHOWN_MAX),
    plannedForceN: start.plannedForceN,
    plannedExtensionMm: start.plannedExtensionMm,
  };
}
