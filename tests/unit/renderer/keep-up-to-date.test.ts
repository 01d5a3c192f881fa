/** A result that is shown while its record runs is worked out again when more has come, without holding up the record. */
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { Session } from '../../../core/contract/session.ts';
import { keepUpToDate } from '../../../renderer/stations/keep-up-to-date.ts';

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

const snapshot = (state: Session['state'], readingCount: number, marks = 3): Session =>
  ({ state, pull: { readingCount, marks: Array.from({ length: marks }), gaps: [] } }) as unknown as Session;

/** An evaluation that takes `ms`. */
function evaluations(ms: number) {
  let asked = 0;
  return {
    asked: () => asked,
    refresh: async () => {
      asked++;
      await new Promise((done) => setTimeout(done, ms));
    },
  };
}

it('asks at once at each step, once for what has come meanwhile, and not at all when nothing has', async () => {
  const { asked, refresh } = evaluations(10);
  const look = keepUpToDate(refresh);
  look.saw(snapshot('broken', 100));
  expect(asked()).toBe(1);
  await vi.advanceTimersByTimeAsync(20);
  for (let count = 101; count < 140; count++) look.saw(snapshot('broken', count));
  expect(asked()).toBe(1);
  await vi.advanceTimersByTimeAsync(3_100);
  expect(asked()).toBe(2);
  look.saw(snapshot('broken', 139));
  await vi.advanceTimersByTimeAsync(60_000);
  expect(asked()).toBe(2);
  look.saw(snapshot('ended', 139, 4));
  expect(asked()).toBe(3);
});

it('asks again for a step that came while an answer was under way', async () => {
  const { asked, refresh } = evaluations(500);
  const look = keepUpToDate(refresh);
  look.saw(snapshot('broken', 100));
  look.saw(snapshot('ended', 120, 4));
  expect(asked()).toBe(1);
  await vi.advanceTimersByTimeAsync(600);
  expect(asked()).toBe(2);
});

it('leaves the archive most of its time where an evaluation is long, and asks no more when it is let go of', async () => {
  const { asked, refresh } = evaluations(2_000);
  const look = keepUpToDate(refresh);
  look.saw(snapshot('broken', 100));
  await vi.advanceTimersByTimeAsync(2_000);
  look.saw(snapshot('broken', 200));
  await vi.advanceTimersByTimeAsync(39_000);
  expect(asked()).toBe(1);
  await vi.advanceTimersByTimeAsync(2_000);
  expect(asked()).toBe(2);
  await vi.advanceTimersByTimeAsync(2_000);
  look.saw(snapshot('broken', 300));
  look.stop();
  await vi.advanceTimersByTimeAsync(120_000);
  expect(asked()).toBe(2);
});
