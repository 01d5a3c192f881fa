/** What is held for a second acts once, also on a page that was too busy to run its own clock. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { HOLD_MS, HoldTimer } from '../../../renderer/design/hold-timer.ts';

describe('something held', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('acts once when the time is over, and not again when it is let go', () => {
    const act = vi.fn();
    const held = new HoldTimer();
    held.begin(5_000, act);
    vi.advanceTimersByTime(HOLD_MS - 1);
    expect(act).not.toHaveBeenCalled();
    vi.advanceTimersByTime(1);
    held.end(5_000 + HOLD_MS + 400);
    expect(act).toHaveBeenCalledTimes(1);
    expect(held.isHeld).toBe(false);
  });

  it('does not act when it is let go before, and not a second later either', () => {
    const act = vi.fn();
    const held = new HoldTimer();
    held.begin(5_000, act);
    expect(held.end(5_000 + HOLD_MS - 1)).toBe(true);
    vi.advanceTimersByTime(10 * HOLD_MS);
    expect(act).not.toHaveBeenCalled();
  });

  it('acts when it was held long enough but the page was too busy for its clock to run', () => {
    const act = vi.fn();
    const held = new HoldTimer();
    held.begin(5_000, act);
    expect(held.end(5_000 + HOLD_MS)).toBe(false);
    expect(act).toHaveBeenCalledTimes(1);
    vi.advanceTimersByTime(10 * HOLD_MS);
    expect(act).toHaveBeenCalledTimes(1);
  });

  it('does not act when what it would do has become impossible', () => {
    const act = vi.fn();
    const held = new HoldTimer();
    held.begin(5_000, act);
    held.cancel();
    held.end(5_000 + 10 * HOLD_MS);
    vi.advanceTimersByTime(10 * HOLD_MS);
    expect(act).not.toHaveBeenCalled();
  });
});
