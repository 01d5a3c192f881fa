/**
 * What hostile input reaches, as functions of bytes: each throws where something happens that must not. Bad input is
 * answered with a fault; an exception of another kind, a value that is no number, or an answer that depends on how the
 * bytes came in pieces is a bug.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { readRulePackText } from '../../../core/acceptance/read-rule-pack.ts';
import { judgeAsked } from '../../../core/acceptance/judge-request.ts';
import { decodeChunkTable, encodeChunkTable } from '../../../core/archive/codec/raw-block.ts';
import { decodeReadings, encodeReadings } from '../../../core/archive/codec/reading-block.ts';
import { BlockDamagedError } from '../../../core/archive/codec/varint.ts';
import { type ReadoutProfile, readoutProfile } from '../../../core/contract/readout-profile.ts';
import { importBytes } from '../../../core/exchange/import/import-bytes.ts';
import { LINE_BYTES_MAX } from '../../../core/limits.ts';
import { createParser } from '../../../drivers/create-parser.ts';
import { shippedProfiles } from '../../../drivers/profiles.ts';
import type { ParsedLine, Reading } from '../../../drivers/reading.ts';
import { ARCHIVE_TARGETS } from './archive-targets.ts';
import type { FuzzTarget } from './fuzz-target.ts';

const MILLION = 1_000_000;
const fixtures = new URL('../../../fixtures/', import.meta.url);
const seedsIn = (folder: string): Buffer[] => {
  const place = new URL(`${folder}/`, fixtures);
  return readdirSync(place)
    .sort()
    .map((name) => readFileSync(new URL(name, place)));
};

function insist(holds: boolean, what: string): asserts holds {
  if (!holds) throw new Error(what);
}

function takes(kinds: readonly (abstract new (...args: never[]) => Error)[], work: () => void): void {
  try {
    work();
  } catch (error) {
    if (!kinds.some((kind) => error instanceof kind)) throw error;
  }
}

/** All lines of one opening, fed in pieces of `step` bytes. */
function linesOf(profile: ReadoutProfile, bytes: Buffer, step: number): ParsedLine[] {
  const parser = createParser(profile);
  const lines: ParsedLine[] = [];
  for (let at = 0; at < bytes.length; at += step)
    lines.push(...parser.push(0, bytes.subarray(at, at + step), 0));
  return [...lines, ...parser.end()];
}

const told = (lines: readonly ParsedLine[]): string =>
  JSON.stringify(
    lines.map(({ outcome }) =>
      outcome.kind === 'reading' ? [outcome.reading.status, outcome.reading.channels] : outcome.reason,
    ),
  );

function checkReading({ channels }: Reading): void {
  for (const { mantissa, exponent, status } of channels) {
    insist(mantissa === null || Number.isSafeInteger(mantissa), `mantissa ${String(mantissa)}`);
    insist(Number.isSafeInteger(exponent), `exponent ${exponent}`);
    insist(status !== 'ok' || mantissa !== null, 'a value is called ok and is none');
  }
}

function feed(profile: ReadoutProfile, bytes: Buffer): void {
  const whole = linesOf(profile, bytes, Math.max(1, bytes.length));
  for (const { bytes: line, outcome } of whole) {
    insist(line.length <= LINE_BYTES_MAX, `a line of ${line.length} bytes`);
    if (outcome.kind === 'reading') checkReading(outcome.reading);
  }
  const step = 1 + (bytes.length % 7);
  insist(
    told(linesOf(profile, bytes, step)) === told(whole),
    `lines differ when read ${step} bytes at a time`,
  );
}

const LINE_PROFILES = shippedProfiles().filter(({ format }) => format.kind !== 'registers');

const lineFormats: FuzzTarget = {
  name: 'line formats',
  seeds: seedsIn('fuzz/lines'),
  longRun: MILLION,
  run: (bytes) => {
    // Which profile is drawn from the case itself, so that a case says all.
    const profile = LINE_PROFILES[bytes.reduce((sum, byte) => sum + byte, 0) % LINE_PROFILES.length];
    if (profile !== undefined) feed(profile, bytes);
  },
};

const importOfFiles: FuzzTarget = {
  name: 'import of files',
  seeds: seedsIn('fuzz/import'),
  longRun: MILLION,
  run: (bytes) => {
    const outcome = importBytes(bytes);
    if (!outcome.ok) {
      insist(outcome.fault.sentence.length > 0, 'a fault without a sentence');
      return;
    }
    const { curve } = outcome;
    for (const column of [curve.timeS, curve.forceN, curve.extensionMm, curve.stressMpa, curve.strainRatio]) {
      if (column === undefined) continue;
      insist(column.length === curve.length, 'columns of different lengths');
      insist(!column.some((value) => Math.abs(value) === Infinity), 'an infinite value');
    }
  },
};

const LINES = Buffer.from('+0012.5,0.001\r\nST,GS,+0012.34kN\r\n\x02 1.5 2\x03');

const profiles: FuzzTarget = {
  name: 'readout profile',
  seeds: [...seedsIn('fuzz/profiles'), ...seedsIn('readouts')],
  longRun: MILLION,
  run: (bytes) => {
    const profile = readoutProfile.safeParse(jsonOf(bytes));
    // What the schema takes, the parser must be able to work with.
    if (profile.success) feed(profile.data, LINES);
  },
};

const rulePacks: FuzzTarget = {
  name: 'rule pack',
  seeds: [...seedsIn('fuzz/rule-packs'), ...seedsIn('../core/acceptance/packs')],
  longRun: MILLION,
  run: (bytes) => {
    const outcome = readRulePackText(bytes.toString('utf8'));
    if (!outcome.ok) return;
    const verdict = judgeAsked(outcome.pack, { strength: '485 MPa', broke: 'weld' }, [outcome.pack]);
    insist(verdict.ok || verdict.faults.length > 0, 'refused without a reason');
  },
};

function jsonOf(bytes: Buffer): unknown {
  try {
    return JSON.parse(bytes.toString('utf8'));
  } catch {
    return undefined;
  }
}

function sampleReadings(): Reading[] {
  const text = Array.from({ length: 60 }, (_, i) => `${i}.${i % 10},${(i * 0.001).toFixed(4)}\r\n`).join('');
  return LINE_PROFILES.flatMap((profile) =>
    linesOf(profile, Buffer.from(text), 50).flatMap(({ outcome }) =>
      outcome.kind === 'reading' ? [outcome.reading] : [],
    ),
  ).filter(({ channels }, _, [first]) => channels.length === first?.channels.length);
}

const blocks: FuzzTarget = {
  name: 'blocks of an archive',
  seeds: [
    Buffer.from(encodeReadings(sampleReadings())),
    Buffer.from(
      encodeChunkTable(
        Array.from({ length: 40 }, (_, i) => ({
          chunkSeq: i,
          opening: i > 20 ? 1 : 0,
          elapsedUs: i * 1_003,
          bytes: new Uint8Array(i % 9),
        })),
      ),
    ),
  ],
  longRun: MILLION,
  run: (bytes) => {
    takes([BlockDamagedError], () => decodeReadings(bytes).forEach(checkReading));
    takes([BlockDamagedError], () => void decodeChunkTable(bytes));
  },
};

export const FUZZ_TARGETS: readonly FuzzTarget[] = [
  lineFormats,
  importOfFiles,
  profiles,
  rulePacks,
  blocks,
  ...ARCHIVE_TARGETS,
];
