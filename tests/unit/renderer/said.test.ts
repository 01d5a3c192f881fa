import { afterEach, beforeAll, beforeEach, expect, it, vi } from 'vitest';
import { said, say, sayAloud } from '../../../renderer/design/said.tsx';
import { REST_MS, SaidAtRest, WorkInParts } from '../../../renderer/design/told-in-parts.ts';

/** As `renderer/design/said.tsx` promises it. */
const PERIOD_MS = 2_000;
const heard: { readonly sentence: string; readonly atMs: number }[] = [];
let stopHearing: () => void;

// A sentence of another test may have its two seconds still, by the real clock; this one's are over at once.
beforeAll(async () => {
  vi.useFakeTimers();
  say('of this test');
  await vi.waitUntil(() => said.value.trim() === 'of this test', { timeout: 5 * PERIOD_MS });
  vi.runAllTimers();
  vi.useRealTimers();
});
beforeEach(() => {
  vi.useFakeTimers();
  heard.length = 0;
  stopHearing = said.subscribe((sentence) => heard.push({ sentence, atMs: Date.now() }));
  heard.length = 0;
});
afterEach(() => {
  vi.runAllTimers();
  stopHearing();
  vi.useRealTimers();
});

it('says at most one sentence in two seconds, the newest, and the last one always', () => {
  for (let i = 0; i < 200; i++) {
    (i % 2 === 0 ? say : sayAloud)(`sentence ${String(i)}`);
    vi.advanceTimersByTime(50);
  }
  vi.advanceTimersByTime(3 * PERIOD_MS);
  expect(heard.at(0)?.sentence).toBe('sentence 0');
  expect(heard.at(-1)?.sentence).toBe('sentence 199');
  const waits = heard.slice(1).map(({ atMs }, i) => atMs - (heard[i]?.atMs ?? 0));
  expect(Math.min(...waits)).toBeGreaterThanOrEqual(PERIOD_MS);
  // Ten seconds of talk: the first at once, then one a period.
  expect(heard).toHaveLength(6);
});

it('says the same sentence twice so that it is heard twice', () => {
  say('the pull has begun');
  vi.advanceTimersByTime(PERIOD_MS);
  say('the pull has begun');
  expect(heard.map(({ sentence }) => sentence.trim())).toEqual(['the pull has begun', 'the pull has begun']);
  expect(heard[0]?.sentence).not.toBe(heard[1]?.sentence);
});

it('tells of long work its beginning, its quarters and its end', () => {
  const steps = new WorkInParts();
  const told: number[] = [];
  for (let percent = 0; percent <= 100; percent++) if (steps.isNews(true, percent / 100)) told.push(percent);
  expect(told).toEqual([0, 25, 50, 75]);
  expect(steps.isNews(false, 1)).toBe(true);
  expect(steps.isNews(false, null)).toBe(false);
  // Of unknown length, and of several parts of which each begins at nothing: no more than that.
  expect([null, null, 0.3, 0, 0.3, null].map((part) => steps.isNews(true, part))).toEqual([
    true,
    false,
    true,
    false,
    false,
    false,
  ]);
});

it('tells what follows the keys once they rest, each sentence once', () => {
  const told: string[] = [];
  const rest = new SaidAtRest((sentence) => told.push(sentence));
  for (let figure = 1; figure <= 30; figure++) {
    rest.stands(`class of ${String(figure)} figures`);
    vi.advanceTimersByTime(REST_MS - 1);
  }
  expect(told).toEqual([]);
  vi.advanceTimersByTime(1);
  expect(told).toEqual(['class of 30 figures']);
  // Drawn again with the same words, or left.
  rest.stands('class of 30 figures');
  vi.advanceTimersByTime(2 * REST_MS);
  rest.stands('class of 31 figures');
  rest.end();
  vi.advanceTimersByTime(2 * REST_MS);
  expect(told).toHaveLength(1);
});
