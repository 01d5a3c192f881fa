/** What the archive keeps, and that it keeps it: append-only, in order, to the bit, with a chain over its statements. */
import { createHash } from 'node:crypto';
import { readdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { ArchiveFault, ArchiveRefusal } from '../../../core/archive/archive-fault.ts';
import type { Archive } from '../../../core/archive/archive.ts';
import { copyInSteps, keepCopy } from '../../../core/archive/backup-in-steps.ts';
import { partNameOf } from '../../../core/archive/left-parts.ts';
import { TableCounts, countedRows } from '../../../core/archive/table-counts.ts';
import { voidPull } from '../../../core/archive/void-store.ts';
import { listPulls } from '../../../core/archive/pull-reader.ts';
import type { Reading } from '../../../core/contract/reading.ts';
import { readoutProfile } from '../../../core/contract/readout-profile.ts';
import { reparse } from '../../../electron/recorder/reparse.ts';
import {
  END,
  PROFILE,
  SPECIMEN,
  WALL_MS,
  batch,
  batchesOfLines,
  keptPull,
  newPull,
  openArchive,
  scratchFolder,
} from './made-archive.ts';

const archiveHere = (): Archive => openArchive(join(scratchFolder(), 'a.gaugemark'));

function refusalOf(work: () => unknown): ArchiveRefusal {
  try {
    work();
  } catch (error) {
    if (error instanceof ArchiveRefusal) return error;
    throw error;
  }
  throw new Error('it was not refused');
}

describe('a specimen', () => {
  it('comes back as it was typed, with each measurement as a row of its own', () => {
    const archive = archiveHere();
    const specimenId = archive.saveSpecimen({ specimen: SPECIMEN, by: 'the welder' });
    expect(archive.getSpecimen(specimenId)).toMatchObject({
      specimen: SPECIMEN,
      by: 'the welder',
      supersedes: null,
    });
    expect(
      archive.connection.prepare('SELECT field, place, text FROM measurement ORDER BY field, place').all(),
    ).toEqual([
      { field: 'gaugeLength', place: 0, text: '50 mm' },
      { field: 'geometry.thickness', place: 0, text: '6.3 mm' },
      { field: 'geometry.width', place: 0, text: '19.05 mm' },
      { field: 'geometry.width', place: 1, text: '3/4 in' },
    ]);
  });

  it('is corrected by a new one that names it and says why; the old one stays and is no longer listed', () => {
    const archive = archiveHere();
    const first = archive.saveSpecimen({ specimen: SPECIMEN });
    const corrected = { ...SPECIMEN, gaugeLength: '2 in' };
    expect(refusalOf(() => archive.saveSpecimen({ specimen: corrected, supersedes: first })).field).toBe(
      'reason',
    );
    const second = archive.saveSpecimen({ specimen: corrected, supersedes: first, reason: 'wrong ruler' });
    expect(archive.getSpecimen(first)).toMatchObject({ specimen: SPECIMEN, supersededBy: second });
    expect(archive.listSpecimens({ limit: 10 }).items.map((s) => s.specimenId)).toEqual([second]);
    expect(
      refusalOf(() => archive.saveSpecimen({ specimen: corrected, supersedes: first, reason: 'again' })).code,
    ).toBe('already-superseded');
  });

  it('is listed with how often it was pulled, in any of its corrections, and what of that is void', () => {
    const archive = archiveHere();
    const first = archive.saveSpecimen({ specimen: SPECIMEN });
    const counts = () => archive.listSpecimens({ limit: 10 }).items.map((s) => [s.pulls, s.voidPulls]);
    expect(counts()).toEqual([[0, 0]]);
    const pullId = archive.beginPull(newPull(first));
    archive.closePull(batch(pullId), END);
    archive.closePull(batch(archive.beginPull(newPull(first))), END);
    archive.saveSpecimen({ specimen: SPECIMEN, supersedes: first, reason: 'wrong ruler' });
    archive.saveSpecimen({ specimen: { ...SPECIMEN, id: 'another' } });
    expect(counts()).toEqual([
      [0, 0],
      [2, 0],
    ]);
    archive.sets((connection) =>
      voidPull(connection, { pullId, reason: 'slipped in the grips', utcOffsetMinutes: 0 }, WALL_MS),
    );
    expect(counts()).toEqual([
      [0, 0],
      [1, 1],
    ]);
  });

  it('is refused with the field that is wrong', () => {
    const archive = archiveHere();
    const wrong = { ...SPECIMEN, geometry: { kind: 'flat', width: '0 mm', thickness: '6 mm' } } as const;
    expect(refusalOf(() => archive.saveSpecimen({ specimen: wrong })).field).toBe('specimen.geometry.width');
  });

  it('is found by any part of its name, signs of the search taken as they are', () => {
    const archive = archiveHere();
    for (const id of ['100% weld', '100 weld', 'A_1', 'AB1'])
      archive.saveSpecimen({ specimen: { ...SPECIMEN, id } });
    const found = (search: string): string[] =>
      archive.listSpecimens({ limit: 10, search }).items.map((s) => s.specimen.id);
    expect([found('0%'), found('A_'), found('WELD')]).toEqual([
      ['100% weld'],
      ['A_1'],
      ['100 weld', '100% weld'],
    ]);
  });
});

describe('a pull', () => {
  it('gives back the same readings to the bit while open, closed, and after the archive was opened again', () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    const archive = openArchive(path);
    const pullId = archive.beginPull(newPull(archive.saveSpecimen({ specimen: SPECIMEN })));
    for (const its of batchesOfLines(pullId, 7, 30)) archive.appendBatch(its);
    const request = { pullId, fromSeq: 0, count: 1000, shown: true };
    const open = archive.readColumns(request);
    archive.closePull(batch(pullId, { firstSeq: 210 }), END);
    expect(archive.readColumns(request)).toEqual(open);
    archive.close();
    const again = openArchive(path);
    expect(again.readColumns(request)).toEqual(open);
    // 1 lbf = 4.448 221 615 260 5 N, 1 in = 25.4 mm exactly (NIST SP 811).
    const seq = 123;
    const [force, extension] = open.columns.channels;
    expect(force?.value[seq]).toBe(((10 * seq + (seq % 7)) * 4.4482216152605) / 10);
    expect(extension?.value[seq]).toBeCloseTo(((3 * seq + (seq % 5)) * 25.4) / 1e4, 12);
    expect(force?.shown?.mantissa[seq]).toBe(1234);
    expect(again.readColumns({ ...request, fromSeq: 50, count: 3 }).columns.channels[0]?.value).toEqual(
      force?.value.slice(50, 53),
    );
  });

  it('gives the same values and statuses without the decimals as with them, from any reading on, whatever the lines showed', () => {
    const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
    const pullId = archive.beginPull(newPull(archive.saveSpecimen({ specimen: SPECIMEN })));
    for (const its of batchesOfLines(pullId, 4, 10))
      archive.appendBatch({
        ...its,
        readings: its.readings.map((one, i) => ({
          ...one,
          status: i === 3 ? ('unit-changed' as const) : one.status,
          channels: one.channels.map((shown) => ({
            ...shown,
            ...(i === 3 ? { unit: 'kN' as const } : {}),
            ...(i === 5 ? { mantissa: null, status: 'blank' as const } : {}),
            ...(i === 6 ? { status: 'out-of-range' as const } : {}),
            ...(i === 7 ? { exponent: shown.exponent - 1 } : {}),
          })),
        })),
      });
    for (const [fromSeq, count] of [
      [0, 40],
      [13, 15],
      [38, 10],
      [60, 5],
    ] as const) {
      const asked = { pullId, fromSeq, count };
      const { total, columns } = archive.readColumns({ ...asked, shown: true });
      const channels = columns.channels.map(({ key, quantity, coreUnit, value, status }) => ({
        key,
        quantity,
        coreUnit,
        value,
        status,
      }));
      expect(archive.readColumns({ ...asked, shown: false })).toEqual({
        total,
        columns: { ...columns, channels },
      });
    }
  });

  it('keeps its raw bytes in order, and they give the same readings again', () => {
    const archive = archiveHere();
    const pullId = keptPull(archive, 4, 25);
    const text = [...batchesOfLines(pullId, 4, 25)].flatMap((b) => b.chunks.map((c) => Buffer.from(c.bytes)));
    const { total, chunks } = archive.readRaw(pullId, 0, 1000);
    expect(total).toBe(100);
    expect(Buffer.concat(chunks.map((c) => c.bytes)).equals(Buffer.concat(text))).toBe(true);
    expect(archive.check({ reparse }).lines.at(-1)).toMatchObject({
      ok: true,
      name: `pull ${pullId}, parsed again`,
    });
  });

  it('refuses a batch that would leave a hole', () => {
    const archive = archiveHere();
    const pullId = archive.beginPull(newPull(archive.saveSpecimen({ specimen: SPECIMEN })));
    const [first, , third] = [...batchesOfLines(pullId, 3, 5)];
    if (first === undefined || third === undefined) throw new Error('there are three batches');
    archive.appendBatch(first);
    expect(() => archive.appendBatch(third)).toThrow('came where 5 was due');
    expect(() => archive.appendBatch(first)).toThrow(RangeError);
    expect(archive.readRaw(pullId, 0, 100).total).toBe(5);
  });

  it('is one at a time', () => {
    const archive = archiveHere();
    const specimenId = archive.saveSpecimen({ specimen: SPECIMEN });
    const pullId = archive.beginPull(newPull(specimenId));
    expect(archive.openPullId()).toBe(pullId);
    expect(refusalOf(() => archive.beginPull(newPull(specimenId))).code).toBe('pull-open');
    archive.closePull(batch(pullId), END);
    expect(archive.openPullId()).toBeNull();
  });

  it('keeps marks, gaps, acts and zeros with their times', () => {
    const archive = archiveHere();
    const pullId = archive.beginPull(newPull(archive.saveSpecimen({ specimen: SPECIMEN })));
    archive.appendBatch(
      batch(pullId, {
        marks: [{ kind: 'trigger', seq: 4, elapsedUs: 40, cause: 'person', words: 'started by hand' }],
        gaps: [{ cause: 'silence', beforeSeq: 9, fromUs: 90, toUs: null, words: 'no reading for 2 s' }],
        acts: [{ kind: 'start', elapsedUs: 40, wallMs: 7, by: 'the welder', words: 'pressed start' }],
        zeros: [{ key: 'load', value: '-1113/500', seq: 0 }],
      }),
    );
    archive.appendBatch(batch(pullId, { gapEndedUs: 99 }));
    archive.closePull(batch(pullId), END);
    expect(archive.getPull(pullId)).toMatchObject({
      state: 'ended',
      triggerSeq: 4,
      zeros: { load: -2.226 },
      gaps: [{ cause: 'silence', fromElapsedUs: 90, toElapsedUs: 99 }],
      acts: [{ kind: 'start', by: 'the welder' }],
    });
  });

  it('takes at most half of the raw text for raw bytes and readings together, once closed', () => {
    const archive = archiveHere();
    keptPull(archive, 50, 100);
    const size = archive.connection
      .prepare(
        `SELECT (SELECT sum(byte_count) FROM raw_block) AS text,
           (SELECT sum(length(body) + length(chunk_table)) FROM raw_block) AS raw,
           (SELECT sum(length(body)) FROM reading_block) AS readings`,
      )
      .get() as { text: number; raw: number; readings: number };
    expect(size.readings / 5000).toBeLessThan(3.2);
    expect((size.raw + size.readings) / size.text).toBeLessThan(0.5);
  });
});

describe('the curve of a pull', () => {
  it('has the same values as its columns, and its time from the arrival of the lines', () => {
    const archive = archiveHere();
    const pullId = keptPull(archive, 6, 30);
    const { curve, timeFrom } = archive.curve(pullId);
    const { columns } = archive.readColumns({ pullId, fromSeq: 0, count: 1000, shown: false });
    expect(timeFrom).toBe('arrival');
    expect(curve.timeS).toEqual(columns.elapsedUs.map((us) => us / 1e6));
    expect([curve.forceN, curve.extensionMm]).toEqual(columns.channels.map((channel) => channel.value));
  });

  it('has its time from the readout where every line carries it, so that bursts do not bunch the readings', () => {
    const archive = archiveHere();
    const profile = readoutProfile.parse({
      ...PROFILE,
      format: { kind: 'delimited', delimiter: ',', fields: ['clock', 'load'] },
      channels: [
        { field: 'clock', quantity: 'time', unit: { kind: 'fixed', unit: 'ms' } },
        { field: 'load', quantity: 'force', unit: { kind: 'fixed', unit: 'N' } },
      ],
    });
    const pullId = archive.beginPull(newPull(archive.saveSpecimen({ specimen: SPECIMEN }), { profile }));
    const readings = [2000, 2020, 2040].map((clock, lineIndex): Reading => ({
      chunkSeq: 0,
      lineIndex,
      status: 'ok',
      channels: [
        { mantissa: clock, exponent: 0, unit: 'ms', status: 'ok' },
        { mantissa: 5, exponent: 0, unit: 'N', status: 'ok' },
      ],
    }));
    // All three came in one burst: one chunk, one time of arrival.
    const bytes = Buffer.from('2000,5\r\n2020,5\r\n2040,5\r\n');
    archive.appendBatch(
      batch(pullId, { chunks: [{ chunkSeq: 0, opening: 0, elapsedUs: 77, bytes }], readings }),
    );
    const { curve, timeFrom } = archive.curve(pullId);
    expect([timeFrom, [...(curve.timeS ?? [])]]).toEqual(['readout', [0, 0.02, 0.04]]);
  });
});

describe('what is kept', () => {
  it('is never changed nor deleted: the database itself refuses', () => {
    const archive = archiveHere();
    const pullId = keptPull(archive);
    const attempts = [
      "UPDATE specimen SET name = 'x'",
      'DELETE FROM mark',
      'UPDATE pull_end SET reading_count = 1',
      'DELETE FROM reading_block',
      'UPDATE raw_block SET byte_count = 0',
      'DELETE FROM audit',
      `INSERT INTO reading_block SELECT pull_id, 9999, reading_count, first_chunk, last_chunk, packing, body FROM reading_block LIMIT 1`,
    ];
    for (const sql of attempts)
      expect(() => archive.connection.exec(sql), sql).toThrow(/never|nothing is added/);
    expect(archive.check({ pullId }).sound).toBe(true);
  });

  it('stands in columns that take nothing but their kind: no text where a number belongs, no number made of one (N6)', () => {
    const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
    const loose = archive.connection
      .prepare(
        "SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND strict = 0 AND name NOT LIKE 'sqlite_%' AND name NOT LIKE 'search%'",
      )
      .pluck()
      .all();
    expect(loose).toEqual([]);
    const pullId = keptPull(archive);
    expect(() =>
      archive.connection
        .prepare('INSERT INTO zero (pull_id, channel_key, value, seq) VALUES (?, ?, ?, ?)')
        .run(pullId, 'load', '0', 'soon'),
    ).toThrow(/INTEGER/);
  });

  it('shows every tampering that goes round the program', () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    const archive = openArchive(path);
    keptPull(archive);
    archive.close();
    const tampered = (sql: string): string[] => {
      const copy = join(scratchFolder(), 'a.gaugemark');
      const original = new Database(path);
      original.prepare('VACUUM INTO ?').run(copy);
      original.close();
      const database = new Database(copy);
      for (const { name } of database
        .prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger'")
        .all() as {
        name: string;
      }[])
        database.exec(`DROP TRIGGER ${name}`);
      database.exec(sql);
      database.close();
      return openArchive(copy)
        .check({ reparse })
        .lines.filter((line) => !line.ok)
        .map((line) => line.name);
    };
    expect(tampered('SELECT 1')).toEqual([]);
    expect(
      tampered("UPDATE audit SET detail_json = replace(detail_json, 'T-1', 'T-2') WHERE audit_id = 2"),
    ).toEqual(['audit chain']);
    expect(tampered('DELETE FROM audit WHERE audit_id = 3')).toEqual(['audit chain', 'statements']);
    expect(tampered("UPDATE raw_block SET body = x'0000'")).toContain('pull 1');
    expect(tampered('DELETE FROM reading_block WHERE first_seq = 0')).toEqual([
      'pull 1, as closed',
      'pull 1, parsed again',
    ]);
  });

  it('finds readings that the raw bytes do not give', () => {
    const archive = archiveHere();
    const pullId = archive.beginPull(newPull(archive.saveSpecimen({ specimen: SPECIMEN })));
    const bytes = Buffer.from('10.0,0.0001\r\n');
    const invented: Reading = {
      chunkSeq: 0,
      lineIndex: 0,
      status: 'ok',
      channels: [
        { mantissa: 101, exponent: -1, unit: 'lbf', status: 'ok' },
        { mantissa: 1, exponent: -4, unit: 'in', status: 'ok' },
      ],
    };
    archive.appendBatch(
      batch(pullId, { chunks: [{ chunkSeq: 0, opening: 0, elapsedUs: 0, bytes }], readings: [invented] }),
    );
    expect(archive.check({ reparse }).lines.at(-1)).toMatchObject({
      ok: false,
      name: 'pull 1, parsed again',
    });
    expect(
      [...reparse(PROFILE, [{ chunkSeq: 0, opening: 0, elapsedUs: 0, bytes }])][0]?.channels[0]?.mantissa,
    ).toBe(100);
  });
});

describe('a fracture note', () => {
  it('is kept as seen; a second one must name the first and say why', () => {
    const archive = archiveHere();
    const pullId = keptPull(archive);
    const note = { place: 'base-metal', appearance: 'cup and cone' } as const;
    const first = archive.noteFracture({ pullId, note, by: 'the welder' });
    expect(refusalOf(() => archive.noteFracture({ pullId, note })).code).toBe('not-the-newest-note');
    expect(refusalOf(() => archive.noteFracture({ pullId, note, supersedes: first })).code).toBe(
      'reason-missing',
    );
    archive.noteFracture({ pullId, note: { place: 'fusion-line' }, supersedes: first, reason: 'etched' });
    expect(archive.getPull(pullId).fractureNotes.map((n) => [n.note.place, n.supersedes])).toEqual([
      ['base-metal', null],
      ['fusion-line', first],
    ]);
  });
});

describe('a check', () => {
  it('tells how many pulls it has come to, and is ended by whoever stops it', () => {
    const archive = archiveHere();
    for (let i = 0; i < 3; i++) keptPull(archive, 20, 20);
    const steps: [done: number, of: number][] = [];
    archive.check({ reparse, onStep: (...step) => steps.push(step) });
    expect(steps).toEqual([
      [0, 3],
      [1, 3],
      [2, 3],
    ]);
    const stopped = new ArchiveRefusal('stopped', 'stopped');
    const cutShort = (): unknown =>
      archive.check({
        onStep: (done) => {
          if (done === 1) throw stopped;
        },
      });
    expect(cutShort).toThrow(stopped);
  });
});

describe('a backup', () => {
  it('is a whole archive, also of what is still in the log (D6)', async () => {
    const archive = archiveHere();
    const pullId = keptPull(archive, 20, 20);
    const to = join(scratchFolder(), 'copy.gaugemark');
    keepCopy(to, await copyInSteps(archive.connection, to));
    expect(readdirSync(dirname(to))).toEqual(['copy.gaugemark']);
    const copy = openArchive(to);
    expect(copy.getPull(pullId)).toEqual(archive.getPull(pullId));
    expect(copy.check({ reparse }).sound).toBe(true);
  });

  it('holds what was kept while it was copied, and is the archive of its last moment', async () => {
    const archive = archiveHere();
    // Enough for several steps.
    for (let i = 0; i < 12; i++) keptPull(archive, 60, 60);
    const to = join(scratchFolder(), 'copy.gaugemark');
    const copying = copyInSteps(archive.connection, to);
    await new Promise(setImmediate);
    const meanwhile = keptPull(archive, 20, 20);
    const counts = await copying;
    const afterwards = keptPull(archive, 20, 20);
    keepCopy(to, counts);
    const copy = openArchive(to);
    expect(copy.getPull(meanwhile)).toEqual(archive.getPull(meanwhile));
    expect(() => copy.getPull(afterwards)).toThrow(ArchiveRefusal);
    expect(copy.check({ reparse }).sound).toBe(true);
  });

  it.each([
    ['a mark in the middle', 'mark', 'mark_id = 2'],
    ['a block in the middle', 'reading_block', 'rowid = 2'],
    ['the newest entry of the audit chain', 'audit', 'audit_id = (SELECT max(audit_id) FROM audit)'],
    ['one of the first specimen', 'measurement', "specimen_id = 1 AND place = 0 AND field = 'gaugeLength'"],
    ['an end of a pull', 'pull_end', 'pull_id = 1'],
  ])('is not kept where the copy lacks %s', async (_what, table, where) => {
    const archive = archiveHere();
    for (let i = 0; i < 3; i++) keptPull(archive, 20, 20);
    const to = join(scratchFolder(), 'copy.gaugemark');
    const counts = await copyInSteps(archive.connection, to);
    const copy = new Database(partNameOf(to));
    copy.pragma('foreign_keys = OFF');
    for (const name of copy
      .prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = ?")
      .pluck()
      .all(table))
      copy.exec(`DROP TRIGGER ${String(name)}`);
    expect(copy.prepare(`DELETE FROM ${table} WHERE ${where}`).run().changes).toBe(1);
    copy.close();
    expect(() => keepCopy(to, counts)).toThrow(/does not agree/);
    expect(readdirSync(dirname(to))).toEqual([]);
  });

  it('is compared by every row of that moment, whatever is recorded and closed while they are counted', () => {
    const archive = archiveHere();
    for (let i = 0; i < 3; i++) keptPull(archive, 20, 20);
    const pullId = archive.beginPull(newPull(archive.saveSpecimen({ specimen: SPECIMEN })));
    const batches = batchesOfLines(pullId, 60, 30);
    const record = (most: number): void => {
      for (let i = 0; i < most; i++) {
        const next = batches.next();
        if (next.done !== true) archive.appendBatch(next.value);
      }
    };
    record(20);
    const counts = new TableCounts(archive.connection);
    let step = 0;
    for (const ahead = counts.countAhead(); ahead.next().done !== true;) {
      step++;
      record(1);
      if (step === 3) archive.noteFracture({ pullId: 2, note: { place: 'base-metal' } });
      // The many blocks of the open record become few.
      if (step === 6) {
        record(60);
        archive.closePull(batch(pullId, { firstSeq: 1_800 }), END);
        archive.sets((connection) =>
          voidPull(connection, { pullId: 1, reason: 'slipped', utcOffsetMinutes: 0 }, WALL_MS),
        );
      }
      if (step === 7) keptPull(archive, 5, 5);
    }
    expect(step).toBeGreaterThan(7);
    expect(counts.now()).toEqual(countedRows(archive.connection));
    expect(counts.now().find(({ table }) => table === 'pull_void')?.rows).toBe(1);
  });

  it('tells how far it is, and leaves nothing behind where it is stopped', async () => {
    const archive = archiveHere();
    for (let i = 0; i < 12; i++) keptPull(archive, 60, 60);
    const to = join(scratchFolder(), 'copy.gaugemark');
    const steps: [pages: number, ofPages: number][] = [];
    const stopped = new ArchiveRefusal('stopped', 'stopped');
    const copying = copyInSteps(archive.connection, to, (...step) => {
      if (steps.push(step) === 2) throw stopped;
    });
    await expect(copying).rejects.toBe(stopped);
    const [first, second] = steps;
    expect(second?.[0]).toBeGreaterThan(first?.[0] ?? Infinity);
    expect(second?.[1]).toBeGreaterThan(second?.[0] ?? Infinity);
    expect(readdirSync(dirname(to))).toEqual([]);
    keepCopy(to, await copyInSteps(archive.connection, to));
    expect(openArchive(to).check({ reparse }).sound).toBe(true);
  });

  it('never writes over a file, and leaves nothing behind when it fails', async () => {
    const archive = archiveHere();
    const folder = scratchFolder();
    writeFileSync(join(folder, 'there'), 'mine');
    await expect(copyInSteps(archive.connection, join(folder, 'there'))).rejects.toMatchObject({
      code: 'file-exists',
    });
    await expect(copyInSteps(archive.connection, join(folder, 'missing', 'b'))).rejects.toThrow(ArchiveFault);
    expect(readdirSync(folder)).toEqual(['there']);
  });
});

it('lists pulls newest first, page by page', () => {
  const archive = archiveHere();
  const ids = [keptPull(archive, 1, 3), keptPull(archive, 1, 3), keptPull(archive, 1, 3)];
  const first = archive.listPulls({ limit: 2 });
  expect(first.items.map((p) => p.pullId)).toEqual([ids[2], ids[1]]);
  expect(archive.listPulls({ limit: 2, cursor: first.nextCursor ?? 0 }).items.map((p) => p.pullId)).toEqual([
    ids[0],
  ]);
});

it('looks for a text a stretch at a time, and goes on where a page holds fewer than were asked for', () => {
  const archive = archiveHere();
  const ids = Array.from({ length: 7 }, () => keptPull(archive, 1, 3));
  archive.connection.exec(
    `INSERT INTO specimen (specimen_id, name, form_json, saved_wall_ms, program_version)
       SELECT 900, 'rare 50%', form_json, saved_wall_ms, program_version FROM specimen LIMIT 1;
     DROP TRIGGER pull_is_not_changed;
     UPDATE pull SET specimen_id = 900 WHERE pull_id IN (${String(ids[0])}, ${String(ids[5])})`,
  );
  const pages: number[][] = [];
  let cursor: number | null = null;
  do {
    const page: ReturnType<typeof listPulls> = listPulls(
      archive.connection,
      { limit: 5, search: '50%', ...(cursor === null ? {} : { cursor }) },
      3,
    );
    pages.push(page.items.map((one) => one.pullId));
    cursor = page.nextCursor;
  } while (cursor !== null);
  expect(pages).toEqual([[ids[5]], [], [ids[0]]]);
});

it('chains its statements by SHA-256 as told: previous hash, then the row as JSON', () => {
  const archive = archiveHere();
  archive.saveSpecimen({ specimen: SPECIMEN });
  const rows = archive.connection.prepare('SELECT * FROM audit ORDER BY audit_id').all() as {
    wall_ms: number;
    what: string;
    subject: string;
    subject_id: number;
    detail_json: string;
    previous_hash: Buffer;
    hash: Buffer;
  }[];
  let previous = Buffer.alloc(32);
  for (const row of rows) {
    const text = JSON.stringify([row.wall_ms, row.what, row.subject, row.subject_id, row.detail_json]);
    previous = createHash('sha256').update(previous).update(text).digest();
    expect(row.hash.equals(previous)).toBe(true);
  }
  expect(rows.length).toBe(2);
});
