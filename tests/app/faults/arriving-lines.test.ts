/** Lines as a port hands them over: from the middle on, several at once, cut in two at the wrong place. See `line-rows.ts`. */
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { expect, it, onTestFinished } from 'vitest';
import { QUIET_BEFORE_LINE_MS } from '../../../drivers/lines/line-parser.ts';
import { loadProfile } from '../../unit/drivers/profile-of.ts';
import { makePty } from '../drivers-pty.ts';
import {
  BY_HAND,
  RULES,
  RecorderProcess,
  SPECIMEN,
  lineOf,
  makeReadout,
  scratch,
} from '../recorder-process.ts';
import { expectAllKept } from '../support/all-kept.ts';
import { until } from '../support/until.ts';

/** Openings in mid-line that are looked at. */
const TORN_OPENINGS = 3;
/** Openings at most: one may fall between two lines, or a busy machine may hold the bytes up for longer than a pause takes. */
const OPENINGS_MAX = 40;
const SENDS_EVERY_MS = 2;

it('S7: a readout that was sending before the program began is joined in mid-line: the torn line is kept raw, is before sync and no number', async () => {
  const folder = scratch();
  const pty = await makePty(folder);
  onTestFinished(pty.kill);
  // Of such a number each end is a number, too.
  const loads: number[] = [];
  let sent = '';
  let unsent = '';
  let writing = Promise.resolve();
  const sendPart = (): void => {
    if (unsent === '') {
      loads.push(2 ** 30 + loads.length);
      unsent = `${String(loads.at(-1))}.5\r\n`;
    }
    const part = unsent.slice(0, 3);
    unsent = unsent.slice(3);
    sent += part;
    writing = writing.then(() => pty.write(part));
  };
  let sending = setInterval(sendPart, SENDS_EVERY_MS);
  onTestFinished(() => clearInterval(sending));

  const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
  const { specimenId } = await recorder.ask('specimen.save', { specimen: SPECIMEN });
  const profile = loadProfile();
  let torn = 0;
  for (let opening = 0; torn < TORN_OPENINGS && opening < OPENINGS_MAX; opening++) {
    const sentBefore = sent.length;
    clearInterval(sending);
    sending = setInterval(sendPart, SENDS_EVERY_MS);
    await until(() => sent.length > sentBefore + 20, 'it sends');
    const { pullId } = await recorder.ask('pull.ready', {
      specimenId,
      source: { kind: 'serial', path: pty.path },
      profile,
      ...BY_HAND,
    });
    await recorder.untilReadings(4);
    clearInterval(sending);
    while (unsent !== '') sendPart();
    await writing;
    await until(
      async () =>
        sent.endsWith(await recorder.rawOf(pullId)) && (await recorder.rawOf(pullId)).endsWith('\n'),
      'all is read',
    );
    await recorder.ask('pull.close', {});
    await recorder.ask('readout.close', {});
    const { bytes, elapsedUs, byteCount } = await recorder.ask('pull.raw', {
      pullId,
      fromChunk: 0,
      count: 1_000,
    });
    const raw = Buffer.from(bytes).toString('latin1');
    const before = sent.slice(0, sent.length - raw.length);
    expect(before + raw).toBe(sent);
    // The record begins with the opening, so that its times are those since then.
    const firstUs = elapsedUs[byteCount.findIndex((count) => count > 0)] ?? Number.NaN;
    const [part = '', ...whole] = raw.trimEnd().split('\r\n');
    if (before.endsWith('\n') || part === '' || firstUs >= QUIET_BEFORE_LINE_MS * 1_000) continue;
    torn++;
    expect(await recorder.countsOf(pullId)).toEqual(whole.map(Number));
    expect(whole.every((line) => loads.includes(Number(line) - 0.5))).toBe(true);
    expect((await recorder.ask('pull.get', { pullId })).misfitCount).toEqual({ 'before-sync': 1 });
    expect((await recorder.ask('archive.check', { pullId })).sound).toBe(true);
  }
  expect(torn).toBe(TORN_OPENINGS);
});

it('S19: three lines at once, then nothing for 16 ms: each keeps its place and the time at which it came, and no even spacing is put in', async () => {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
  const pullId = await recorder.ready(readout.port, BY_HAND);
  await pause(100);
  const [atOnce, heldMs, writes] = [3, 16, 30];
  for (let write = 1; write <= writes; write++) {
    readout.burst(atOnce);
    // Each has been read before the next is held back, however busy the machine is.
    await recorder.untilReadings(write * atOnce);
    await pause(heldMs);
  }
  await readout.pause();
  await until(async () => (await recorder.rawOf(pullId)).endsWith('\n'), 'the LF of the last line is read');
  await recorder.ask('pull.close', {});
  await expectAllKept(recorder, pullId, readout.sent());
  const { columns } = await recorder.ask('pull.readings', { pullId, fromSeq: 0, count: 10_000 });
  const steps = columns.elapsedUs.slice(1).map((us, i) => us - (columns.elapsedUs[i] ?? Number.NaN));
  expect(Math.min(...steps)).toBeGreaterThanOrEqual(0);
  const isBetweenWrites = (_: number, i: number): boolean => (i + 1) % atOnce === 0;
  const within = steps.filter((us, i) => !isBetweenWrites(us, i)).toSorted();
  // Evened out, each step would be a third of the time between two writes.
  expect(within[writes]).toBeLessThan((heldMs * 1_000) / atOnce / 2);
  // A timer of whole milliseconds may be one early.
  expect(Math.min(...steps.filter(isBetweenWrites))).toBeGreaterThan((heldMs - 1) * 1_000);
});

it('N8: the reading that crosses the threshold comes in two chunks: the pull is marked at it, and all before it is there', async () => {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
  const pullId = await recorder.ready(readout.port, RULES);
  await pause(100);
  const loadOf = (count: number): number => (count < 4 ? 3 : 1_000 + count);
  const lines = Array.from({ length: 10 }, (_, count) => lineOf(count, loadOf(count)));
  const crossing = lines[4] ?? '';
  // "4,10" alone would be below the threshold of 200 N, and "04.0,0.0004" no line.
  const cut = crossing.indexOf('04.0');
  expect(cut).toBeGreaterThan(0);
  await readout.pty.write(lines.slice(0, 4).join('') + crossing.slice(0, cut));
  await until(async () => (await recorder.rawOf(pullId)).endsWith('4,10'), 'the first part is read');
  expect((await recorder.ask('session.get', {})).state).toBe('ready');
  await readout.pty.write(crossing.slice(cut) + lines.slice(5).join(''));
  await recorder.untilReadings(lines.length);
  await recorder.untilState('pulling');
  await until(async () => (await recorder.rawOf(pullId)).endsWith('\n'), 'the LF of the last line is read');
  await recorder.ask('pull.close', {});
  const { marks, misfitCount } = await recorder.ask('pull.get', { pullId });
  expect(marks.filter(({ kind }) => kind === 'trigger').map(({ seq }) => seq)).toEqual([4]);
  expect(misfitCount).toEqual({});
  const { byteCount } = await recorder.ask('pull.raw', { pullId, fromChunk: 0, count: 100 });
  expect([...byteCount]).toContain(cut);
  await expectAllKept(recorder, pullId, lines.length, { loadOf });
});
