/** One pull from the first line to the closed record, on a real port, by a real recorder process. */
import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { EventOf, ReplyOf } from '../../core/contract/index.ts';
import type { Session } from '../../core/contract/session.ts';
import { connectToRecorder } from '../../electron/recorder/client.ts';
import { socketPlace } from '../../electron/recorder/socket-place.ts';
import {
  BY_HAND,
  PROFILE,
  RULES,
  RecorderProcess,
  lineOf,
  makeReadout,
  scratch,
} from './recorder-process.ts';
import { until } from './support/until.ts';

/** Rises to 30 kN, breaks, stays near zero. */
const course = (count: number): number => (count < 20 ? 3 : count < 170 ? 200 * (count - 18) : 12);
/** From the sender's timer to the recorder; half of the tail on a busy machine, a few milliseconds on a free one. */
const ON_THE_WAY_MS = 500;

describe('a pull over a real port', () => {
  it('is kept whole: raw bytes as sent, every line a reading, marks where they belong, the same curve afterwards', async () => {
    const folder = scratch();
    const readout = await makeReadout(folder);
    const archivePath = join(folder, 'a.gaugemark');
    const recorder = await RecorderProcess.start(archivePath);
    const batches: EventOf<'readings'>[] = [];
    recorder.client.onEvent((name, event) => {
      if (name === 'readings') batches.push(event as EventOf<'readings'>);
    });
    const pullId = await recorder.ready(readout.port);
    await new Promise((done) => setTimeout(done, 100));
    const sentAtMs: number[] = [];
    readout.run(5, (count) => {
      sentAtMs[count] = performance.now();
      return course(count);
    });
    await recorder.untilState('ended');
    await readout.pause();

    const kept = await recorder.ask('pull.get', { pullId });
    const counts = await recorder.countsOf(pullId);
    expect(counts).toEqual(counts.map((_, i) => i));
    expect(kept).toMatchObject({
      state: 'ended',
      broke: true,
      misfitCount: {},
      gaps: [],
      triggerSeq: 20,
      breakSeq: 170,
    });
    // The tail of one second, by the record's own times: it ends no earlier, and the last reading is that before its end.
    const { columns: timed } = await recorder.ask('pull.readings', { pullId, fromSeq: 0, count: 200_000 });
    const breakUs = timed.elapsedUs[170] ?? Number.NaN;
    const lastUs = timed.elapsedUs.at(-1) ?? Number.NaN;
    const endUs = kept.marks.find(({ kind }) => kind === 'record-ends')?.elapsedUs ?? Number.NaN;
    expect(endUs - breakUs).toBeGreaterThanOrEqual(1e6);
    // How far before its end, the sender knows: on a busy machine it is late with a line now and then.
    const betweenMs = (sentAtMs[counts.length] ?? Infinity) - (sentAtMs[counts.length - 1] ?? Number.NaN);
    expect(lastUs - breakUs).toBeGreaterThan(1e6 - (betweenMs + ON_THE_WAY_MS) * 1000);
    expect(kept.marks.map((m) => [m.kind, m.cause])).toEqual([
      ['record-begins', 'program'],
      ['trigger', 'rule'],
      ['break', 'rule'],
      ['record-ends', 'rule'],
    ]);
    const raw = await recorder.rawOf(pullId);
    const sent = Array.from({ length: readout.sent() }, (_, i) => lineOf(i, course(i))).join('');
    expect(sent.startsWith(raw)).toBe(true);
    // The last bytes of the record may be half a line: kept raw, no reading.
    expect(raw.split('\r\n').length - 1).toBe(counts.length);

    // What was sent to the client while it happened is the curve that is read back.
    const live = batches.flatMap((b) => [...(b.columns.channels[1]?.value ?? [])]);
    const { columns } = await recorder.ask('pull.readings', { pullId, fromSeq: 0, count: 200_000 });
    expect(live).toEqual([...(columns.channels[1]?.value ?? [])]);

    const evaluation = await recorder.ask('pull.evaluate', { pullId });
    expect(evaluation.results.find((r) => r.symbol === 'Fm')?.value).toBe(30_200);
    expect((await recorder.ask('archive.check', {})).sound).toBe(true);

    const file = join(folder, 'pull.csv');
    await recorder.ask('archive.export', { pullId, to: file });
    const rows = readFileSync(file, 'utf8')
      .split('\r\n')
      .filter((line) => !line.startsWith('#'));
    expect(rows[0]).toBe(
      'reading,time_s,other_count_1,force_N,extension_mm,shown_other_count_1,status_other_count,shown_force_N,status_force,shown_extension_mm,status_extension,status',
    );
    expect(rows[26]?.split(',').slice(2, 5)).toEqual(['25', '1400', '0.0025']);
    expect(rows.length).toBe(counts.length + 2);

    expect(await recorder.stop()).toBe(0);
    const again = await RecorderProcess.start(archivePath);
    const after = await again.ask('pull.readings', { pullId, fromSeq: 0, count: 200_000 });
    expect(after.columns).toEqual(columns);
    expect((await again.ask('pull.evaluate', { pullId })).results).toEqual(evaluation.results);
  });

  it('is watched by a client that comes late: it asks for what it missed and gets the rest as it comes', async () => {
    const folder = scratch();
    const readout = await makeReadout(folder);
    const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
    const pullId = await recorder.ready(readout.port);
    readout.run(4);
    await recorder.untilReadings(100);
    const late = await connectToRecorder(recorder.archivePath);
    if (late === null) throw new Error('the recorder does not answer');
    const seen = new Map<number, number>();
    late.onEvent((name, event) => {
      if (name !== 'readings') return;
      const { columns } = event as EventOf<'readings'>;
      columns.channels[0]?.value.forEach((value, i) => seen.set(columns.firstSeq + i, value));
    });
    await until(() => seen.size > 50, 'readings come to the late client');
    const first = Math.min(...seen.keys());
    const missed = await late.request('pull.readings', { pullId, fromSeq: 0, count: first });
    if (!missed.ok) throw new Error(missed.fault.sentence);
    expect(missed.value.columns.count).toBe(first);
    missed.value.columns.channels[0]?.value.forEach((value, i) => seen.set(i, value));
    await readout.pause();
    expect([...seen.keys()].sort((a, b) => a - b)).toEqual([...seen.keys()].map((_, i) => i));
    late.close();
  });
});

describe('a record that is held open after its break', () => {
  /** Rises to 20 kN and falls to 40 %, where it stays: the grips have slipped. */
  const slipped = (count: number): number => (count < 20 ? 3 : count < 120 ? 200 * (count - 19) : 8_000);
  const HALF = { ...RULES, breakRule: { ...RULES.breakRule, fractionOfPeak: 0.5 } };

  it('lets a detected break be taken back long after its tail: both breaks are marked, the later and its peak count (N8)', async () => {
    const folder = scratch();
    const readout = await makeReadout(folder);
    const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
    const pullId = await recorder.ready(readout.port, { ...HALF, tailS: 0.5, heldOpenS: 300 });
    readout.run(5, slipped);
    await recorder.untilState('broken');
    await until(async () => (await pullNow(recorder)).tailEndsInS === 0, 'the tail is over');
    await recorder.untilReadings(180);
    // What is recorded so far is evaluated while it runs.
    const early = await recorder.ask('pull.evaluate', { pullId });
    expect(early.results.find((r) => r.symbol === 'Fm')?.value).toBe(20_000);
    // A line that came within the first moments may have begun before the record, and is kept raw only.
    const [first = Number.NaN] = await recorder.countsOf(pullId);
    expect([0, 1]).toContain(first);
    expect(await recorder.ask('pull.get', { pullId })).toMatchObject({
      state: 'broken',
      breakSeq: 120 - first,
      peakForceN: 20_000,
    });
    await readout.pause();
    expect(await recorder.ask('pull.undo-break', {})).toEqual({ state: 'pulling' });

    const from = readout.sent();
    const bearsMore = (count: number): number => (count < from + 100 ? 8_000 + 240 * (count - from) : 12);
    readout.run(5, bearsMore);
    await recorder.untilState('broken');
    await recorder.untilReadings(from + 150);
    const late = await recorder.ask('pull.evaluate', { pullId });
    await recorder.ask('pull.note-fracture', { pullId, note: { place: 'base-metal' } });
    expect((await recorder.ask('session.get', {})).state).toBe('ended');
    await readout.pause();

    const kept = await recorder.ask('pull.get', { pullId });
    expect(kept.marks.map((m) => [m.kind, m.cause, m.words])).toEqual([
      ['record-begins', 'program', 'recording begins'],
      ['trigger', 'rule', 'force at or above 200 N for 3 readings'],
      ['break', 'rule', 'force at or below 50 % of the peak of 20000 N for 2 readings'],
      ['undo-break', 'person', 'break taken back by hand'],
      ['break', 'rule', 'force at or below 50 % of the peak of 31760 N for 2 readings'],
      ['record-ends', 'person', 'record closed as its fracture was noted'],
    ]);
    expect(kept).toMatchObject({ breakSeq: from + 100 - first, peakForceN: 31_760, broke: true, gaps: [] });
    const counts = await recorder.countsOf(pullId);
    expect(counts).toEqual(counts.map((_, i) => i + first));
    // Closed, it gives what it gave while it ran.
    const result = await recorder.ask('pull.evaluate', { pullId });
    expect(valuesOf(result)).toEqual(valuesOf(late));
    expect(result.results.find((r) => r.symbol === 'Fm')?.value).toBe(31_760);
    expect((await recorder.ask('archive.check', {})).sound).toBe(true);
  });

  it('is put away by the next pull, by the closed readout, and at its bound by nobody at all', async () => {
    const folder = scratch();
    const readout = await makeReadout(folder);
    const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
    const held = { ...BY_HAND, heldOpenS: 300 };
    const first = await recorder.ready(readout.port, held);
    const { specimenId } = await recorder.ask('pull.get', { pullId: first });
    await recorder.ask('pull.start', {});
    // A pull that runs is not put away by anything.
    expect(await recorder.faultOf('pull.ready', { specimenId, ...held })).toBe('pull-open');
    await recorder.ask('pull.stop', {});
    expect(await recorder.faultOf('pull.ready', { specimenId: 99, ...held })).toBe('no-such-specimen');
    expect((await recorder.ask('session.get', {})).state).toBe('stopped');
    const { pullId: second } = await recorder.ask('pull.ready', { specimenId, ...held });
    await recorder.ask('pull.start', {});
    await recorder.ask('pull.mark-break', {});
    await recorder.ask('readout.close', {});
    const third = await recorder.ready(readout.port, { ...held, heldOpenS: 1 });
    await recorder.ask('pull.start', {});
    await recorder.ask('pull.mark-break', {});
    recorder.client.close();
    // Looked at now and then, by a client that goes again at once.
    const seen: string[] = [];
    await until(async () => {
      const client = await connectToRecorder(recorder.archivePath);
      const answer = await client?.request('session.get', {});
      client?.close();
      if (answer?.ok === true) seen.push(answer.value.state);
      return seen.at(-1) === 'ended';
    }, 'the record ends by itself');
    const client = await connectToRecorder(recorder.archivePath);
    const endOf = async (pullId: number) => {
      const answer = await client?.request('pull.get', { pullId });
      return answer?.ok === true ? [answer.value.state, answer.value.marks.at(-1)?.words] : answer;
    };
    expect(await endOf(first)).toEqual(['ended', 'record closed as the next pull was made ready']);
    expect(await endOf(second)).toEqual(['ended', 'record closed with its readout']);
    expect(await endOf(third)).toEqual(['ended', 'closed by itself 1 s after the break']);
    client?.close();
  });
});

const valuesOf = ({ results }: ReplyOf<'pull.evaluate'>) =>
  results.map(({ symbol, value, unit }) => [symbol, value, unit]);

async function pullNow(recorder: RecorderProcess): Promise<NonNullable<Session['pull']>> {
  const { pull } = await recorder.ask('session.get', {});
  if (pull === null) throw new Error('No pull is open.');
  return pull;
}

describe('acts of the operator', () => {
  it('start, stop, continue, mark and undo a break by hand, and refuse what does not fit', async () => {
    const folder = scratch();
    const readout = await makeReadout(folder);
    const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
    expect(await recorder.faultOf('pull.start', {})).toBe('step-not-now');
    const pullId = await recorder.ready(readout.port, {
      ...RULES,
      trigger: { kind: 'by-hand' },
      tailS: null,
    });
    readout.run(5);
    await recorder.untilReadings(10);
    expect(await recorder.faultOf('pull.stop', {})).toBe('step-not-now');
    for (const [name, state] of [
      ['pull.start', 'pulling'],
      ['pull.mark-break', 'broken'],
      ['pull.undo-break', 'pulling'],
      ['pull.stop', 'stopped'],
      ['pull.continue', 'pulling'],
    ] as const)
      expect(await recorder.ask(name, {})).toEqual({ state });
    expect(await recorder.faultOf('readout.close', {})).toBe('pull-open');
    const stoppedAt = (await recorder.ask('session.get', {})).pull?.readingCount ?? 0;
    await recorder.untilReadings(stoppedAt + 20);
    expect(await recorder.ask('pull.close', {})).toEqual({ state: 'ended' });
    const kept = await recorder.ask('pull.get', { pullId });
    expect(kept.breakSeq).toBeNull();
    expect(kept.acts.map((a) => a.kind)).toEqual(['start', 'mark-break', 'undo-break', 'stop', 'continue']);
    const counts = await recorder.countsOf(pullId);
    // A line that came within the first moments may have begun before the record, and is kept raw only.
    expect([0, 1]).toContain(counts[0]);
    expect(counts).toEqual(counts.map((_, i) => i + (counts[0] ?? 0)));
    expect(await recorder.ask('pull.put-away', {})).toEqual({ state: 'listening' });
    await recorder.ask('readout.close', {});
    expect((await recorder.ask('session.get', {})).state).toBe('closed');
  });

  it('take a zero before the trigger, which holds for the whole record, and none after it', async () => {
    const folder = scratch();
    const readout = await makeReadout(folder);
    const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
    const pullId = await recorder.ready(readout.port, {
      ...RULES,
      trigger: { kind: 'by-hand' },
      tailS: null,
    });
    let shownN = 35;
    readout.run(5, () => shownN);
    await recorder.untilReadings(5);
    expect(await recorder.ask('pull.zero', { keys: ['load'] })).toMatchObject({
      zeros: { load: 35 },
      moved: {},
    });
    shownN = 37.5;
    // 2.5 N above the zero that holds: its drift.
    await until(
      async () =>
        (await recorder.ask('session.get', {})).live.find(({ key }) => key === 'load')?.value === 2.5,
      'the load has drifted',
    );
    expect(await recorder.ask('pull.zero', { keys: ['load'] })).toMatchObject({
      zeros: { load: 37.5 },
      moved: { load: 2.5 },
    });
    expect(await recorder.faultOf('pull.zero', { keys: ['load'], sendCommand: true })).toBe(
      'no-zero-command',
    );
    expect(await recorder.faultOf('pull.zero', { keys: ['nothing'] })).toBe('no-such-channel');
    await recorder.ask('pull.start', {});
    expect(await recorder.faultOf('pull.zero', { keys: ['load'] })).toBe('step-not-now');
    await recorder.ask('pull.close', {});
    const { columns } = await recorder.ask('pull.readings', { pullId, fromSeq: 0, count: 1000, shown: true });
    expect(new Set(columns.channels[1]?.value)).toEqual(new Set([-2.5, 0]));
    expect(columns.channels[1]?.shown?.mantissa[0]).toBe(350);
    // What stood on the display before is no load of the record.
    expect((await recorder.ask('pull.list', { limit: 1 })).items[0]?.peakForceN).toBeCloseTo(0, 9);
    expect((await recorder.ask('pull.get', { pullId })).zeros).toEqual({ load: 37.5 });
  });
});

it('shows raw lines and what became of them side by side before anything is recorded', async () => {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
  await recorder.ask('readout.open', { source: { kind: 'serial', path: readout.port }, profile: PROFILE });
  await new Promise((done) => setTimeout(done, 100));
  await readout.pty.write('1,12.5,0.1\r\nhello\r\n2,OL,0.2\r\n');
  await until(
    async () => (await recorder.ask('readout.preview', {})).lines.length === 3,
    'three lines are shown',
  );
  const { lines } = await recorder.ask('readout.preview', {});
  expect(lines.map((l) => [l.text, l.misfit, l.values.map((v) => v.shownText)])).toEqual([
    ['1,12.5,0.1', null, ['1 1', '12.5 N', '0.1 mm']],
    ['hello', 'layout', []],
    ['2,OL,0.2', null, ['2 1', 'overload', '0.2 mm']],
  ]);
  expect((await recorder.ask('pull.list', { limit: 10 })).items).toEqual([]);
});

it('listens where only this person can reach it', async () => {
  const folder = scratch();
  const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
  const place = socketPlace(recorder.archivePath);
  expect(statSync(place.path).mode & 0o777).toBe(0o600);
  expect(statSync(place.folder ?? '').mode & 0o777).toBe(0o700);
});
