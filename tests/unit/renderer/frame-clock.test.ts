import { describe, expect, it } from 'vitest';
import { DRAWS_PER_S_MAX, FrameClock, type Frames } from '../../../renderer/plot/frame-clock.ts';

/** Frames that come when the test says so. */
class HandFrames implements Frames {
  nowMs = 0;
  waiting: ((nowMs: number) => void) | null = null;
  request(callback: (nowMs: number) => void): number {
    this.waiting = callback;
    return 1;
  }
  cancel(): void {
    this.waiting = null;
  }
  pass(ms: number): void {
    this.nowMs += ms;
    const callback = this.waiting;
    this.waiting = null;
    callback?.(this.nowMs);
  }
}

function clock() {
  const frames = new HandFrames();
  let draws = 0;
  let lengthened = 0;
  const made = new FrameClock(
    () => draws++,
    () => lengthened++,
    frames,
  );
  return { frames, made, draws: () => draws, lengthened: () => lengthened };
}

describe('the clock of the plots', () => {
  it('draws once a frame, however many readings have come by then', () => {
    const { frames, made, draws } = clock();
    for (let i = 0; i < 50; i++) made.wake();
    frames.pass(16);
    expect(draws()).toBe(1);
  });

  it('draws at most 20 times a second at 1 000 readings a second (C3)', () => {
    const { frames, made, draws } = clock();
    for (let frame = 0; frame < 60; frame++) {
      for (let i = 0; i < 17; i++) made.wake();
      frames.pass(1000 / 60);
    }
    expect(draws()).toBeLessThanOrEqual(DRAWS_PER_S_MAX);
    expect(draws()).toBeGreaterThan(DRAWS_PER_S_MAX / 2);
  });

  it('makes curves longer in the frames between, so that each frame shows what has come', () => {
    const { frames, made, draws, lengthened } = clock();
    for (let frame = 0; frame < 60; frame++) {
      made.wake();
      frames.pass(1000 / 60);
    }
    expect(draws() + lengthened()).toBe(60);
  });

  it('asks for no frame while nothing changes', () => {
    const { frames, made } = clock();
    made.wake();
    frames.pass(16);
    expect(frames.waiting).toBeNull();
  });

  it('draws what came last, even when it came just after a drawing', () => {
    const { frames, made, draws } = clock();
    made.wake();
    frames.pass(16);
    made.wake();
    for (let frame = 0; frame < 3; frame++) frames.pass(1000 / 60);
    expect(draws()).toBe(2);
  });

  it('draws nothing after it was stopped', () => {
    const { frames, made, draws } = clock();
    made.wake();
    made.stop();
    frames.pass(16);
    expect(draws()).toBe(0);
  });
});
