/** Facts of a record that belong beside its numbers in every file, one line each. */
import type { KeptPull } from '../../contract/pull-requests.ts';
import type { ReadoutChannel } from '../../contract/readout-profile.ts';
import { instrumentFacts } from '../../instruments/instrument-facts.ts';
import { joinedChannels, skewSentence } from '../../pull/joined-channels.ts';
import { pulledOnText } from '../../pull/stated-day.ts';
import { sourceWords } from '../source-words.ts';
import type { ChannelColumnNames } from './pull-csv-columns.ts';
import { momentText, secondsText } from './moment-text.ts';

export const PULL_CSV_FORM = 'gaugemark pull csv 1';

export function pullFacts(
  pull: KeptPull,
  names: readonly ChannelColumnNames[],
  timeFrom: 'arrival' | 'readout',
): string[] {
  return [
    `${PULL_CSV_FORM}; recorded by Gaugemark ${pull.programVersion}`,
    `specimen: ${pull.specimenName}`,
    `pull: ${String(pull.pullId)}`,
    ...pulledOnFacts(pull),
    `started: ${momentText(pull.startedWallMs, pull.startedUtcOffsetMinutes)} (${CLOCK_WORDS[timeFrom]})`,
    ...(pull.operator === null ? [] : [`operator: ${pull.operator}`]),
    `source: ${sourceWords(pull.source)}`,
    ...typedFacts(pull),
    `readout profile: ${pull.profile.name}`,
    ...instrumentFacts(pull.instruments).map(({ label, value }) => `${label}: ${value}`),
    ...secondFacts(pull),
    ...joinedChannels(pull.profile, pull.second?.profile ?? null).map((channel, i) =>
      channelWords(channel, names[i], pull.zeros[channel.field] ?? 0),
    ),
    ...pull.marks.map((mark) =>
      `mark: ${mark.kind} at reading ${String(mark.seq)}, ${secondsText(mark.elapsedUs)} s (${mark.cause}) ${mark.words}`.trimEnd(),
    ),
    ...Object.entries(pull.misfitCount).map(
      ([reason, count]) => `lines that gave no reading: ${String(count)} (${reason}); kept as raw bytes`,
    ),
    'a blank cell means that the readout showed no value there; the status says why',
  ];
}

/** Stated by a person; the start is then that of the import. */
function pulledOnFacts(pull: KeptPull): string[] {
  const text = pulledOnText(pull);
  return text === null ? [] : [`pulled on: ${text}`];
}

function secondFacts({ second }: KeptPull): string[] {
  if (second === null) return [];
  return [
    `second instrument: ${sourceWords(second.source)}, readout profile ${second.profile.name}`,
    ...(second.closed === null ? [] : [skewSentence(second.closed.skew, second.ageMaxMs)]),
  ];
}

/** Marked as what they are: nobody may take them for recorded readings. */
function typedFacts({ typed }: KeptPull): string[] {
  if (typed === null) return [];
  return [
    `typed peak load: ${typed.load}`,
    ...(typed.yieldLoad === undefined ? [] : [`typed yield load: ${typed.yieldLoad}`]),
    ...(typed.elongation === undefined ? [] : [`typed elongation after fracture: ${typed.elongation}`]),
  ];
}

const CLOCK_WORDS = {
  arrival: 'time_s counts from there on a clock that is never set',
  readout:
    "arrival_s counts from there on a clock that is never set; time_s is the readout's own clock, from its first reading on",
} as const;

/** "force_N = shown_force_kN × 1 + 0 kN, sign as shown, in N, less a zero of 12.5 N". */
function channelWords(channel: ReadoutChannel, names: ChannelColumnNames | undefined, zero: number): string {
  const unit = channel.unit.kind === 'fixed' ? channel.unit.unit : channel.unit.expected;
  const sign = channel.sign === 'inverted' ? 'sign turned' : 'sign as shown';
  const peak = channel.peak ? "; the readout's own peak memory" : '';
  return `channel ${channel.field}: ${names?.converted ?? channel.quantity} = (${names?.shown ?? 'shown'} × ${channel.scale} + ${channel.offset} ${unit}), ${sign}, converted by the exact factor of the unit, less a zero of ${String(zero)}${peak}`;
}
