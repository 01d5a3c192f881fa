/** A readout that speaks once a minute: nothing is lost, nothing is taken for a break or for a silence that is none. */
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { Session } from '../../../core/contract/session.ts';
import { newPull } from '../../../core/pull/pull-state.ts';
import { takeReading } from '../../../core/pull/take-reading.ts';
import { NoticeBoard } from '../../../electron/recorder/notice-board.ts';
import { PullLines } from '../../../electron/recorder/pull-lines.ts';
import { refuseAgedZero } from '../../../electron/recorder/take-zero.ts';
import { RULES } from '../pull/played-pull.ts';
import { loadProfile, nowUs, playedReadout } from './played-readout.ts';

const MINUTE_MS = 60_000;
beforeEach(() => void vi.useFakeTimers({ toFake: ['hrtime', 'Date', 'setTimeout', 'clearTimeout'] }));
afterEach(() => void vi.useRealTimers());

async function watched(more: object) {
  const alarms: string[] = [];
  const notices = new NoticeBoard(
    ({ code, over, severity }) => {
      if (severity === 'alarm') alarms.push(over ? `${code} over` : code);
    },
    () => Date.now(),
  );
  const { live, far } = await playedReadout({ profile: loadProfile(more), notices });
  return {
    live,
    alarms,
    /** The watch looks each second, as the recorder has it look. */
    pass: (ms: number) => {
      for (let at = 0; at < ms; at += 1000) {
        vi.advanceTimersByTime(1000);
        live.watchSilence(nowUs());
      }
    },
    say: (text: string) => far.onChunk(Buffer.from(text), nowUs()),
  };
}

it('raises no alarm between its lines where the profile states its rate, and one when two lines are missing', async () => {
  const { live, alarms, pass, say } = await watched({ rateHz: 1 / 60 });
  for (let minute = 0; minute < 5; minute++) {
    pass(MINUTE_MS);
    say(`${String(minute)}.0\r\n`);
    expect(live.isFresh(nowUs())).toBe(true);
  }
  expect([live.facts(nowUs()).lineCount, alarms]).toEqual([5, []]);
  pass(2.6 * MINUTE_MS);
  expect([live.isFresh(nowUs()), alarms]).toEqual([false, ['no-fresh-reading']]);
  say('9.0\r\n');
  expect(alarms).toEqual(['no-fresh-reading', 'no-fresh-reading over']);
});

it('is told at first where the profile states no rate, and no longer once its pace is seen', async () => {
  const { alarms, pass, say } = await watched({});
  for (let minute = 0; minute < 4; minute++) {
    pass(MINUTE_MS);
    say(`${String(minute)}.0\r\n`);
  }
  const untilThen = alarms.length;
  expect(untilThen).toBeGreaterThan(0);
  for (let minute = 4; minute < 8; minute++) {
    pass(MINUTE_MS);
    say(`${String(minute)}.0\r\n`);
  }
  expect(alarms).toHaveLength(untilThen);
  pass(3 * MINUTE_MS);
  expect(alarms.at(-1)).toBe('no-fresh-reading');
});

it.each([
  ['states its rate', { rateHz: 1 / 600 }],
  ['shows its pace alone', {}],
])(
  'tells two and a half minutes without a reading of one that is slower still and %s',
  async (_how, more) => {
    const { live, alarms, pass, say } = await watched(more);
    for (let line = 0; line < 5; line++) {
      vi.advanceTimersByTime(10 * MINUTE_MS);
      say(`${String(line)}.0\r\n`);
    }
    pass(2.4 * MINUTE_MS);
    expect(alarms).toEqual([]);
    pass(0.2 * MINUTE_MS);
    expect([live.isFresh(nowUs()), alarms]).toEqual([false, ['no-fresh-reading']]);
  },
);

it('gives no zero that is older than half a minute, though nothing is missed yet', async () => {
  const { live, pass, say } = await watched({ rateHz: 1 / 60 });
  pass(MINUTE_MS);
  say('3.0\r\n');
  const taken = (): void => {
    const its = { readout: live.facts(nowUs()), signal: live.signal(nowUs()) };
    refuseAgedZero({ ...its, second: null } as unknown as Session, ['load']);
  };
  pass(MINUTE_MS / 2);
  expect(taken).not.toThrow();
  pass(2000);
  expect(live.isFresh(nowUs())).toBe(true);
  expect(taken).toThrow(/is 32 s old.*within 30 s after the next one/);
  say('3.0\r\n');
  expect(taken).not.toThrow();
});

it('leaves a fast readout without a stated rate the two seconds that it had', async () => {
  const { alarms, pass, say, live } = await watched({});
  for (let line = 0; line < 10; line++) {
    vi.advanceTimersByTime(100);
    say('1.0\r\n');
  }
  pass(1000);
  expect(live.isFresh(nowUs())).toBe(true);
  pass(1000);
  expect(alarms).toEqual(['no-fresh-reading']);
});

it('loses no line, and breaks where the load falls and nowhere before', () => {
  const loads = [0, 5, 300, 900, 1500, 2100, 2090, 2050, 10, 8];
  const chunks = loads.map((load, minute) => ({
    chunkSeq: minute,
    opening: 0,
    elapsedUs: (minute + 1) * MINUTE_MS * 1000,
    bytes: Buffer.from(`${load.toFixed(1)}\r\n`),
  }));
  const lines = new PullLines({ profile: loadProfile(), second: null });
  const readings = chunks.flatMap((chunk) =>
    lines
      .push(chunk)
      .flatMap(({ reading }) => (reading === null ? [] : [{ reading, elapsedUs: chunk.elapsedUs }])),
  );
  expect(readings.map(({ reading }) => reading.channels[0]?.mantissa)).toEqual(
    loads.map((load) => load * 10),
  );
  let state = newPull(RULES);
  const marks: string[] = [];
  for (const [seq, { elapsedUs }] of readings.entries()) {
    const taken = takeReading(state, { seq, elapsedUs, forceN: loads[seq] ?? Number.NaN });
    state = taken.state;
    marks.push(...taken.marks.map(({ kind, seq: at }) => `${kind} ${String(at)}`));
  }
  expect(marks).toEqual(['trigger 2', 'break 8']);
  expect(state.peak.sure?.forceN).toBe(2100);
});
