/** What the engine has made of a bundle is kept for the next start, and never used for anything else. */
import { mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { readCompiled } from '../../../electron/main/read-compiled.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'compiled-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

const KEPT = 'kept';
/** Of one length whatever it says: the engine itself would take the one for the other. */
function writeBundle(word: 'north' | 'south'): string {
  const path = join(folder, 'part.cjs');
  writeFileSync(
    path,
    `const { basename } = require('node:path');\nexports.word = () => basename('/x/${word}');\nexports.place = __filename;\n`,
  );
  return path;
}
const said = (exports: unknown): string => (exports as { word: () => string }).word();
const keptFiles = (): string[] => readdirSync(join(folder, KEPT));

test('a bundle runs as when it is required, and says the same from what was kept', () => {
  const path = writeBundle('north');
  const first = readCompiled(path, join(folder, KEPT));
  expect(said(first.exports)).toBe('north');
  expect((first.exports as { place: string }).place).toBe(path);
  first.keep();
  expect(keptFiles()).toHaveLength(1);

  const next = readCompiled(path, join(folder, KEPT));
  expect(said(next.exports)).toBe('north');
  // It was used: there is nothing to be kept anew.
  rmSync(join(folder, KEPT), { recursive: true });
  next.keep();
  expect(readdirSync(folder)).not.toContain(KEPT);
});

test('what was kept of another bundle of the same length is not used, and makes room', () => {
  readCompiled(writeBundle('north'), join(folder, KEPT)).keep();
  const [before] = keptFiles();
  const changed = readCompiled(writeBundle('south'), join(folder, KEPT));
  expect(said(changed.exports)).toBe('south');
  changed.keep();
  expect(keptFiles()).toHaveLength(1);
  expect(keptFiles()[0]).not.toBe(before);
});

test.each([
  ['cut short', (bytes: Buffer) => bytes.subarray(0, bytes.length >> 1)],
  ['empty', () => Buffer.alloc(0)],
  [
    'with one bit changed',
    (bytes: Buffer) => {
      const changed = Buffer.from(bytes);
      changed.writeUInt8(changed.readUInt8(changed.length - 9) ^ 1, changed.length - 9);
      return changed;
    },
  ],
])('a kept file that is %s is not used and is written anew', (_how, damage) => {
  const path = writeBundle('north');
  readCompiled(path, join(folder, KEPT)).keep();
  const place = join(folder, KEPT, keptFiles()[0] ?? '');
  writeFileSync(place, damage(readFileSync(place)));
  const damaged = readFileSync(place);
  const next = readCompiled(path, join(folder, KEPT));
  expect(said(next.exports)).toBe('north');
  next.keep();
  expect(readFileSync(place).equals(damaged)).toBe(false);
  expect(statSync(place).size).toBeGreaterThan(100);
});

test('where nothing can be written the bundle runs all the same', () => {
  const path = writeBundle('north');
  // A file where the folder would be.
  writeFileSync(join(folder, KEPT), '');
  const part = readCompiled(path, join(folder, KEPT));
  part.keep();
  expect(said(part.exports)).toBe('north');
  expect(readFileSync(join(folder, KEPT), 'utf8')).toBe('');
});
