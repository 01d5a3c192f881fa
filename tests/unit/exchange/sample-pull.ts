/** A kept pull of our own with everything that an export must carry: units, scale, zero, a gap, an overload, a nasty name. */
import { type KeptPull, keptPull } from '../../../core/contract/pull-requests.ts';
import { readoutProfile } from '../../../core/contract/readout-profile.ts';
import type { ReadingColumns, ShownValue } from '../../../core/contract/reading.ts';
import { ChannelConverter } from '../../../core/pull/channel-value.ts';
import { type TimedReading, columnsOf, convertersOf } from '../../../core/pull/reading-columns.ts';
import type { Exact } from '../../../core/quantity/exact.ts';

export const profile = readoutProfile.parse({
  schema: 'gaugemark.readout-profile/1',
  name: 'bench, two channels',
  format: { kind: 'delimited', delimiter: ';', fields: ['load', 'ext'] },
  channels: [
    { field: 'load', quantity: 'force', unit: { kind: 'fixed', unit: 'kN' } },
    {
      field: 'ext',
      quantity: 'extension',
      unit: { kind: 'fixed', unit: 'µm' },
      scale: '0.5',
      sign: 'inverted',
    },
  ],
});

const ok = (mantissa: number, exponent: number, unit: ShownValue['unit']): ShownValue => ({
  mantissa,
  exponent,
  unit,
  status: 'ok',
});
const none = (status: ShownValue['status'], unit: ShownValue['unit']): ShownValue => ({
  mantissa: null,
  exponent: 0,
  unit,
  status,
});

/** Readings 0 to 5; the load is in steps of 0.01 kN, the fourth an overload. */
export const readings: readonly TimedReading[] = [
  [0, ok(12, -2, 'kN'), ok(-10, 0, 'µm')],
  [100_000, ok(150, -2, 'kN'), ok(-105, -1, 'µm')],
  [200_000, ok(1250, -2, 'kN'), ok(-300, 0, 'µm')],
  [1_404_500, none('overload', 'kN'), ok(-310, 0, 'µm')],
  [1_500_000, ok(1100, -2, 'kN'), none('blank', 'µm')],
  [1_600_000, ok(-3, -2, 'kN'), ok(-900, 0, 'µm')],
].map(([elapsedUs, load, ext], seq) => ({
  seq,
  elapsedUs: elapsedUs as number,
  reading: { chunkSeq: seq, lineIndex: 0, status: 'ok', channels: [load as ShownValue, ext as ShownValue] },
}));

/** The zero pressed before the pull: the first load. */
const zero: Exact = new ChannelConverter(profile.channels[0] ?? never()).exact(12, -2, 'kN');
const converters = convertersOf(profile.channels, new Map([['load', zero]]));

export function blocksOf(size = 4): ReadingColumns[] {
  const blocks: ReadingColumns[] = [];
  for (let from = 0; from < readings.length; from += size)
    blocks.push(columnsOf(readings.slice(from, from + size), converters, { firstSeq: from, shown: true }));
  return blocks;
}

export const pull: KeptPull = keptPull.parse({
  pullId: 7,
  specimenId: 3,
  specimenName: '=W-17, "cap"; cut 2',
  startedWallMs: Date.UTC(2024, 4, 17, 7, 12, 30, 250),
  state: 'ended',
  readingCount: readings.length,
  peakForceN: 12_380,
  broke: true,
  gapCount: 1,
  operator: '@shift, =A1',
  specimen: {
    specimenId: 3,
    specimen: {
      id: '=W-17, "cap"; cut 2',
      geometry: { kind: 'flat', width: '12.7 mm', thickness: '6.35 mm' },
      gaugeLength: '50 mm',
    },
    savedWallMs: Date.UTC(2024, 4, 17, 7, 0, 0),
    by: null,
    supersedes: null,
    supersededBy: null,
    reason: null,
  },
  source: { kind: 'serial', path: '/dev/ttyUSB0' },
  profile,
  trigger: { kind: 'by-hand' },
  breakRule: { kind: 'by-hand' },
  tailS: 3,
  heldOpenS: null,
  programVersion: '0.1.0',
  startedUtcOffsetMinutes: 120,
  startedMonotonicUs: 1_000,
  channels: converters.map((c) => c.info),
  zeros: { load: 120 },
  chunkCount: 6,
  rawByteCount: 72,
  misfitCount: { malformed: 2 },
  durationUs: 1_700_000,
  triggerSeq: 1,
  breakSeq: 5,
  marks: [
    { kind: 'trigger', seq: 1, elapsedUs: 100_000, cause: 'person', words: 'started by hand' },
    { kind: 'break', seq: 5, elapsedUs: 1_600_000, cause: 'person', words: 'broke; \n=at the cap' },
  ],
  gaps: [
    {
      gapId: 1,
      cause: 'signal-lost',
      beforeSeq: 3,
      fromElapsedUs: 200_000,
      toElapsedUs: 1_404_500,
      words: 'adapter unplugged',
    },
  ],
  acts: [],
  fractureNotes: [],
});

function never(): never {
  throw new Error('the profile has channels');
}
