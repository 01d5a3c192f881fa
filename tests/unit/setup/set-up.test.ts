import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { crc32 } from 'node:zlib';
import { afterAll, describe, expect, it } from 'vitest';
import { runProcess } from '../../../electron/setup/run-process.mjs';

const project = join(import.meta.dirname, '..', '..', '..');
const setUp = join(project, 'electron', 'setup');

describe('the set-up scripts', () => {
  it('import nothing that must be installed before they have installed it', () => {
    // Run on a bare clone by any Node from 18 on: these are reached before `npm ci`.
    const early = [
      'start',
      'test',
      'gaugemark',
      'bench',
      'build',
      'on-pinned-node',
      'dependencies',
      'places',
    ];
    for (const name of [...early, 'run-process', 'display']) {
      const source = readFileSync(join(setUp, `${name}.mjs`), 'utf8');
      for (const [, from] of source.matchAll(/^import .* from '([^']+)';$/gm))
        expect(from, `${name}.mjs`).toMatch(/^(node:|\.\/)/);
    }
  });

  it('name no registry and no place of one machine', () => {
    for (const name of readdirSync(setUp)) {
      const source = readFileSync(join(setUp, name), 'utf8');
      expect(source, name).not.toMatch(/https?:\/\/|\/tmp\/|\/root\/|\/home\//);
    }
  });
});

describe('running a program', () => {
  it('gives its exit code and what it wrote', async () => {
    const { code, text } = await runProcess(
      process.execPath,
      ['-e', 'console.log("a"); console.error("b"); process.exitCode = 3'],
      { output: 'capture' },
    );
    expect(code).toBe(3);
    expect(text).toContain('a');
    expect(text).toContain('b');
  });

  it('says so when it is not there, instead of throwing', async () => {
    const { code, startFault } = await runProcess('a-program-that-is-not-there', [], { output: 'capture' });
    expect(code).toBe(1);
    expect(startFault).toContain('ENOENT');
  });

  it('ends it when it takes longer than it may', async () => {
    const { timedOut } = await runProcess(process.execPath, ['-e', 'setInterval(() => {}, 1000)'], {
      output: 'capture',
      limitMs: 100,
    });
    expect(timedOut).toBe(true);
  });
});

describe('the command line as npm runs it', () => {
  it('passes the exit code on and writes nothing of its own to standard output', () => {
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      [join(setUp, 'gaugemark.mjs'), 'no-such-verb', '--json'],
      { encoding: 'utf8' },
    );
    expect(status).toBe(2);
    expect(JSON.parse(stdout)).toMatchObject({ error: { code: 'verb-unknown' } });
    expect(stderr).not.toBe('');
  });
});

describe('unpacking a zip', () => {
  const scratch = mkdtempSync(join(tmpdir(), 'gaugemark-zip-'));
  afterAll(() => rmSync(scratch, { recursive: true }));

  it('takes one folder of it, less what is left out', async () => {
    const { unpackZip } = await import('../../../electron/setup/unpack-zip.mjs');
    const zip = join(scratch, 'a.zip');
    writeFileSync(
      zip,
      storedZip({ 'Root/electron': 'binary', 'Root/resources/app/x.js': 'foreign', 'other/y': 'no' }),
    );
    await unpackZip({ file: zip, root: 'Root/', leftOut: ['resources/'], into: join(scratch, 'out') });
    expect(readdirSync(join(scratch, 'out'))).toEqual(['electron']);
    expect(readFileSync(join(scratch, 'out', 'electron'), 'utf8')).toBe('binary');
  });

  it('writes nothing outside its folder', async () => {
    const { unpackZip } = await import('../../../electron/setup/unpack-zip.mjs');
    const zip = join(scratch, 'b.zip');
    writeFileSync(zip, storedZip({ 'Root/../../escaped': 'x' }));
    await expect(
      unpackZip({ file: zip, root: 'Root/', leftOut: [], into: join(scratch, 'deep', 'out') }),
    ).rejects.toThrow();
    expect(execFileSync('find', [scratch, '-name', 'escaped'], { encoding: 'utf8' })).toBe('');
  });
});

/** A zip archive with its entries stored as they are (PKWARE APPNOTE, sections 4.3.7, 4.3.12, 4.3.16). */
function storedZip(entries: Readonly<Record<string, string>>): Buffer {
  const locals: Buffer[] = [];
  const centrals: Buffer[] = [];
  let offset = 0;
  for (const [name, text] of Object.entries(entries)) {
    const data = Buffer.from(text);
    const facts = Buffer.alloc(26);
    facts.writeUInt16LE(20, 0);
    facts.writeUInt32LE(crc32(data), 10);
    facts.writeUInt32LE(data.length, 14);
    facts.writeUInt32LE(data.length, 18);
    facts.writeUInt16LE(Buffer.byteLength(name), 22);
    const local = Buffer.concat([Buffer.from('PK\u0003\u0004', 'latin1'), facts, Buffer.from(name), data]);
    const tail = Buffer.alloc(14);
    tail.writeUInt32LE(offset, 10);
    centrals.push(
      Buffer.concat([Buffer.from('PK\u0001\u0002\u0014\u0000', 'latin1'), facts, tail, Buffer.from(name)]),
    );
    locals.push(local);
    offset += local.length;
  }
  const directory = Buffer.concat(centrals);
  const end = Buffer.alloc(22);
  end.write('PK\u0005\u0006', 'latin1');
  end.writeUInt16LE(centrals.length, 8);
  end.writeUInt16LE(centrals.length, 10);
  end.writeUInt32LE(directory.length, 12);
  end.writeUInt32LE(offset, 16);
  return Buffer.concat([...locals, directory, end]);
}
