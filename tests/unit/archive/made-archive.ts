/** Archives for tests, in folders of their own, with a specimen, a profile and readings to put in. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { Archive } from '../../../core/archive/archive.ts';
import type { Batch, NewPull, PullEnd } from '../../../core/archive/batch.ts';
import type { Reading } from '../../../core/contract/reading.ts';
import { type ReadoutProfile, readoutProfile } from '../../../core/contract/readout-profile.ts';
import { DEFAULT_BREAK, DEFAULT_TRIGGER } from '../../../core/contract/rules.ts';
import type { SpecimenFile } from '../../../core/specimen/specimen-file.ts';

export const WALL_MS = Date.UTC(2026, 2, 4, 9, 30);

/** A folder that goes away with the test. */
export function scratchFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'gaugemark-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

export function openArchive(path: string): Archive {
  const archive = new Archive(path, { programVersion: '9.9.9', wallMs: () => WALL_MS });
  onTestFinished(() => archive.close());
  return archive;
}

export const SPECIMEN: SpecimenFile = {
  id: 'T-1',
  geometry: { kind: 'flat', width: ['19.05 mm', '3/4 in'], thickness: '6.3 mm' },
  gaugeLength: '50 mm',
};

export const PROFILE: ReadoutProfile = readoutProfile.parse({
  schema: 'gaugemark.readout-profile/1',
  name: 'bench readout',
  format: { kind: 'delimited', delimiter: ',', fields: ['load', 'extension'] },
  channels: [
    { field: 'load', quantity: 'force', unit: { kind: 'fixed', unit: 'lbf' } },
    { field: 'extension', quantity: 'extension', unit: { kind: 'fixed', unit: 'in' } },
  ],
});

export function newPull(specimenId: number, over: Partial<NewPull> = {}): NewPull {
  return {
    specimenId,
    profile: PROFILE,
    source: { kind: 'serial', path: '/dev/ttyTEST' },
    sourceWords: '/dev/ttyTEST',
    rules: { trigger: DEFAULT_TRIGGER, breakRule: DEFAULT_BREAK, tailS: 3, heldOpenS: null },
    operator: null,
    startedWallMs: WALL_MS,
    startedUtcOffsetMinutes: 120,
    startedMonotonicUs: 5_000_000,
    boot: 'boot-1',
    plannedForceN: null,
    plannedExtensionMm: null,
    instruments: null,
    ...over,
  };
}

export function batch(pullId: number, over: Partial<Batch> = {}): Batch {
  return {
    pullId,
    chunks: [],
    firstSeq: 0,
    readings: [],
    marks: [],
    gaps: [],
    gapEndedUs: null,
    acts: [],
    zeros: [],
    ...over,
  };
}

export const END: PullEnd = {
  endedWallMs: WALL_MS + 60_000,
  durationUs: 60_000_000,
  peakForceN: 1,
  misfitCount: {},
};

/** Batches of lines "load,extension" as a readout would send them: one chunk and one reading each. */
export function* batchesOfLines(pullId: number, batchCount: number, perBatch: number): Generator<Batch> {
  let seq = 0;
  for (let b = 0; b < batchCount; b++) {
    const firstSeq = seq;
    const chunks = [];
    const readings: Reading[] = [];
    for (let i = 0; i < perBatch; i++, seq++) {
      const load = 10 * seq + (seq % 7);
      const extension = 3 * seq + (seq % 5);
      const text = `${(load / 10).toFixed(1)},${(extension / 1e4).toFixed(4)}\r\n`;
      chunks.push({ chunkSeq: seq, opening: 0, elapsedUs: 1000 * seq + (seq % 3), bytes: Buffer.from(text) });
      readings.push({
        chunkSeq: seq,
        lineIndex: 0,
        status: 'ok',
        channels: [
          { mantissa: load, exponent: -1, unit: 'lbf', status: 'ok' },
          { mantissa: extension, exponent: -4, unit: 'in', status: 'ok' },
        ],
      });
    }
    yield batch(pullId, { chunks, firstSeq, readings });
  }
}

/** A closed pull of `batchCount` × `perBatch` readings; its number. */
export function keptPull(
  archive: Archive,
  batchCount = 5,
  perBatch = 20,
  specimenId = archive.saveSpecimen({ specimen: SPECIMEN }),
): number {
  const pullId = archive.beginPull(newPull(specimenId));
  for (const its of batchesOfLines(pullId, batchCount, perBatch)) archive.appendBatch(its);
  archive.closePull(batch(pullId, { firstSeq: batchCount * perBatch }), END);
  return pullId;
}
