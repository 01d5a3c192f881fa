/** D12: a virus scanner or a sync tool holds the file. Linux has no such locks, so the system's answer is put in its place. */
import { mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { renameWhenFree } from '../../../core/archive/rename-when-free.ts';

const scratch = mkdtempSync(join(tmpdir(), 'gaugemark-rename-'));
afterAll(() => rmSync(scratch, { recursive: true }));

function twoFiles(): { from: string; to: string } {
  const [from, to] = [join(scratch, 'new'), join(scratch, 'kept')];
  writeFileSync(from, 'new');
  writeFileSync(to, 'before');
  return { from, to };
}

/** Renames only after it was refused so often. */
function heldFor(refusals: number, code: string): { rename: typeof renameSync; asked: () => number } {
  let asked = 0;
  return {
    asked: () => asked,
    rename: (from, to) => {
      if (asked++ < refusals) throw Object.assign(new Error(code), { code });
      renameSync(from, to);
    },
  };
}

describe('a rename', () => {
  it.each(['EBUSY', 'EPERM', 'EACCES'])(
    'is made again when somebody holds the file for a moment: %s (D12)',
    (code) => {
      const { from, to } = twoFiles();
      renameWhenFree(from, to, heldFor(2, code).rename);
      expect(readFileSync(to, 'utf8')).toBe('new');
    },
  );

  it('is given up after a few tries; both files are as they were (D12)', () => {
    const { from, to } = twoFiles();
    const held = heldFor(Infinity, 'EBUSY');
    expect(() => renameWhenFree(from, to, held.rename)).toThrow('EBUSY');
    expect(held.asked()).toBe(5);
    expect([readFileSync(from, 'utf8'), readFileSync(to, 'utf8')]).toEqual(['new', 'before']);
  });

  it('is not made again where waiting does not help', () => {
    const { from, to } = twoFiles();
    const full = heldFor(1, 'ENOSPC');
    expect(() => renameWhenFree(from, to, full.rename)).toThrow('ENOSPC');
    expect(full.asked()).toBe(1);
  });
});
