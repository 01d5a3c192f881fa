/**
 * The command line is killed with SIGKILL in mid merge, restore and export, at moments drawn at random once it has begun
 * (the seed is printed; GAUGEMARK_TEST_KILLS says how often). See `rows.ts`.
 */
import { closeSync, copyFileSync, existsSync, openSync, readFileSync, readSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { Archive } from '../../../core/archive/archive.ts';
import { SPECIMEN, keptPull } from '../../unit/archive/made-archive.ts';
import { scratch } from '../recorder-process.ts';
import { seededRandom } from '../recorder-random.ts';
import { gaugemark } from '../support/gaugemark-command.ts';

const SEED = Number(process.env['GAUGEMARK_TEST_SEED'] ?? Date.now() % 1_000_000);
const KILLS = Number(process.env['GAUGEMARK_TEST_KILLS'] ?? 1);
process.stderr.write(`killed-exchange: seed ${SEED}\n`);
const random = seededRandom(SEED);

const READING = { programVersion: 'test', wallMs: Date.now } as const;

/** Of a pull that takes a while to be copied or written. */
const READINGS = 12_000;

/** Pulls of so many readings each. */
function archiveOf(path: string, pulls: readonly number[]): void {
  const archive = new Archive(path, READING);
  for (const [index, readings] of pulls.entries())
    keptPull(
      archive,
      readings / 100,
      100,
      archive.saveSpecimen({ specimen: { ...SPECIMEN, id: `K-${String(index + 1)}` } }),
    );
  archive.close();
}

/** How many pulls it has, once it was found sound; opened as the next start does. */
function pullsOf(path: string): number {
  const archive = new Archive(path, READING);
  try {
    expect(archive.check({}).sound).toBe(true);
    return archive.info().pullCount;
  } finally {
    archive.close();
  }
}

/** Killed at most `laterMs` after it has begun to write. */
async function killed(
  args: readonly string[],
  { hasBegun, laterMs }: { readonly hasBegun: () => boolean; readonly laterMs: number },
): Promise<void> {
  const run = gaugemark(...args);
  const endMs = performance.now() + 60_000;
  // Looks again at once: what is killed here takes less than `until` waits between two looks.
  while (!hasBegun() && run.child.exitCode === null) {
    if (performance.now() > endMs) throw new Error(`It has not begun: ${run.err()}`);
    await pause(1);
  }
  await pause(random() * laterMs);
  run.child.kill('SIGKILL');
  await run.ended();
}

const whole = (...args: string[]): Promise<number | null> => gaugemark(...args).ended();

/** Written that far: a log has its room as zeros before it is written. */
function isWritten(path: string, at: number): boolean {
  try {
    const file = openSync(path, 'r');
    try {
      const piece = Buffer.alloc(4_096);
      return readSync(file, piece, 0, piece.length, at) > 0 && piece.some((byte) => byte !== 0);
    } finally {
      closeSync(file);
    }
  } catch {
    return false;
  }
}
/** What the opening itself writes is less, two pulls are more. */
const LOG_OF_FIRST_PULL = 100_000;
const partsIn = (folder: string): string[] => readdirSync(folder).filter((name) => name.includes('.part-'));

describe('D2, D6: the command line is killed', () => {
  it('in mid merge: the archive is whole with what was taken by then, the other is untouched, and the next merge takes the rest', async () => {
    const folder = scratch();
    const other = join(folder, 'other.gaugemark');
    const taken = Array.from({ length: 8 }, (_, index) => 1_000 + 100 * index);
    archiveOf(other, taken);
    const before = readFileSync(other);
    const [path, fresh] = [join(folder, 'a.gaugemark'), join(folder, 'fresh.gaugemark')];
    archiveOf(fresh, [500, 600]);
    const counts: number[] = [];
    for (let kill = 0; kill < KILLS; kill++) {
      copyFileSync(fresh, path);
      await killed(['archive', 'merge', other, '--archive', path, '--yes'], {
        hasBegun: () => isWritten(`${path}-wal`, LOG_OF_FIRST_PULL),
        laterMs: 100,
      });
      counts.push(pullsOf(path));
    }
    process.stderr.write(`killed-exchange: pulls after the killed merges: ${counts.join(', ')} of 2 to 10\n`);
    for (const count of counts) expect(count).toBeGreaterThanOrEqual(2);
    expect(await whole('archive', 'merge', other, '--archive', path, '--yes')).toBe(0);
    expect(pullsOf(path)).toBe(2 + taken.length);
    expect(readFileSync(other).equals(before)).toBe(true);
  });

  it('in mid restore: the archive or the backup stands in that place, whole, and no copy in part outlives the next restore', async () => {
    const folder = scratch();
    const [path, backup, fresh] = ['a', 'backup', 'fresh'].map((name) => join(folder, `${name}.gaugemark`));
    if (path === undefined || backup === undefined || fresh === undefined) throw new Error('no names');
    archiveOf(fresh, [500, 600, 700]);
    archiveOf(backup, [READINGS]);
    const before = readFileSync(backup);
    const asideIn = (): string[] =>
      readdirSync(folder).filter((name) => /before-restore-[^/]*Z(?:-\d+)?$/.test(name));
    const counts: number[] = [];
    for (let kill = 0; kill < KILLS; kill++) {
      copyFileSync(fresh, path);
      const aside = asideIn().length;
      await killed(['archive', 'restore', backup, '--archive', path, '--yes'], {
        hasBegun: () => partsIn(folder).length > 0 || asideIn().length > aside,
        laterMs: 300,
      });
      const count = pullsOf(path);
      // Where the backup stands now, what was there is whole beside it.
      if (count === 1) expect(asideIn().map((name) => pullsOf(join(folder, name)))).toContain(3);
      counts.push(count);
    }
    process.stderr.write(
      `killed-exchange: pulls after the killed restores: ${counts.join(', ')} (3 before, 1 after)\n`,
    );
    for (const count of counts) expect([1, 3]).toContain(count);
    expect(await whole('archive', 'restore', backup, '--archive', path, '--yes')).toBe(0);
    expect(pullsOf(path)).toBe(1);
    expect(partsIn(folder)).toEqual([]);
    expect(readFileSync(backup).equals(before)).toBe(true);
  });
});

describe('X3: the command line is killed', () => {
  it('in mid export: no file is there that is not whole, and what was begun goes with the next one', async () => {
    const folder = scratch();
    const path = join(folder, 'a.gaugemark');
    archiveOf(path, [READINGS]);
    const before = readFileSync(path);
    const order = (out: string): string[] => ['archive', 'export', '1', '--archive', path, '--out', out];
    const out = join(folder, 'curve.csv');
    let cut = 0;
    for (let kill = 0; kill < KILLS && !existsSync(out); kill++) {
      await killed(order(out), { hasBegun: () => partsIn(folder).length > 0, laterMs: 40 });
      if (!existsSync(out)) cut++;
    }
    process.stderr.write(`killed-exchange: ${String(cut)} exports were cut off\n`);
    const wasWhole = existsSync(out);
    const again = wasWhole ? join(folder, 'again.csv') : out;
    expect(await whole(...order(again))).toBe(0);
    const lines = readFileSync(again, 'utf8').trimEnd().split('\n');
    expect(lines.length).toBeGreaterThan(READINGS);
    if (wasWhole) expect(readFileSync(out).equals(readFileSync(again))).toBe(true);
    else expect(partsIn(folder)).toEqual([]);
    expect(readFileSync(path).equals(before)).toBe(true);
  });
});
