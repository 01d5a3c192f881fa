/** A pull put straight into an archive, batch by batch as the recorder would, without waiting for time to pass. */
import type { Archive } from '../../../core/archive/archive.ts';
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import { createParser } from '../../../drivers/create-parser.ts';
import { BY_HAND, SPECIMEN, linesBytes } from './pull-lines.ts';

export interface MadePullOptions {
  readonly archive: Archive;
  readonly profile: ReadoutProfile;
  /** Bytes of chunk after chunk, each with the time at which it came. */
  readonly chunks: Iterable<{ readonly bytes: Uint8Array; readonly elapsedUs: number }>;
  readonly chunksPerBatch: number;
}

export interface MadePull {
  readonly pullId: number;
  readonly readings: number;
  readonly rawBytes: number;
}

/** Chunks as an adapter hands them over, each at about its time: no clock ticks evenly. */
export function* chunksOfLines(
  readings: number,
  linesPerChunk: number,
): Generator<{ readonly bytes: Uint8Array; readonly elapsedUs: number }> {
  for (let line = 0; line < readings; line += linesPerChunk) {
    const late = Math.round((180 * Math.abs(Math.sin(line * 12.9898) * 43758.5453)) % 180);
    yield {
      bytes: linesBytes(line, Math.min(linesPerChunk, readings - line)),
      elapsedUs: (line + linesPerChunk) * 1000 + late,
    };
  }
}

/** Makes and closes it. */
export function makePull({ archive, profile, chunks, chunksPerBatch }: MadePullOptions): MadePull {
  const pullId = archive.beginPull({
    specimenId: archive.saveSpecimen({ specimen: SPECIMEN }),
    profile,
    source: { kind: 'serial', path: 'none' },
    sourceWords: 'none',
    rules: BY_HAND,
    operator: null,
    startedWallMs: Date.now(),
    startedUtcOffsetMinutes: 0,
    startedMonotonicUs: 0,
    boot: 'bench',
    plannedForceN: null,
    plannedExtensionMm: null,
    instruments: null,
  });
  const parser = createParser(profile);
  const none = { pullId, marks: [], gaps: [], gapEndedUs: null, acts: [], zeros: [] } as const;
  let waiting: { chunkSeq: number; opening: number; elapsedUs: number; bytes: Uint8Array }[] = [];
  let chunkSeq = 0;
  let firstSeq = 0;
  let rawBytes = 0;
  let lastUs = 0;
  const append = (): void => {
    const readings = waiting.flatMap((chunk) =>
      parser
        .push(chunk.chunkSeq, chunk.bytes, chunk.elapsedUs)
        .flatMap(({ outcome }) => (outcome.kind === 'reading' ? [outcome.reading] : [])),
    );
    archive.appendBatch({ ...none, chunks: waiting, firstSeq, readings });
    firstSeq += readings.length;
    waiting = [];
  };
  for (const { bytes, elapsedUs } of chunks) {
    waiting.push({ chunkSeq: chunkSeq++, opening: 0, elapsedUs, bytes: new Uint8Array(bytes) });
    rawBytes += bytes.length;
    lastUs = elapsedUs;
    if (waiting.length >= chunksPerBatch) append();
  }
  if (waiting.length > 0) append();
  archive.closePull(
    { ...none, chunks: [], firstSeq, readings: [] },
    { endedWallMs: Date.now(), durationUs: lastUs, peakForceN: null, misfitCount: {} },
  );
  return { pullId, readings: firstSeq, rawBytes };
}
