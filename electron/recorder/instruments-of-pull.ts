/** With what a pull is measured: looked up before it starts, asked about, kept with it, noted in it. */
import type { RequestOf } from '../../core/contract/index.ts';
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { PullSource } from '../../core/contract/source.ts';
import { momentText } from '../../core/exchange/export/moment-text.ts';
import {
  type Concern,
  type InstrumentsBeforeStart,
  type PullInstruments,
  choiceFault,
  concernSentence,
  instrumentsBeforeStart,
  sameConcern,
} from '../../core/instruments/pull-instruments.ts';
import type { ArchiveKeeper } from './archive-keeper.ts';
import type { Recording } from './recording.ts';
import { RequestRefused } from './request-refused.ts';
import { utcOffsetMinutes } from './utc-offset.ts';

/** The local day of a moment, "2026-03-04". */
export const dayOf = (wallMs: number): string => momentText(wallMs, utcOffsetMinutes(wallMs)).slice(0, 10);

export interface AskedInstruments {
  readonly instruments: readonly number[];
  readonly source: PullSource;
  readonly profile: ReadoutProfile;
  readonly wallMs: number;
}

/** Rejects with a refusal for an instrument that is unknown or retired, or two of one kind. */
export async function beforeStart(
  archive: ArchiveKeeper,
  { instruments, source, profile, wallMs }: AskedInstruments,
): Promise<InstrumentsBeforeStart> {
  const chosen = await archive.call('chosenInstruments', instruments);
  const fault = choiceFault(chosen);
  if (fault !== null) throw new RequestRefused('instruments-twice', fault, 'instruments');
  return instrumentsBeforeStart({ chosen, on: dayOf(wallMs), source, profile });
}

type AskedReadout = Pick<RequestOf<'instrument.before-start'>, 'source' | 'profile'>;

/** What was named, or else what is open. */
export function readoutAsked(
  open: { readonly source: PullSource; readonly profile: ReadoutProfile } | null,
  { source, profile }: AskedReadout,
): { source: PullSource; profile: ReadoutProfile } {
  const named = { source: source ?? open?.source, profile: profile ?? open?.profile };
  if (named.source === undefined || named.profile === undefined)
    throw new RequestRefused(
      'no-readout',
      'No readout is open; choose one, or name source and profile.',
      'source',
    );
  return { source: named.source, profile: named.profile };
}

/** Where somebody can be asked, a concern that nobody has said to know refuses the start. */
export function refuseUnknown(
  { concerns, used }: InstrumentsBeforeStart,
  known: readonly Concern[] | undefined,
): void {
  if (known === undefined) return;
  const unknown = concerns.filter((one) => !known.some((told) => sameConcern(one, told)));
  if (unknown.length === 0) return;
  const sentences = unknown.map((one) => concernSentence(one, used)).join(' ');
  throw new RequestRefused(
    'calibration-asked',
    `${sentences} Confirm that this is known, or name other instruments; nothing was begun.`,
    'known',
  );
}

export function withAnswer(
  before: InstrumentsBeforeStart,
  known: readonly Concern[] | undefined,
): PullInstruments {
  const answer = known === undefined ? 'not-asked' : 'person';
  return { ...before, confirmed: before.concerns.length === 0 ? 'nothing-to-confirm' : answer };
}

/** What a person has confirmed is an act of its own in the record, with name and moment. */
export function noteConcerns(
  recording: Recording,
  { concerns, used, confirmed }: PullInstruments,
  by: string | null,
): void {
  if (confirmed !== 'person') return;
  for (const one of concerns)
    recording.noteNow('calibration-known', `Known before the start: ${concernSentence(one, used)}`, by);
}
