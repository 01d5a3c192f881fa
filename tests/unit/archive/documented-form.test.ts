/**
 * The archive read by what DEVELOPERS.md says of it and by nothing of this program: its tables are all named there, and
 * the script that stands there gives back every digit that was put in. SQLite and DEFLATE are Node's own.
 */
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, it } from 'vitest';
import { keepFirstStated } from '../../../core/archive/keep-first-stated.ts';
import type { Reading, ShownValue } from '../../../core/contract/reading.ts';
import { CHANNEL_STATUSES, READING_STATUSES } from '../../../core/contract/reading.ts';
import { END, SPECIMEN, batch, keptPull, newPull, openArchive, scratchFolder } from './made-archive.ts';

const TEXT = readFileSync(new URL('../../../DEVELOPERS.md', import.meta.url), 'utf8');
const [, SECTION = ''] = /## The archive, read with plain SQLite\n([\s\S]*?)\n## /.exec(TEXT) ?? [];
const [, SCRIPT = ''] = /```js\n(\/\/ read-curve\.mjs[\s\S]*?)```/.exec(SECTION) ?? [];

/** Lines that the script writes. */
function written(folder: string, archive: string, pullId: number): string[] {
  const script = join(folder, 'read-curve.mjs');
  writeFileSync(script, SCRIPT);
  const out = execFileSync(process.execPath, ['--no-warnings', script, archive, String(pullId)], {
    encoding: 'utf8',
  });
  return out.trimEnd().split('\n');
}

it('names every table of an archive, and none that is not there', () => {
  const folder = scratchFolder();
  const path = join(folder, 'a.gaugemark');
  const archive = openArchive(path);
  const pullId = keptPull(archive);
  const { specimenId } = archive.getPull(pullId);
  // Its table is made when it is first needed.
  archive.sets((connection, keeping) =>
    keepFirstStated(connection, { pullId, specimenId, values: [], methodVersion: '1' }, keeping),
  );
  archive.close();
  const database = new DatabaseSync(path, { readOnly: true });
  const tables = database
    .prepare("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")
    .all()
    .map(({ name }) => String(name));
  expect(database.prepare('PRAGMA application_id').get()).toEqual({ application_id: 0x474d524b });
  database.close();
  const rows = [...SECTION.matchAll(/^\| (`[^|]*?`) +\|/gm)];
  const named = rows.flatMap(([, cell = '']) => [...cell.matchAll(/`([a-z_…]+)`/g)].map(([, name]) => name));
  const isNamed = (table: string): boolean => named.includes(table) || table.startsWith('search_');
  expect(tables.filter((table) => !isNamed(table))).toEqual([]);
  expect(named.filter((name) => name !== 'search_…' && !tables.includes(name ?? ''))).toEqual([]);
});

it('gives a curve back from its blocks, digit by digit and at its times', () => {
  const folder = scratchFolder();
  const path = join(folder, 'a.gaugemark');
  const archive = openArchive(path);
  const [batches, perBatch] = [30, 50];
  const pullId = keptPull(archive, batches, perBatch);
  archive.close();
  // As `batchesOfLines` sends them.
  const wanted = Array.from({ length: batches * perBatch }, (_, i) => {
    const seconds = ((1_000 * i + (i % 3)) / 1e6).toFixed(6);
    const load = ((10 * i + (i % 7)) / 10).toFixed(1);
    const extension = ((3 * i + (i % 5)) / 1e4).toFixed(4);
    return `${String(i)},${seconds},0,${load},lbf,0,${extension},in,0`;
  });
  expect(written(folder, path, pullId)).toEqual(wanted);
});

it('gives back what is no plain number too: signs, blanks, other units, long numbers, several lines of one chunk', () => {
  type Told = readonly [text: string, value: ShownValue];
  const told = (
    text: string,
    mantissa: number | null,
    exponent: number,
    unit: ShownValue['unit'],
    more: Partial<ShownValue> = {},
  ): Told => [text, { mantissa, exponent, unit, status: 'ok', ...more }];
  const rows: { chunk: number; line: number; status: Reading['status']; channels: readonly Told[] }[] = [
    { chunk: 0, line: 0, status: 'ok', channels: [told('-0.05', -5, -2, 'lbf'), told('7', 7, 0, 'in')] },
    {
      chunk: 0,
      line: 1,
      status: 'overload',
      channels: [told('', null, 0, 'lbf', { status: 'overload' }), told('12.500', 12_500, -3, 'in')],
    },
    {
      chunk: 3,
      line: 2,
      status: 'unit-changed',
      channels: [told('1200', 12, 2, 'N'), told('', null, -3, 'in', { status: 'blank' })],
    },
    {
      chunk: 4,
      line: 0,
      status: 'ok',
      channels: [
        told('99999999999999999999999.5', 9_007_199_254_740_991, 7, 'N', {
          exact: '99999999999999999999999.5',
        }),
        told('-9007199254740991', -9_007_199_254_740_991, 0, 'in'),
      ],
    },
    {
      chunk: 4,
      line: 1,
      status: 'sequence-jump',
      channels: [told('0', 0, 0, 'N'), told('0.000', 0, -3, 'in')],
    },
  ];
  const times = [0, 250, 251, 1_000_000, 3_600_000_001];
  const folder = scratchFolder();
  const path = join(folder, 'a.gaugemark');
  const archive = openArchive(path);
  const pullId = archive.beginPull(newPull(archive.saveSpecimen({ specimen: SPECIMEN })));
  archive.appendBatch(
    batch(pullId, {
      chunks: times.map((elapsedUs, chunkSeq) => ({
        chunkSeq,
        opening: chunkSeq > 2 ? 2 : 0,
        elapsedUs,
        bytes: Buffer.from(`chunk ${String(chunkSeq)}`),
      })),
      readings: rows.map(({ chunk, line, status, channels }) => ({
        chunkSeq: chunk,
        lineIndex: line,
        status,
        channels: channels.map(([, value]) => value),
      })),
    }),
  );
  archive.closePull(batch(pullId, { firstSeq: rows.length }), END);
  archive.close();
  expect(written(folder, path, pullId)).toEqual(
    rows.map(({ chunk, status, channels }, i) =>
      [
        i,
        ((times[chunk] ?? Number.NaN) / 1e6).toFixed(6),
        READING_STATUSES.indexOf(status),
        ...channels.flatMap(([text, { unit, status: its }]) => [text, unit, CHANNEL_STATUSES.indexOf(its)]),
      ].join(','),
    ),
  );
});
