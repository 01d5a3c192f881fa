/** What the instruments of a pull say against it: overdue, without calibration, loaded beyond what was verified. */
import type { Doubt } from '../acceptance/doubts.ts';
import { rangeInCore } from '../instruments/instrument.ts';
import {
  type ConcernCode,
  type PullInstruments,
  type UsedInstrument,
  forceInstrument,
  instrumentWords,
} from '../instruments/pull-instruments.ts';
import { exactFromNumber } from '../quantity/exact.ts';

export interface InstrumentsOfPull {
  /** Null in pulls from before they were kept. */
  readonly instruments: PullInstruments | null;
  /** Fm, in N; null where it was withheld. */
  readonly maximumForce: number | null;
  /** Whether the rules make a pull without a calibrated force questionable. */
  readonly calibrationAskedFor: boolean;
}

/** A pull that names no instrument raises none of its own accord, unless the rules ask for a calibration. */
export function doubtsOfInstruments({
  instruments,
  maximumForce,
  calibrationAskedFor,
}: InstrumentsOfPull): Doubt[] {
  const used = instruments?.used ?? [];
  const concerned = (code: ConcernCode): UsedInstrument[] =>
    (instruments?.concerns ?? [])
      .filter((one) => one.code === code)
      .flatMap(({ instrumentId }) => used.filter((one) => one.instrumentId === instrumentId));
  const overdue = concerned('calibration-overdue');
  const unknown = concerned('no-calibration');
  const force = forceInstrument(used);
  return [
    ...(overdue.length === 0
      ? []
      : [{ code: 'calibration-overdue', detail: overdue.map(overdueWords).join('; ') } as const]),
    ...(unknown.length > 0
      ? [{ code: 'calibration-unknown', detail: unknown.map(instrumentWords).join('; ') } as const]
      : calibrationAskedFor && force === null
        ? [
            {
              code: 'calibration-unknown',
              detail: 'the rules ask for one, and the pull names no frame or force channel',
            } as const,
          ]
        : []),
    ...(force === null || maximumForce === null ? [] : outsideVerified(force, maximumForce)),
  ];
}

const overdueWords = (one: UsedInstrument): string =>
  `${instrumentWords(one)}, certificate ${one.certificateNumber ?? ''}, due ${one.dueOn ?? ''}`;

/** ASTM E8/E8M 5.1: forces used for the results lie inside the verified range. */
function outsideVerified(force: UsedInstrument, maximumForce: number): Doubt[] {
  const { verifiedRange } = force;
  if (verifiedRange === null) return [];
  const { from, to } = rangeInCore(verifiedRange, 'force');
  const exact = exactFromNumber(maximumForce);
  if (exact.compare(from) >= 0 && exact.compare(to) <= 0) return [];
  return [
    {
      code: 'force-outside-verified-range',
      detail: `${instrumentWords(force)} is verified from ${verifiedRange.from} to ${verifiedRange.to}, and Fm is ${String(Math.round(maximumForce))} N`,
    },
  ];
}
