/** Parses the raw chunks of a pull again, opening by opening, exactly as the recorder did when they came. */
import type { RawChunk } from '../../core/archive/codec/raw-block.ts';
import type { Reading } from '../../core/contract/reading.ts';
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { Skew } from '../../core/contract/second-readout.ts';
import type { PullSource } from '../../core/contract/source.ts';
import { importReadings } from '../../core/exchange/import/import-readings.ts';
import { PullLines, type PullReadouts } from './pull-lines.ts';

/** Readings of a whole pull from its raw chunks. */
export function* reparse(
  profile: ReadoutProfile,
  chunks: Iterable<RawChunk>,
  source?: PullSource,
  second: PullReadouts['second'] = null,
): Generator<Reading> {
  if (source?.kind === 'imported') {
    const read = importReadings(Buffer.concat([...chunks].map(({ bytes }) => bytes)), source.plan);
    if (read.ok) yield* read.readings();
    return;
  }
  const lines = new PullLines({ profile, second });
  for (const chunk of chunks)
    for (const { reading } of lines.push(chunk)) if (reading !== null) yield reading;
}

/** How many lines gave no reading, by reason, and how far two instruments stand apart. */
export function countAnew(
  readouts: PullReadouts,
  chunks: Iterable<RawChunk>,
): { readonly misfitCount: Readonly<Record<string, number>>; readonly skew: Skew | null } {
  const misfitCount: Record<string, number> = {};
  const lines = new PullLines(readouts);
  for (const chunk of chunks)
    for (const { line } of lines.push(chunk))
      if (line.outcome.kind === 'misfit') {
        const { reason } = line.outcome;
        misfitCount[reason] = (misfitCount[reason] ?? 0) + 1;
      }
  return { misfitCount, skew: lines.skew };
}
