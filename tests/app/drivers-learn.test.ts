import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { type AddressInfo, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readoutProfile } from '../../core/contract/readout-profile.ts';
import { createParser } from '../../drivers/create-parser.ts';
import { runCommandLine } from '../../electron/command-line/main.ts';
import { INVENTED_READOUTS, bytesOf } from '../unit/drivers/invented-readouts.ts';
import { type Pty, makePty } from './drivers-pty.ts';

let folder = '';
let pty: Pty | null = null;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'gaugemark-learn-'));
});
afterEach(async () => {
  await pty?.kill();
  pty = null;
  await rm(folder, { recursive: true, force: true });
});

interface Answer {
  readonly code: number;
  readonly out: string[];
  readonly err: string[];
}

async function gaugemark(...args: string[]): Promise<Answer> {
  const out: string[] = [];
  const err: string[] = [];
  const code = await runCommandLine(args, { out: (text) => out.push(text), err: (text) => err.push(text) });
  return { code, out, err };
}

interface Document {
  readonly profile: unknown;
  readonly confidence: number;
  readonly channels: readonly { quantity: string | null; unit: string | null }[];
  readonly readings: number;
  readonly rejected: number;
  readonly error?: { code: string; sentence: string };
}

const document = ({ out }: Answer): Document => {
  expect(out).toHaveLength(1);
  return JSON.parse(out[0] ?? '') as Document;
};

/** Sends over and over, in pieces that have nothing to do with the lines, until stopped. */
function talking(to: Pty, bytes: Buffer): () => Promise<void> {
  let on = true;
  const done = (async () => {
    for (let at = 0; on; at = (at + 37) % bytes.length) {
      await to.write(bytes.subarray(at, at + 37));
      await new Promise((resolve) => setTimeout(resolve, 10));
    }
  })();
  return async () => {
    on = false;
    await done;
  };
}

describe('gaugemark learn --port', () => {
  it('finds out what a talking port sends, and the profile reads it', async () => {
    pty = await makePty(folder);
    const readout = INVENTED_READOUTS.find(({ name }) => name === 'status letters before the number');
    if (readout === undefined) throw new Error('no such readout');
    const { bytes } = bytesOf(readout);
    const stop = talking(pty, bytes);
    const save = join(folder, 'learned.json');
    const answer = await gaugemark('learn', '--port', pty.path, '--seconds', '2', '--save', save, '--json');
    await stop();
    expect(answer.code).toBe(0);
    const { channels, confidence, readings } = document(answer);
    expect(channels).toMatchObject([{ quantity: 'force', unit: 'kN' }]);
    expect(confidence).toBeGreaterThan(0.6);
    expect(readings).toBeGreaterThan(10);
    const profile = readoutProfile.parse(JSON.parse(await readFile(save, 'utf8')));
    const lines = createParser(profile).push(0, bytes, 0);
    expect(lines.every((line) => line.outcome.kind === 'reading')).toBe(true);
  });

  it('says of a silent port that it is silent, and of a missing one that it is missing', async () => {
    pty = await makePty(folder);
    const silent = await gaugemark('learn', '--port', pty.path, '--seconds', '1', '--json');
    expect([silent.code, document(silent).error?.code]).toEqual([1, 'port-silent']);
    const missing = await gaugemark('learn', '--port', join(folder, 'absent'), '--json');
    expect([missing.code, document(missing).error?.code]).toEqual([2, 'port-missing']);
    expect(missing.err).toHaveLength(1);
  });
});

describe('gaugemark learn --port with the address of another source', () => {
  it('listens to a device server, whose line settings are none of the profile’s', async () => {
    const server = createServer((socket) => {
      socket.on('error', () => undefined);
      let count = 0;
      const timer = setInterval(() => socket.write(`${String(count++ / 4)} kN\r\n`), 20);
      socket.on('close', () => {
        clearInterval(timer);
      });
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    const { port } = server.address() as AddressInfo;
    const address = `tcp:127.0.0.1:${String(port)}`;
    const answer = await gaugemark('learn', '--port', address, '--seconds', '1', '--json');
    const speed = await gaugemark('learn', '--port', address, '--baud', '9600');
    server.close();
    expect(answer.code).toBe(0);
    const { channels, profile } = document(answer);
    expect(channels).toMatchObject([{ quantity: 'force', unit: 'kN' }]);
    expect(profile).not.toHaveProperty('serial');
    expect([speed.code, speed.err]).toEqual([2, [expect.stringContaining('set on the server')]]);
  });

  it('takes a recording as a file of bytes, and says why registers are not learned', async () => {
    const bytes = join(folder, 'recorded.bin');
    await writeFile(bytes, '12.5 kN\r\n'.repeat(20));
    const recorded = await gaugemark('learn', '--port', `replay:${bytes}`, '--json');
    expect(document(recorded).readings).toBe(20);
    const registers = await gaugemark('learn', '--port', 'modbus-rtu:/dev/ttyUSB0#1');
    expect([registers.code, registers.err]).toEqual([2, [expect.stringContaining('learning sends nothing')]]);
  });
});

describe('gaugemark learn --bytes', () => {
  it('never writes over a file that is there', async () => {
    const bytes = join(folder, 'recorded.bin');
    const save = join(folder, 'kept.json');
    await writeFile(bytes, '12.5 kN\r\n'.repeat(20));
    await writeFile(save, 'kept');
    const answer = await gaugemark('learn', '--bytes', bytes, '--save', save);
    expect(answer.code).toBe(2);
    expect(await readFile(save, 'utf8')).toBe('kept');
  });

  it.each([
    ['an empty file', '', 2],
    ['prose', 'nothing to read here, only words\r\n'.repeat(9), 1],
  ])('answers %s with one sentence', async (_name, text, code) => {
    const bytes = join(folder, 'recorded.bin');
    await writeFile(bytes, text);
    const answer = await gaugemark('learn', '--bytes', bytes);
    expect([answer.code, answer.out.length, answer.err.length]).toEqual([code, 0, 1]);
  });

  it('takes either a port or a file, not both and not neither', async () => {
    expect((await gaugemark('learn')).code).toBe(2);
    expect((await gaugemark('learn', '--port', 'a', '--bytes', 'b')).code).toBe(2);
  });
});
