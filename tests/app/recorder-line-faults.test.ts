/** What the line can do during a pull: each is survived, named in the record, and loses nothing that was read. */
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { rename } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { LINES_BEFORE_SYNC_MAX } from '../../core/limits.ts';
import { makePty } from './drivers-pty.ts';
import { BY_HAND, RecorderProcess, lineOf, makeReadout, scratch } from './recorder-process.ts';
import { expectAllKept } from './support/all-kept.ts';
import { until } from './support/until.ts';

describe('an adapter that is unplugged in the middle of a number and comes back', () => {
  it('is found again; the gap is named, the torn line is kept raw and joined to nothing (S1, S6)', async () => {
    const folder = scratch();
    const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
    const first = await makePty(folder);
    onTestFinished(first.kill);
    const pullId = await recorder.ready(first.path, BY_HAND);
    await new Promise((done) => setTimeout(done, 100));
    await first.write(`${lineOf(0)}${lineOf(1)}2,10`);
    await recorder.untilReadings(2);
    await until(async () => (await recorder.rawOf(pullId)).endsWith('2,10'), 'the torn line is read');
    await first.kill();
    await until(() => recorder.notices.some((n) => n.code === 'signal-lost' && !n.over), 'the loss is told');
    expect((await recorder.ask('session.get', {})).readout?.link).toBe('lost');
    expect((await recorder.ask('session.get', {})).state).toBe('ready');

    const second = await makePty(folder);
    onTestFinished(second.kill);
    await until(
      async () => (await recorder.ask('session.get', {})).readout?.link === 'open',
      'the port is open again',
    );
    await new Promise((done) => setTimeout(done, 100));
    await second.write(`02.0,0.5\r\n${lineOf(4)}${lineOf(5)}`);
    await recorder.untilReadings(4);
    await recorder.ask('pull.close', {});
    // "02.0,0.5" is two fields: it fits nothing. Joined to "2,10" it would have read "2,1002.0,0.5".
    const { columns } = await recorder.ask('pull.readings', { pullId, fromSeq: 0, count: 100 });
    expect([...(columns.channels[1]?.value ?? [])]).not.toContain(1002);
    expect(await recorder.countsOf(pullId)).toEqual([0, 1, 4, 5]);
    expect(await recorder.rawOf(pullId)).toBe(
      `${lineOf(0)}${lineOf(1)}2,1002.0,0.5\r\n${lineOf(4)}${lineOf(5)}`,
    );
    const { gaps, misfitCount } = await recorder.ask('pull.get', { pullId });
    expect(gaps.map((g) => [g.cause, g.beforeSeq])).toEqual([['signal-lost', 2]]);
    expect(misfitCount).toEqual({ incomplete: 1, 'before-sync': 1 });
    expect((await recorder.ask('archive.check', {})).sound).toBe(true);
  });
});

describe('a computer that is busy with everything else', () => {
  it('takes no line from a record: every core in a loop while a fast readout sends (S18)', async () => {
    const folder = scratch();
    const readout = await makeReadout(folder);
    const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
    const pullId = await recorder.ready(readout.port, BY_HAND);
    await new Promise((done) => setTimeout(done, 100));
    const loops = Array.from({ length: availableParallelism() }, () =>
      spawn(process.execPath, ['-e', 'for (;;);']),
    );
    onTestFinished(() => loops.forEach((loop) => void loop.kill('SIGKILL')));
    // The sender is one of the processes that have to wait: what it is late with comes in bursts.
    readout.run(1);
    await recorder.untilReadings(800);
    await readout.pause();
    await recorder.untilReadings(readout.sent());
    loops.forEach((loop) => void loop.kill('SIGKILL'));
    await recorder.ask('pull.close', {});
    await expectAllKept(recorder, pullId, readout.sent());
    const { gaps, misfitCount } = await recorder.ask('pull.get', { pullId });
    expect([gaps, misfitCount]).toEqual([[], {}]);
  });
});

describe('a readout that falls silent', () => {
  it('is told with the time, its last value is shown no longer, and the gap ends with its next reading (S2)', async () => {
    const folder = scratch();
    const readout = await makeReadout(folder);
    const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
    const pullId = await recorder.ready(readout.port, BY_HAND);
    await new Promise((done) => setTimeout(done, 100));
    await readout.pty.write(lineOf(0) + lineOf(1));
    await recorder.untilReadings(2);
    expect((await recorder.ask('session.get', {})).live.length).toBe(3);
    // The carrier of the bytes stands still; the port stays open and gives no event at all.
    readout.pty.socat.kill('SIGSTOP');
    await until(
      () => recorder.notices.some((n) => n.code === 'no-fresh-reading' && !n.over),
      'the silence is told',
    );
    const silent = await recorder.ask('session.get', {});
    expect([silent.signal.fresh, silent.live, silent.readout?.link, silent.state]).toEqual([
      false,
      [],
      'open',
      'ready',
    ]);
    readout.pty.socat.kill('SIGCONT');
    await readout.pty.write(lineOf(2));
    await recorder.untilReadings(3);
    await recorder.ask('pull.close', {});
    const { gaps } = await recorder.ask('pull.get', { pullId });
    expect(gaps.map((g) => [g.cause, g.beforeSeq])).toEqual([['silence', 2]]);
    const [gap] = gaps;
    expect(((gap?.toElapsedUs ?? 0) - (gap?.fromElapsedUs ?? 0)) / 1e6).toBeGreaterThan(1.9);
    expect(recorder.notices.filter((n) => n.code === 'no-fresh-reading').at(-1)?.over).toBe(true);
    await expectAllKept(recorder, pullId, 3);
  });
});

describe('what is no line of the profile', () => {
  it('is kept raw to the byte, counted by its reason, and never a reading (N5)', async () => {
    const folder = scratch();
    const readout = await makeReadout(folder);
    const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
    const pullId = await recorder.ready(readout.port, BY_HAND);
    await new Promise((done) => setTimeout(done, 100));
    const everyByte = Buffer.from(Array.from({ length: 256 }, (_, i) => i));
    const parts = [
      Buffer.from(lineOf(0)),
      Buffer.from('1,OL,0.5\r\n2,-----,0.5\r\n'),
      everyByte,
      Buffer.from(`\r\n${'9'.repeat(5000)}\r\n,,\r\n3,12.5abc,0.1\r\n`),
      Buffer.from(lineOf(4)),
    ];
    for (const part of parts) await readout.pty.write(part);
    await until(async () => (await recorder.countsOf(pullId)).at(-1) === 4, 'the last line is read');
    await recorder.ask('pull.close', {});
    expect(await recorder.rawOf(pullId)).toBe(Buffer.concat(parts).toString('latin1'));
    const { columns } = await recorder.ask('pull.readings', { pullId, fromSeq: 0, count: 100 });
    const loads = [...(columns.channels[1]?.value ?? [])];
    expect(loads.filter((load) => !Number.isNaN(load))).toEqual([1000, 1004]);
    const { misfitCount } = await recorder.ask('pull.get', { pullId });
    expect(misfitCount['too-long']).toBe(1);
    expect(misfitCount['layout']).toBeGreaterThan(0);
    expect((await recorder.ask('archive.check', {})).sound).toBe(true);
  });

  it('is told when bytes arrive and no line ever ends, and is kept all the same (S13)', async () => {
    const folder = scratch();
    const readout = await makeReadout(folder);
    const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
    const pullId = await recorder.ready(readout.port, BY_HAND);
    const endless = 'x7'.repeat(30_000);
    await readout.pty.write(endless);
    await until(() => recorder.notices.some((n) => n.code === 'bytes-without-lines'), 'it is told');
    await until(async () => (await recorder.rawOf(pullId)).length === endless.length, 'all of it is kept');
    expect(await recorder.countsOf(pullId)).toEqual([]);
    // Lines of another readout: it does send, so nobody is told to look whether it is switched on.
    const standing = (): string | undefined =>
      recorder.notices.findLast((n) => n.code === 'no-fresh-reading' && !n.over)?.sentence;
    await readout.pty.write(`\r\n${'ST,GS,+0012.34kN,0\r\n'.repeat(LINES_BEFORE_SYNC_MAX)}`);
    await until(
      () => standing()?.includes('none of them fits the profile') === true,
      'it is told that none fits',
    );
    await readout.pty.write(`\r\n${lineOf(1)}`);
    await recorder.untilReadings(1);
    expect(await recorder.countsOf(pullId)).toEqual([1]);
    await until(
      () => recorder.notices.findLast((n) => n.code === 'no-fresh-reading')?.over === true,
      'it is over',
    );
  });
});

it('opens no port that is missing, busy, or no port, says which, and begins no record', async () => {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
  const other = await RecorderProcess.start(join(folder, 'b.gaugemark'));
  await other.ready(readout.port, BY_HAND);
  const plain = join(folder, 'plain');
  await rename(join(folder, 'b.gaugemark-spool-b'), plain);
  const { specimenId } = await recorder.ask('specimen.save', {
    specimen: { id: 'x', geometry: { kind: 'round', diameter: '10 mm' } },
  });
  const { PROFILE } = await import('./recorder-process.ts');
  const faultAt = (path: string): Promise<string> =>
    recorder.faultOf('pull.ready', {
      specimenId,
      source: { kind: 'serial', path },
      profile: PROFILE,
      ...BY_HAND,
    });
  expect(await faultAt(join(folder, 'nothing'))).toBe('port-missing');
  expect(await faultAt(readout.port)).toBe('port-busy');
  expect(await faultAt(plain)).toBe('not-a-port');
  expect((await recorder.ask('pull.list', { limit: 5 })).items).toEqual([]);
  expect((await recorder.ask('session.get', {})).state).toBe('closed');
});

it('does not say that no lines come where one is garbled into a long one without an end', async () => {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
  await recorder.ready(readout.port, BY_HAND);
  await new Promise((done) => setTimeout(done, 100));
  await readout.pty.write(`${lineOf(0)}${lineOf(1)}${'9'.repeat(5000)}`);
  const told = (code: string): boolean => recorder.notices.some((n) => n.code === code && !n.over);
  await until(() => told('no-fresh-reading'), 'the silence is told');
  expect(told('bytes-without-lines')).toBe(false);
  await readout.pty.write('x7'.repeat(30_000));
  await until(() => told('bytes-without-lines'), 'bytes without end are told');
});

describe('a line garbled into a number far out of range', () => {
  it('is kept digit by digit as it was sent, and is neither the live peak nor the kept one', async () => {
    const folder = scratch();
    const readout = await makeReadout(folder);
    const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
    const pullId = await recorder.ready(readout.port, BY_HAND);
    await new Promise((done) => setTimeout(done, 100));
    const nines = '9'.repeat(23);
    const rise = Array.from({ length: 20 }, (_, i) => lineOf(i, 1000 + 10 * i));
    await readout.pty.write(`${rise.join('')}20,${nines},0.0020\r\n${lineOf(21, 9e9)}${lineOf(22, 1200)}`);
    await recorder.untilReadings(23);
    expect((await recorder.ask('session.get', {})).pull?.peak?.forceN).toBe(1200);
    await recorder.ask('pull.close', {});
    const { items } = await recorder.ask('pull.list', { limit: 5 });
    expect(items[0]?.peakForceN).toBe(1200);
    const request = { pullId, fromSeq: 19, count: 3, shown: true };
    const { columns } = await recorder.ask('pull.readings', request);
    const shown = columns.channels[1]?.shown;
    expect(shown?.exact).toEqual([{ at: 1, text: nines }]);
    expect(Number(columns.channels[1]?.value[1])).toBe(1e23);
    const { path } = await recorder.ask('archive.export', { pullId, to: join(folder, 'p.csv') });
    const row = readFileSync(path, 'utf8')
      .split('\n')
      .find((line) => line.startsWith('20,'));
    expect(row).toContain(nines);
    expect(await recorder.rawOf(pullId)).toContain(`20,${nines},`);
    expect((await recorder.ask('archive.check', {})).sound).toBe(true);
  });
});
