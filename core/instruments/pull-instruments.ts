/**
 * With what a pull was measured, as it stood at its start: which instruments, their certificates and due dates, and
 * whether anybody had ever set the factors of the readout. Kept with the pull and never worked out again.
 */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX } from '../limits.ts';
import { exactFromDecimal, exactRatio } from '../quantity/exact.ts';
import type { ReadoutProfile } from '../contract/readout-profile.ts';
import type { PullSource } from '../contract/source.ts';
import {
  CALIBRATION_STATES,
  type CalibrationForm,
  calibrationOn,
  calibrationState,
  holdsWorksheet,
} from './calibration.ts';
import { INSTRUMENT_KINDS, type InstrumentForm, KIND_WORDS, quantityRange } from './instrument.ts';

export const usedInstrument = atFirstUse(() =>
  z.strictObject({
    kind: z.enum(INSTRUMENT_KINDS),
    instrumentId: z.int().positive(),
    name: z.string(),
    serialNumber: z.string().nullable(),
    class: z.string().nullable(),
    /** Only where a worksheet was kept with the calibration that said the class: the program's own words then, not typed. */
    classByWorksheet: z.literal(true).exactOptional(),
    /** Null where no calibration was on record on that day. */
    calibrationId: z.int().positive().nullable(),
    certificateNumber: z.string().nullable(),
    calibratedOn: z.string().nullable(),
    dueOn: z.string().nullable(),
    verifiedRange: quantityRange.nullable(),
    state: z.enum(CALIBRATION_STATES),
  }),
);
export type UsedInstrument = z.infer<typeof usedInstrument>;

/**
 * `set`: a scale or an offset is set, or the force is measured by an instrument with a calibration · `default`: scale 1
 * and offset 0 as they come, and nothing says that they are right · of a simulation, a replay and a typed pull there are none.
 */
export const FACTORS = ['set', 'default', 'simulated', 'replayed', 'typed'] as const;
export type Factors = (typeof FACTORS)[number];

export const CONCERN_CODES = [
  'calibration-overdue',
  'no-calibration',
  'force-instrument-not-named',
  'default-factors',
] as const;

export type ConcernCode = (typeof CONCERN_CODES)[number];

/** What a person must know before the start. */
export const concern = z.strictObject({
  code: z.enum(CONCERN_CODES),
  /** The instrument that it is about. */
  instrumentId: z.int().positive().nullable(),
});
export type Concern = z.infer<typeof concern>;

/** `person`: somebody said before the start that it is known · `not-asked`: on the command line nobody is asked. */
export const CONFIRMED = ['nothing-to-confirm', 'person', 'not-asked'] as const;

/** One of each kind. */
export const INSTRUMENTS_PER_PULL_MAX = INSTRUMENT_KINDS.length;

export const pullInstruments = atFirstUse(() =>
  z.strictObject({
    used: z.array(usedInstrument).max(INSTRUMENTS_PER_PULL_MAX),
    factors: z.enum(FACTORS),
    concerns: z.array(concern).max(10),
    confirmed: z.enum(CONFIRMED),
  }),
);
export type PullInstruments = z.infer<typeof pullInstruments>;
export type InstrumentsBeforeStart = Omit<PullInstruments, 'confirmed'>;

export interface ChosenInstrument {
  readonly instrumentId: number;
  readonly form: InstrumentForm;
  /** Those that stand, in the order in which they were entered. */
  readonly calibrations: readonly { readonly calibrationId: number; readonly form: CalibrationForm }[];
}

export interface BeforeStart {
  readonly chosen: readonly ChosenInstrument[];
  /** Local day of the start. */
  readonly on: string;
  readonly source: PullSource;
  readonly profile: ReadoutProfile;
}

export function instrumentsBeforeStart({ chosen, on, source, profile }: BeforeStart): InstrumentsBeforeStart {
  const used = chosen.map((one) => usedOn(one, on));
  const factors = factorsOf(source, profile, used);
  return { used, factors, concerns: concernsOf(used, factors) };
}

function usedOn({ instrumentId, form, calibrations }: ChosenInstrument, on: string): UsedInstrument {
  const dated = calibrations.map((one) => ({ ...one, ...one.form }));
  const found = calibrationOn(dated, on);
  return {
    kind: form.kind,
    instrumentId,
    name: form.name,
    serialNumber: form.serialNumber ?? null,
    class: found?.form.class ?? form.class ?? null,
    ...(found?.form.class !== undefined && holdsWorksheet(found.form) ? { classByWorksheet: true } : {}),
    calibrationId: found?.calibrationId ?? null,
    certificateNumber: found?.form.certificateNumber ?? null,
    calibratedOn: found?.form.calibratedOn ?? null,
    dueOn: found?.form.dueOn ?? null,
    verifiedRange: found?.form.verifiedRange ?? null,
    state: calibrationState(found, on),
  };
}

const ofForce = ({ kind }: UsedInstrument): boolean => kind === 'frame' || kind === 'force-channel';

/**
 * The instrument whose certificate speaks for the force: the channel's own, or else that of the frame. The standards
 * verify the force-measuring system as a whole, so one certificate covers both.
 */
export function forceInstrument(used: readonly UsedInstrument[]): UsedInstrument | null {
  const both = used.filter(ofForce).sort((a, b) => Number(a.kind === 'frame') - Number(b.kind === 'frame'));
  return both.find(({ state }) => state !== 'none') ?? both[0] ?? null;
}

function factorsOf(source: PullSource, profile: ReadoutProfile, used: readonly UsedInstrument[]): Factors {
  if (source.kind === 'simulated' || source.kind === 'typed') return source.kind;
  if (source.kind === 'replay') return 'replayed';
  const calibrated = (forceInstrument(used)?.state ?? 'none') !== 'none';
  return calibrated || forceFactorsSet(profile) ? 'set' : 'default';
}

/** True where a channel of the force has a scale other than 1 or an offset other than 0. */
export function forceFactorsSet({ channels }: ReadoutProfile): boolean {
  const [one, zero] = [exactRatio(1n, 1n), exactRatio(0n, 1n)];
  return channels
    .filter(({ quantity }) => quantity === 'force')
    .some(
      ({ scale, offset }) =>
        !(exactFromDecimal(scale)?.equals(one) ?? false) ||
        !(exactFromDecimal(offset)?.equals(zero) ?? false),
    );
}

function concernsOf(used: readonly UsedInstrument[], factors: Factors): Concern[] {
  // Nothing real is measured by a simulation, and a replay was measured at another time.
  if (factors === 'simulated' || factors === 'replayed') return [];
  const force = forceInstrument(used);
  const counted = used.filter((one) => !ofForce(one) || one === force);
  return [
    ...counted.flatMap(({ state, instrumentId }): Concern[] => {
      if (state === 'overdue') return [{ code: 'calibration-overdue', instrumentId }];
      return state === 'none' ? [{ code: 'no-calibration', instrumentId }] : [];
    }),
    ...(force === null ? [{ code: 'force-instrument-not-named', instrumentId: null } as const] : []),
    ...(factors === 'default' ? [{ code: 'default-factors', instrumentId: null } as const] : []),
  ];
}

export const sameConcern = (a: Concern, b: Concern): boolean =>
  a.code === b.code && a.instrumentId === b.instrumentId;

/** For records, certificates and the command line; the page has words of its own. */
export function concernSentence({ code, instrumentId }: Concern, used: readonly UsedInstrument[]): string {
  const found = used.find((one) => one.instrumentId === instrumentId);
  const named = found === undefined ? 'An instrument' : instrumentWords(found);
  switch (code) {
    case 'calibration-overdue':
      return `The calibration of the ${named} was due on ${found?.dueOn ?? 'an unknown day'} and is overdue (certificate ${found?.certificateNumber ?? 'unknown'}).`;
    case 'no-calibration':
      return `No calibration of the ${named} is on record for this day.`;
    case 'force-instrument-not-named':
      return 'No frame or force channel of the register is named, so no calibration of the force is on record.';
    case 'default-factors':
      return 'The force is taken with scale 1 and offset 0 as they come, and nobody has set them or named a calibrated force channel.';
  }
}

/** "force channel LC-20, no. 4711". */
export const instrumentWords = ({ kind, name, serialNumber }: UsedInstrument): string =>
  `${KIND_WORDS[kind]} ${name}${serialNumber === null ? '' : `, no. ${serialNumber}`}`.slice(
    0,
    NAME_LENGTH_MAX,
  );

/** One of each kind, none twice. */
export function choiceFault(chosen: readonly ChosenInstrument[]): string | null {
  const twice = INSTRUMENT_KINDS.find((kind) => chosen.filter(({ form }) => form.kind === kind).length > 1);
  return twice === undefined
    ? null
    : `Two instruments of the kind ${KIND_WORDS[twice]} are named; a pull uses one of each kind, so name one of them.`;
}
