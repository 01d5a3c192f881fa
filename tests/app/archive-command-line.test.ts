/** `gaugemark archive` on files that must not be changed, as real processes and in this one: foreign, empty, without permission to write. */
import { type ChildProcess, spawn } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import { runCommandLine } from '../../electron/command-line/main.ts';
import { keptPull, openArchive } from '../unit/archive/made-archive.ts';
import { scratch } from './recorder-process.ts';
import { COMMAND_LINE_PROGRAM } from './support/command-line-program.ts';
import { fill, smallDisk } from './support/small-disk.ts';
import { until } from './support/until.ts';

const PULL = ['pull', '--simulated', 'mild-steel-yield-point', '--pace', '50', '--tail', '0.5'];
/** User and group "nobody". */
const NOBODY = 65_534;

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs a command to its end; `asStranger`: as a user to whom nothing of the archive belongs. */
async function gaugemark(
  args: readonly string[],
  { asStranger = false, temporary }: { asStranger?: boolean; temporary?: string } = {},
): Promise<Ended> {
  const isRoot = process.getuid?.() === 0;
  const child: ChildProcess = spawn(process.execPath, [COMMAND_LINE_PROGRAM, ...args], {
    stdio: ['ignore', 'pipe', 'pipe'],
    ...(asStranger && isRoot ? { uid: NOBODY, gid: NOBODY } : {}),
    ...(temporary === undefined
      ? {}
      : { env: { ...process.env, TMPDIR: temporary, HOME: temporary, XDG_RUNTIME_DIR: temporary } }),
  });
  const written = { out: '', err: '' };
  child.stdout?.on('data', (bytes: Buffer) => (written.out += bytes.toString()));
  child.stderr?.on('data', (bytes: Buffer) => (written.err += bytes.toString()));
  let closed = false;
  child.once('close', () => {
    closed = true;
  });
  onTestFinished(() => void child.kill('SIGKILL'));
  await until(() => closed, 'the command ends');
  return { code: child.exitCode, ...written };
}

/** Runs a command in this process, which is faster where nothing but its answer and its traces are looked at. */
async function answered(args: readonly string[]): Promise<Ended> {
  const out: string[] = [];
  const err: string[] = [];
  const code = await runCommandLine(args, {
    out: (text) => void out.push(text),
    err: (text) => void err.push(text),
  });
  return { code, out: out.join('\n'), err: err.join('\n') };
}

/** Every file of a folder with its bytes and date. */
function traces(folder: string): string[] {
  return readdirSync(folder).map((name) => {
    const path = join(folder, name);
    return `${name} ${statSync(path, { bigint: true }).mtimeNs} ${readFileSync(path, 'latin1')}`;
  });
}

function archiveWithPull(folder: string): string {
  const path = join(folder, 'a.gaugemark');
  const archive = openArchive(path);
  keptPull(archive);
  archive.close();
  return path;
}

const readingVerbs = (path: string, outFolder: string): readonly (readonly string[])[] => [
  ['archive', 'list', '--archive', path],
  ['archive', 'show', '1', '--archive', path],
  ['archive', 'check', '--archive', path],
  ['archive', 'export', '1', '--archive', path, '--out', join(outFolder, 'pull.csv')],
  ['archive', 'backup', '--archive', path, '--out', join(outFolder, 'copy.gaugemark')],
];

describe('a file that is no archive', () => {
  it('of another program is refused by every verb in one sentence and stays as it was', async () => {
    const folder = scratch();
    const out = scratch();
    const path = join(folder, 'cats.db');
    const cats = new Database(path);
    cats.exec('CREATE TABLE cats (name TEXT)');
    cats.close();
    const before = traces(folder);
    for (const verb of [...readingVerbs(path, out), [...PULL, '--archive', path]]) {
      const { code, err } = await answered(verb);
      expect([code, err.trimEnd().split('\n').length], verb.join(' ')).toEqual([2, 1]);
      expect(err).toContain('is a database of another program. Nothing was changed');
    }
    expect(traces(folder)).toEqual(before);
    expect(readdirSync(out)).toEqual([]);
  });

  it('is refused by reading verbs when it is empty or missing, and none is made', async () => {
    const folder = scratch();
    const path = join(folder, 'empty.gaugemark');
    writeFileSync(path, '');
    const before = traces(folder);
    for (const [name, words] of [
      ['empty.gaugemark', 'holds nothing yet'],
      ['none.gaugemark', 'There is no archive'],
    ] as const) {
      const { code, err } = await answered(['archive', 'list', '--archive', join(folder, name)]);
      expect([code, err.trimEnd().split('\n').length]).toEqual([2, 1]);
      expect(err).toContain(words);
    }
    expect(traces(folder)).toEqual(before);
  });
});

describe('an archive without permission to write', () => {
  // Run by root, the commands are those of another user, to whom the system really refuses writing.
  it('is listed, shown, checked, exported and backed up, and nothing in its folder is changed', async () => {
    const folder = scratch();
    const temporary = scratch();
    const path = archiveWithPull(folder);
    chmodSync(folder, 0o555);
    chmodSync(path, 0o444);
    chmodSync(temporary, 0o777);
    const out = join(temporary, 'out');
    mkdirSync(out);
    chmodSync(out, 0o777);
    const before = traces(folder);
    for (const verb of readingVerbs(path, out)) {
      const { code, err } = await gaugemark(verb, { asStranger: true, temporary });
      expect([code, err], verb.join(' ')).toEqual([0, '']);
    }
    expect(traces(folder)).toEqual(before);
    expect(readdirSync(out)).toEqual(['copy.gaugemark', 'pull.csv']);
    expect(readdirSync(temporary).filter((name) => name.startsWith('gaugemark-reading'))).toEqual([]);
    const pull = await gaugemark([...PULL, '--archive', path], { asStranger: true, temporary });
    expect(pull.code).toBe(2);
    expect(pull.err).toMatch(/can't be written to.*give write permission or choose another file/);
    expect(traces(folder)).toEqual(before);
    chmodSync(folder, 0o700);
  });
});

describe('a disk that is full', () => {
  it('takes no export, no backup and no table; each says so, leaves nothing there, and the archive as it was', async (context) => {
    const disk = smallDisk(scratch());
    if ('skip' in disk) {
      context.skip(disk.skip);
      return;
    }
    const path = archiveWithPull(scratch());
    fill(disk.path);
    const before = readFileSync(path);
    for (const args of [
      ['export', '1', '--out', join(disk.path, 'pull.csv')],
      ['backup', '--out', join(disk.path, 'copy.gaugemark')],
      ['backup', '--into', disk.path],
      ['search', '--csv', join(disk.path, 'table.csv')],
    ]) {
      const { code, err } = await answered(['archive', ...args, '--archive', path]);
      expect(code, args.join(' ')).not.toBe(0);
      expect(err, args.join(' ')).toMatch(/is full.*free some space or choose another disk/);
    }
    expect(readdirSync(disk.path)).toEqual(['filler']);
    expect(readFileSync(path).equals(before)).toBe(true);
  });
});

describe('a damaged archive', () => {
  it('is told in one sentence that names the verb, what the database says apart, and is set aside whole', async () => {
    const folder = scratch();
    const path = archiveWithPull(folder);
    const bytes = readFileSync(path);
    // Two pages in the middle are overwritten, as a failing disk does.
    bytes.fill(0xa5, 4096 * 2, 4096 * 4);
    writeFileSync(path, bytes);
    writeFileSync(`${path}-spool-a`, 'spooled');

    const list = await answered(['archive', 'list', '--archive', path, '--json']);
    const [sentence, detail, ...more] = list.err.trimEnd().split('\n');
    expect([list.code, more]).toEqual([1, []]);
    expect(sentence).toContain(`gaugemark archive set-aside --archive "${path}"`);
    expect(sentence).toContain('"Set this archive aside…" in the window');
    expect(detail).toMatch(/^ {2}detail: \S/);
    expect(JSON.parse(list.out)).toEqual({
      error: { code: 'archive-damaged', sentence, detail: detail?.replace('  detail: ', '') },
    });

    const aside = await gaugemark(['archive', 'set-aside', '--archive', path]);
    expect([aside.code, aside.err]).toEqual([0, '']);
    const name = /is now (\S+);/.exec(aside.out)?.[1] ?? '';
    expect(name).toMatch(/a\.gaugemark\.damaged-\d{4}-\d{2}-\d{2}T/);
    expect(readFileSync(name).equals(bytes)).toBe(true);
    expect(readFileSync(`${name}-spool-a`, 'latin1')).toBe('spooled');
    expect(readdirSync(folder).length).toBe(2);

    // The next start begins a fresh one, which is sound and therefore stays where it is.
    expect((await answered([...PULL, '--archive', path])).code).toBe(0);
    const again = await answered(['archive', 'set-aside', '--archive', path]);
    expect([again.code, again.err]).toEqual([2, expect.stringContaining('is sound')]);
    const kept = await answered(['archive', 'list', '--archive', path]);
    const rows = kept.out.trimEnd().split('\n');
    expect(rows.filter((row) => row.includes('SIMULATED'))).toHaveLength(1);
    expect(rows).toHaveLength(2);
  });
});
