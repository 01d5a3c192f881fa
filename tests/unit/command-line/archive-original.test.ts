/** `gaugemark archive export ID --form original`: the file that was imported, byte for byte. */
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { openArchive } from '../archive/made-archive.ts';
import { folderOfFiles, ran } from './in-process.ts';

it('is written as it came, under the name that is given and no other, or not at all', async () => {
  const file = folderOfFiles();
  const specimen = file(
    'V-1.json',
    JSON.stringify({ id: 'V-1', geometry: { kind: 'flat', width: '20 mm', thickness: '5 mm' } }),
  );
  const archive = join(dirname(specimen), 'a.gaugemark');
  const at = ['--archive', archive] as const;
  const text = [
    'time_s,force_N',
    ...Array.from({ length: 300 }, (_, i) => `${i / 10},${i < 250 ? i * 60 : 9}`),
  ];
  // What a text editor would change: a mark of the order of bytes, UTF-16, ends of lines, blanks at the end.
  const bytes = Buffer.concat([
    Buffer.from([0xff, 0xfe]),
    Buffer.from(`${text.join('\r\n')}\r\n  \r\n`, 'utf16le'),
  ]);
  const imported = await ran(
    'archive',
    'import',
    file('the curve.txt', bytes),
    '--specimen',
    specimen,
    ...at,
  );
  expect(imported.code, imported.err).toBe(0);
  const typed = await ran('pull', '--typed', '--load', '35 kN', '--specimen', specimen, ...at);
  expect(typed.code, typed.err).toBe(0);

  const out = join(dirname(specimen), 'again.dat');
  const write = (id: string, to = out) =>
    ran('archive', 'export', id, '--form', 'original', '--out', to, ...at);
  const written = await write('1');
  expect(written.code, written.err).toBe(0);
  expect(written.out).toContain(`${String(bytes.length)} bytes written`);
  // The same hash as sha256sum prints: FIPS 180-4.
  expect(written.err).toContain(createHash('sha256').update(bytes).digest('hex'));
  expect(readFileSync(out).equals(bytes)).toBe(true);
  const twice = await write('1');
  expect([twice.code, twice.err]).toEqual([2, expect.stringContaining('exists already')]);
  const none = await write('2', join(dirname(out), 'typed.csv'));
  expect([none.code, none.err]).toEqual([2, expect.stringContaining('imported from no file')]);

  // Bytes that are no longer what the hash says.
  const opened = openArchive(archive);
  for (const name of opened.connection
    .prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = 'pull_end'")
    .pluck()
    .all())
    opened.connection.exec(`DROP TRIGGER ${String(name)}`);
  opened.connection.exec('UPDATE pull_end SET raw_sha256 = zeroblob(32) WHERE pull_id = 1');
  opened.close();
  const wrong = join(dirname(out), 'wrong.dat');
  const damaged = await write('1', wrong);
  expect([damaged.code, damaged.err]).toEqual([1, expect.stringContaining('no longer those')]);
  expect(existsSync(wrong)).toBe(false);
  expect(readdirSync(dirname(out)).filter((name) => name.includes('wrong'))).toEqual([]);
});
