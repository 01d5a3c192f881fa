/** Load from one port, extension from another, for one pull: two ptys, one record. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { readoutProfile } from '../../core/contract/readout-profile.ts';
import { JOINED_AGE_MS_MAX } from '../../core/limits.ts';
import { type Pty, makePty } from './drivers-pty.ts';
import { BY_HAND, RecorderProcess, SPECIMEN, scratch } from './recorder-process.ts';
import { gaugemark } from './support/gaugemark-command.ts';
import { until } from './support/until.ts';

const profileOf = (field: string, quantity: 'force' | 'extension', unit: string) =>
  readoutProfile.parse({
    schema: 'gaugemark.readout-profile/1',
    name: `${quantity} display`,
    serial: { baudRate: 9600 },
    format: { kind: 'labelled', fields: [{ name: field, label: `${field}=` }] },
    channels: [{ field, quantity, unit: { kind: 'fixed', unit } }],
  });
// Both call their field the same, as two displays of one maker do.
const LOAD = profileOf('V', 'force', 'N');
// A slow display: on a busy machine the load comes late, and its extension is still young enough.
const EXTENSION = { ...profileOf('V', 'extension', 'mm'), rateHz: 1 };

interface Bench {
  readonly recorder: RecorderProcess;
  readonly folder: string;
  readonly load: Pty;
  readonly extension: Pty;
  readonly pullId: number;
}

async function twoPorts(): Promise<Bench> {
  const folder = scratch();
  const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
  const [load, extension] = [await makePty(folder, 'load'), await makePty(folder, 'extension')];
  onTestFinished(load.kill);
  onTestFinished(extension.kill);
  const { specimenId } = await recorder.ask('specimen.save', { specimen: SPECIMEN });
  const { pullId } = await recorder.ask('pull.ready', {
    specimenId,
    source: { kind: 'serial', path: load.path },
    profile: LOAD,
    second: { source: { kind: 'serial', path: extension.path }, profile: EXTENSION },
    ...BY_HAND,
  });
  // No reading, whether it counts as the rest of a line from before the opening or as a line.
  for (const pty of [load, extension]) await pty.write('x\r\n');
  await lines(recorder, [1, 1]);
  return { recorder, folder, load, extension, pullId };
}

/** Waits until so many lines of each instrument have been taken. */
async function lines(recorder: RecorderProcess, [first, second]: readonly [number, number]): Promise<void> {
  await until(
    async () => {
      const { readout, second: its } = await recorder.ask('session.get', {});
      return (readout?.lineCount ?? 0) >= first && (its?.readout.lineCount ?? 0) >= second;
    },
    `${String(first)} and ${String(second)} lines`,
  );
}

async function columnsOf(recorder: RecorderProcess, pullId: number): Promise<number[][]> {
  const { columns } = await recorder.ask('pull.readings', { pullId, fromSeq: 0, count: 1000 });
  return columns.channels.map(({ value }) => [...value]);
}

async function rawOf(recorder: RecorderProcess, pullId: number, instrument: 0 | 1): Promise<string> {
  const { bytes } = await recorder.ask('pull.raw', { pullId, fromChunk: 0, count: 1000, instrument });
  return Buffer.from(bytes).toString('latin1');
}

describe('two instruments on two ports', () => {
  it('make one record: each load with the newest extension, two raw records, the distance between them stated', async () => {
    const { recorder, load, extension, pullId } = await twoPorts();
    for (let i = 1; i <= 5; i++) {
      await extension.write(`V=${(i / 100).toFixed(2)}\r\n`);
      await lines(recorder, [2 * i - 1, i + 1]);
      await load.write(`V=${String(1000 * i)}\r\nV=${String(1000 * i + 1)}\r\n`);
      await lines(recorder, [2 * i + 1, i + 1]);
    }
    const { live, pull, second } = await recorder.ask('session.get', {});
    expect(live.map(({ key, value }) => [key, value])).toEqual([
      ['V', 5001],
      ['V (2)', 0.05],
    ]);
    expect(second?.readout).toMatchObject({ link: 'open', profileName: 'extension display' });
    expect(pull?.skew?.joined).toBe(10);
    await recorder.ask('pull.close', {});

    const [force, length] = await columnsOf(recorder, pullId);
    expect(force).toEqual([1, 2, 3, 4, 5].flatMap((i) => [1000 * i, 1000 * i + 1]));
    expect(length).toEqual([1, 2, 3, 4, 5].flatMap((i) => [i / 100, i / 100]));
    expect(await rawOf(recorder, pullId, 1)).toBe(
      `x\r\n${[1, 2, 3, 4, 5].map((i) => `V=0.0${String(i)}\r\n`).join('')}`,
    );
    expect(await rawOf(recorder, pullId, 0)).not.toContain('V=0.0');
    const kept = await recorder.ask('pull.get', { pullId });
    expect(kept.second).toMatchObject({ profile: EXTENSION, ageMaxMs: JOINED_AGE_MS_MAX });
    expect(kept.second?.closed?.skew).toMatchObject({ joined: 10, alone: 0 });
    expect(kept.second?.closed?.skew.longestMs).toBeGreaterThan(0);
    expect(kept.second?.closed?.records[1].rawByteCount).toBe(3 + 5 * 8);
    expect((await recorder.ask('archive.check', {})).lines.filter(({ ok }) => !ok)).toEqual([]);
  });

  it('go on with the load alone when the other is unplugged: blank, never the last value; its gap is its own', async () => {
    const { recorder, folder, load, extension, pullId } = await twoPorts();
    await extension.write('V=0.10\r\nV=0.');
    await lines(recorder, [1, 2]);
    await load.write('V=1000\r\n');
    await lines(recorder, [2, 2]);
    await extension.kill();
    await until(
      () => recorder.notices.some(({ code, over }) => code === 'second-signal-lost' && !over),
      'the loss of the second is told',
    );
    const lost = await recorder.ask('session.get', {});
    expect([lost.readout?.link, lost.second?.readout.link, lost.state]).toEqual(['open', 'lost', 'ready']);
    // Longer ago than what is joined to a load.
    await until(async () => {
      await load.write('V=2000\r\n');
      return (await columnsOf(recorder, pullId))[1]?.at(-1)?.toString() === 'NaN';
    }, 'a load without extension');
    const again = await makePty(folder, 'extension');
    onTestFinished(again.kill);
    await until(
      async () => (await recorder.ask('session.get', {})).second?.readout.link === 'open',
      'the second is open again',
    );
    await again.write('50\r\n');
    // Both go on sending, as readouts do: on a busy computer one value alone can be too old for the other.
    await until(async () => {
      await again.write('V=0.60\r\n');
      await load.write('V=3000\r\n');
      const [force, length] = await columnsOf(recorder, pullId);
      return force?.at(-1) === 3000 && length?.at(-1) === 0.6;
    }, 'a load with the extension of the second again');
    await recorder.ask('pull.close', {});

    const [force, length] = await columnsOf(recorder, pullId);
    expect([force?.[0], length?.[0]]).toEqual([1000, 0.1]);
    // "0." and "50" are two halves that were never one number.
    expect(length?.some((value) => value === 0.5)).toBe(false);
    const { gaps, second } = await recorder.ask('pull.get', { pullId });
    expect(gaps.map(({ cause, instrument }) => [cause, instrument])).toEqual([['signal-lost', 1]]);
    expect(gaps[0]?.toElapsedUs).toBeGreaterThan(gaps[0]?.fromElapsedUs ?? 0);
    expect(second?.closed?.skew.alone).toBeGreaterThan(0);
    const { remarks } = await recorder.ask('pull.evaluate', { pullId });
    expect(remarks.filter((remark) => remark.includes('gap'))).toEqual([
      expect.stringMatching(/^The second instrument has 1 gap .*, the longest [\d.]+ s; the load went on/),
    ]);
    expect((await recorder.ask('archive.check', {})).lines.filter(({ ok }) => !ok)).toEqual([]);
  });

  it('are both gone on with after the recorder was killed, and parse to the same readings again', async () => {
    const { recorder, folder, load, extension, pullId } = await twoPorts();
    await extension.write('V=0.10\r\n');
    await lines(recorder, [1, 2]);
    await load.write('V=1000\r\n');
    await recorder.untilReadings(1);
    await until(
      async () => ((await recorder.ask('session.get', {})).pull?.savedThroughSeq ?? 0) >= 1,
      'the reading is safe',
    );
    await recorder.kill();
    const after = await RecorderProcess.start(join(folder, 'a.gaugemark'));
    await until(async () => {
      const { readout, second } = await after.ask('session.get', {});
      return readout?.link === 'open' && second?.readout.link === 'open';
    }, 'both ports are open again');
    for (const pty of [load, extension]) await pty.write('x\r\n');
    await extension.write('V=0.20\r\n');
    await until(
      async () => (await after.ask('session.get', {})).live.at(-1)?.value === 0.2,
      'the second is heard again',
    );
    await load.write('V=2000\r\n');
    await until(async () => (await columnsOf(after, pullId))[0]?.at(-1) === 2000, 'the last load');
    await after.ask('pull.close', {});
    const [force, length] = await columnsOf(after, pullId);
    expect([force?.[0], length?.[0], force?.at(-1), length?.at(-1)]).toEqual([1000, 0.1, 2000, 0.2]);
    const { gaps } = await after.ask('pull.get', { pullId });
    expect(
      gaps.map(({ cause, instrument, toElapsedUs }) => [cause, instrument ?? 0, toElapsedUs !== null]),
    ).toEqual([0, 1].map((instrument) => ['recorder-restarted', instrument, true]));
    expect((await after.ask('archive.check', {})).lines.filter(({ ok }) => !ok)).toEqual([]);
  });

  it('are recorded from the command line, which names both and says how far apart they stand', async () => {
    const folder = scratch();
    const [load, extension] = [await makePty(folder, 'load'), await makePty(folder, 'extension')];
    onTestFinished(load.kill);
    onTestFinished(extension.kill);
    const file = (name: string, content: unknown): string => {
      writeFileSync(join(folder, name), JSON.stringify(content));
      return join(folder, name);
    };
    const pull = gaugemark(
      ...['pull', '--port', load.path, '--readout', file('load.json', LOAD)],
      ...['--second-port', extension.path, '--second-readout', file('extension.json', EXTENSION)],
      ...['--specimen', file('specimen.json', SPECIMEN), '--archive', join(folder, 'a.gaugemark')],
      ...['--until', '2'],
    );
    await until(() => pull.err().includes(`from ${load.path} and ${extension.path}`), 'both are named');
    for (let i = 0; i < 20; i++) {
      await extension.write(`V=0.${String(i).padStart(2, '0')}\r\n`);
      await load.write(`V=${String(100 * i)}\r\n`);
    }
    expect(await pull.ended()).toBe(0);
    expect(pull.out()).toContain('Two instruments: load from "force display"');
    expect(pull.out()).toMatch(
      /readings carry a value of the second instrument, .* ms on average, .* ms at most/,
    );
  });
});

it('refuses two instruments that both give the load, or none, and the same port twice; nothing is opened', async () => {
  const recorder = await RecorderProcess.start(join(scratch(), 'a.gaugemark'));
  const serial = (path: string) => ({ kind: 'serial' as const, path });
  const fault = (first: typeof LOAD, second: typeof LOAD, path = '/dev/b'): Promise<string> =>
    recorder.faultOf('readout.open', {
      source: serial('/dev/a'),
      profile: first,
      second: { source: serial(path), profile: second },
    });
  expect(await fault(LOAD, LOAD)).toBe('instruments-not-joined');
  expect(await fault(EXTENSION, LOAD)).toBe('instruments-not-joined');
  expect(await fault(EXTENSION, EXTENSION)).toBe('instruments-not-joined');
  expect(await fault(LOAD, EXTENSION, '/dev/a')).toBe('instruments-not-joined');
  expect((await recorder.ask('session.get', {})).readout).toBeNull();
});
