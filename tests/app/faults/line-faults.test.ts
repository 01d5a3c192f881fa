/** Faults of the serial line that take the port's process down, or fool its clock. See `line-rows.ts`. */
import os from 'node:os';
import { join } from 'node:path';
import { expect, it, onTestFinished, vi } from 'vitest';
import type { ListedPort, PortIdentity } from '../../../core/contract/source.ts';
import { createTransport } from '../../../drivers/create-transport.ts';
import type { RecorderOptions } from '../../../electron/recorder/recorder-options.ts';
import { Recorder } from '../../../electron/recorder/recorder.ts';
import { answerRequest } from '../../../electron/recorder/requests.ts';
import { type Pty, makePty } from '../drivers-pty.ts';
import {
  BY_HAND,
  PROFILE,
  RecorderProcess,
  SPECIMEN,
  lineOf,
  makeReadout,
  scratch,
} from '../recorder-process.ts';
import { type Asked, expectAllKept } from '../support/all-kept.ts';
import { RECORDER_SOURCE } from '../support/recorder-program.ts';
import { until } from '../support/until.ts';

const THROWS = new URL('./throw-in-handler.ts', import.meta.url).href;

it('S3: a handler of the port throws in mid-pull: its process ends, the next one goes on with every byte that was read', async () => {
  const folder = scratch();
  const archive = join(folder, 'a.gaugemark');
  const readout = await makeReadout(folder);
  const recorder = await RecorderProcess.start(archive, RECORDER_SOURCE, {
    NODE_OPTIONS: `--import ${THROWS}`,
  });
  const pullId = await recorder.ready(readout.port, BY_HAND);
  await new Promise((done) => setTimeout(done, 100));
  await readout.pty.write(lineOf(0) + lineOf(1));
  await recorder.untilReadings(2);
  recorder.child.kill('SIGUSR2');
  await until(() => recorder.complaints.join('').includes('will be thrown at'), 'the fault is in place');
  await readout.pty.write(lineOf(2));
  await until(() => recorder.child.signalCode !== null, 'the process ends');
  expect(recorder.complaints.join('')).toContain('put there by a test');

  const next = await RecorderProcess.start(archive);
  // The line at which the handler threw had been written down before anything looked at it.
  await next.untilReadings(3);
  await until(
    async () => (await next.ask('session.get', {})).readout?.link === 'open',
    'the port is open again',
  );
  await new Promise((done) => setTimeout(done, 100));
  await readout.pty.write(lineOf(3));
  await next.untilReadings(4);
  // CR has ended the line.
  await until(async () => (await next.rawOf(pullId)).endsWith('\n'), 'its LF is read');
  await next.ask('pull.close', {});
  await expectAllKept(next, pullId, 4);
  const { gaps, marks } = await next.ask('pull.get', { pullId });
  expect(gaps.map(({ cause }) => cause)).toEqual(['recorder-restarted']);
  expect(marks.map(({ kind }) => kind)).toContain('recovered');
  const { lines } = await next.ask('archive.check', {});
  expect(lines.filter(({ ok }) => !ok)).toEqual([]);
});

/** A recorder in this process, so that its clocks and its list of ports are in the test's hand. */
async function recorderHere(folder: string, more: Partial<RecorderOptions> = {}) {
  const recorder = new Recorder({
    archivePath: join(folder, 'a.gaugemark'),
    programVersion: '9.9.9',
    makeFolder: false,
    resume: true,
    log: () => undefined,
    ...more,
  });
  onTestFinished(() => recorder.end());
  await recorder.begin();
  const ask: Asked['ask'] = async (name, payload) => {
    const answer = await answerRequest(recorder, name, payload);
    if (!answer.ok) throw new Error(answer.fault.sentence);
    return answer.value;
  };
  return { recorder, ask };
}

/** Opens the port and begins a record; the pull's number. */
async function begunOn({ ask }: Asked, path: string): Promise<number> {
  const { specimenId } = await ask('specimen.save', { specimen: SPECIMEN });
  await ask('readout.open', { source: { kind: 'serial', path }, profile: PROFILE });
  const { pullId } = await ask('pull.ready', { specimenId, ...BY_HAND });
  // A line that comes at once could be the rest of one.
  await new Promise((done) => setTimeout(done, 100));
  return pullId;
}

/** A recorder in this process on a readout that sends; its record is open. */
async function recordingHere() {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const { recorder, ask } = await recorderHere(folder);
  const pullId = await begunOn({ ask }, readout.port);
  readout.run(20);
  await until(() => (recorder.recording?.state.nextSeq ?? 0) > 20, 'readings');
  return { recorder, readout, ask, pullId };
}

/** The adapter that the record is read through, and another of the same make. */
const ADAPTER: PortIdentity = {
  vendorId: '0403',
  productId: '6001',
  serialNumber: 'K7Q2WX',
  location: 'usb-1',
};
const STRANGER: PortIdentity = { ...ADAPTER, serialNumber: 'ZZ9', location: 'usb-2' };

it('S4, S5: unplugged in mid-pull, another adapter behind its path or one of two alike is not read; its own is, under the other path where it comes back', async () => {
  const folder = scratch();
  const pty = async (name: string): Promise<Pty> => {
    const made = await makePty(folder, name);
    onTestFinished(made.kill);
    return made;
  };
  const first = await pty('ttyUSB0');
  let listed: readonly ListedPort[] = [{ path: first.path, identity: ADAPTER }];
  let looks = 0;
  const ports = (): Promise<readonly ListedPort[]> => {
    looks++;
    return Promise.resolve(listed);
  };
  const { recorder, ask } = await recorderHere(folder, {
    ports,
    makeTransport: (source, profile) => createTransport(source, { profile, ports }),
  });
  const told: string[] = [];
  recorder.listen({
    onEvent: (name, event) => {
      if (name === 'notice' && 'code' in event) told.push(`${event.code}: ${event.sentence}`);
    },
    onReadings: () => undefined,
  });
  // Named by its path alone: whose it is, is looked up as it is opened.
  const pullId = await begunOn({ ask }, first.path);
  const readings = (): number => recorder.recording?.state.nextSeq ?? 0;
  const rawNow = async (): Promise<string> => {
    const { bytes } = await ask('pull.raw', { pullId, fromChunk: 0, count: 1000 });
    return Buffer.from(bytes).toString('latin1');
  };
  const torn = lineOf(2).slice(0, 4);
  await first.write(`${lineOf(0)}${lineOf(1)}${torn}`);
  await until(async () => (await rawNow()).endsWith(torn), 'the torn line is read');

  listed = [];
  await first.kill();
  await until(() => recorder.session().readout?.link === 'lost', 'the loss is noticed');
  const stranger = await pty('ttyUSB0');
  listed = [{ path: stranger.path, identity: STRANGER }];
  await until(() => told.some((words) => words.includes('Another adapter')), 'the other adapter is told');
  expect(told.find((words) => words.includes('Another adapter'))).toMatch(/^port-is-another: .*ZZ9.*K7Q2WX/);
  const looksBefore = looks;
  await until(() => looks > looksBefore + 2, 'it is looked for several times');
  const twin = await pty('ttyUSB1');
  // Both report the number, neither is where the readout was.
  listed = [stranger, twin].map(({ path }, i) => ({
    path,
    identity: { ...ADAPTER, location: `usb-9-${String(i)}` },
  }));
  await until(() => told.some((words) => words.includes('could each be')), 'that two are alike is told');
  for (const other of [stranger, twin]) await other.write(lineOf(900));
  expect([recorder.session().readout?.link, recorder.state, readings()]).toEqual(['lost', 'ready', 2]);

  const own = await pty('ttyUSB2');
  listed = [
    { path: stranger.path, identity: STRANGER },
    { path: own.path, identity: { ...ADAPTER, location: 'usb-3' } },
  ];
  await until(() => recorder.session().readout?.link === 'open', 'the port is open again');
  expect(recorder.session().readout?.words).toBe(own.path);
  await new Promise((done) => setTimeout(done, 100));
  await own.write(`${lineOf(2).slice(4)}${lineOf(3)}${lineOf(4)}`);
  await until(() => readings() === 4, 'readings come again');
  await until(async () => (await rawNow()).endsWith('\n'), 'the LF of the last line is read');
  await ask('pull.close', {});
  await expectAllKept({ ask }, pullId, 5, { except: new Set([2]) });
  const { gaps, acts, misfitCount } = await ask('pull.get', { pullId });
  expect(gaps.map(({ cause, beforeSeq }) => [cause, beforeSeq])).toEqual([['signal-lost', 2]]);
  expect(gaps[0]?.toElapsedUs).toBeGreaterThan(gaps[0]?.fromElapsedUs ?? 0);
  expect(misfitCount).toEqual({ incomplete: 1, 'before-sync': 1 });
  // Each reason once, however often the port was looked for meanwhile.
  const kinds = acts.map(({ kind }) => kind).filter((kind) => kind !== 'port-missing');
  expect(kinds).toEqual(['port-is-another', 'port-is-another', 'port-moved']);
  expect(acts.length - kinds.length).toBeLessThanOrEqual(1);
});

it('N7: the wall clock is set back by an hour in mid-pull: intervals rest on the other clock, the step is noted', async () => {
  const { recorder, readout, ask, pullId } = await recordingHere();
  const real = Date.now;
  const stepped = vi.spyOn(Date, 'now').mockImplementation(() => real() - 3_600_000);
  onTestFinished(() => stepped.mockRestore());
  const before = recorder.recording?.state.nextSeq ?? 0;
  await until(async () => {
    const { acts } = await ask('pull.get', { pullId });
    return acts.some(({ kind }) => kind === 'clock-stepped');
  }, 'the step is noted');
  await readout.pause();
  expect(recorder.recording?.state.nextSeq).toBeGreaterThan(before);
  await until(() => recorder.recording?.state.nextSeq === readout.sent(), 'all is read');
  await ask('pull.close', {});
  await expectAllKept({ ask }, pullId, readout.sent());
  const { columns } = await ask('pull.readings', { pullId, fromSeq: 0, count: 10_000 });
  const steps = columns.elapsedUs.slice(1).map((us, i) => us - (columns.elapsedUs[i] ?? 0));
  expect(Math.min(...steps)).toBeGreaterThanOrEqual(0);
  expect(Math.max(...steps)).toBeLessThan(60_000_000);
  const { acts, gaps } = await ask('pull.get', { pullId });
  expect(acts.map(({ words }) => words).join()).toContain('set back by 3600');
  expect(gaps).toEqual([]);
});

it('S2: the computer sleeps in mid-pull and no event tells it: the gap is marked when it wakes, and ends with the next reading', async () => {
  const { recorder, readout, ask, pullId } = await recordingHere();
  await readout.pause();
  const real = os.uptime();
  const began = performance.now();
  const realNow = Date.now;
  const walled = vi.spyOn(Date, 'now').mockImplementation(() => realNow() + 600_000);
  onTestFinished(() => walled.mockRestore());
  // The monotonic clock stands still in sleep; the wall clock and the time since the start go on.
  const slept = vi
    .spyOn(os, 'uptime')
    .mockImplementation(() => real + 600 + (performance.now() - began) / 1000);
  onTestFinished(() => slept.mockRestore());
  const before = recorder.recording?.state.nextSeq ?? 0;
  await until(async () => (await ask('pull.get', { pullId })).gaps.length > 0, 'the gap is marked');
  readout.run(20);
  await until(() => (recorder.recording?.state.nextSeq ?? 0) > before + 20, 'readings come again');
  await readout.pause();
  await until(() => recorder.recording?.state.nextSeq === readout.sent(), 'all is read');
  await ask('pull.close', {});
  await expectAllKept({ ask }, pullId, readout.sent());
  const { gaps, acts } = await ask('pull.get', { pullId });
  expect(gaps.map(({ cause }) => cause)).toEqual(['computer-slept']);
  expect(gaps[0]?.words).toContain('slept for 600');
  // Once: the wall clock, which is ahead by as much, was not set.
  expect(acts.filter(({ kind }) => kind === 'clock-stepped' || kind === 'computer-slept')).toEqual([]);
  expect(gaps[0]?.beforeSeq).toBeGreaterThanOrEqual(before);
  expect(gaps[0]?.toElapsedUs).not.toBeNull();
});
