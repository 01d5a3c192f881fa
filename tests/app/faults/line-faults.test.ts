/** Faults of the serial line that take the port's process down, or fool its clock. See `line-rows.ts`. */
import os from 'node:os';
import { join } from 'node:path';
import { expect, it, onTestFinished, vi } from 'vitest';
import { Recorder } from '../../../electron/recorder/recorder.ts';
import { answerRequest } from '../../../electron/recorder/requests.ts';
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
  const { NODE_OPTIONS: before } = process.env;
  process.env['NODE_OPTIONS'] = `--import ${THROWS}`;
  const recorder = await RecorderProcess.start(archive, RECORDER_SOURCE).finally(() => {
    if (before === undefined) delete process.env['NODE_OPTIONS'];
    else process.env['NODE_OPTIONS'] = before;
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

/** A recorder in this process, so that its clocks can be set, on a readout that sends; its record is open. */
async function recordingHere() {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const recorder = new Recorder({
    archivePath: join(folder, 'a.gaugemark'),
    programVersion: '9.9.9',
    makeFolder: false,
    resume: true,
    log: () => undefined,
  });
  onTestFinished(() => recorder.end());
  await recorder.begin();
  const ask: Asked['ask'] = async (name, payload) => {
    const answer = await answerRequest(recorder, name, payload);
    if (!answer.ok) throw new Error(answer.fault.sentence);
    return answer.value;
  };
  const { specimenId } = await ask('specimen.save', { specimen: SPECIMEN });
  await ask('readout.open', { source: { kind: 'serial', path: readout.port }, profile: PROFILE });
  const { pullId } = await ask('pull.ready', { specimenId, ...BY_HAND });
  // A line that comes at once could be the rest of one.
  await new Promise((done) => setTimeout(done, 100));
  readout.run(20);
  await until(() => (recorder.recording?.state.nextSeq ?? 0) > 20, 'readings');
  return { recorder, readout, ask, pullId };
}

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
  const { gaps } = await ask('pull.get', { pullId });
  expect(gaps.map(({ cause }) => cause)).toEqual(['computer-slept']);
  expect(gaps[0]?.words).toContain('slept for 600');
  expect(gaps[0]?.beforeSeq).toBeGreaterThanOrEqual(before);
  expect(gaps[0]?.toElapsedUs).not.toBeNull();
});
