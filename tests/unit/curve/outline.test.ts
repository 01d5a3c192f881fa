import { describe, expect, it } from 'vitest';
import { type OutlineMarks, OutlineMaker } from '../../../core/curve/outline.ts';

const NONE: OutlineMarks = { triggerSeq: null, breakSeq: null, lifts: [] };

/** A rise to a peak and a fall, at 1 000 readings a second; block by block as the archive hands them over. */
function outlineOf(
  length: number,
  forceAt: (i: number) => number,
  marks: OutlineMarks = NONE,
  alongAt: ((i: number) => number) | null = (i) => i / 10_000,
) {
  const maker = new OutlineMaker(marks);
  for (let from = 0; from < length; from += 4_096) {
    const of = (at: (i: number) => number): Float64Array =>
      Float64Array.from({ length: Math.min(4_096, length - from) }, (_, k) => at(from + k));
    maker.take(
      from,
      of((i) => i * 1_000),
      of(forceAt),
      alongAt === null ? null : of(alongAt),
    );
  }
  return maker.outline();
}
const arch = (length: number) => (i: number) => 50_000 * Math.sin((Math.PI * i) / length);

describe('the outline of a long record', () => {
  it('has few of its readings, as they are and in the order of time, both ends and the peak among them', () => {
    const outline = outlineOf(300_000, arch(300_000));
    const readings = [...(outline?.readings ?? [])];
    expect(readings.length).toBeLessThan(13_000);
    expect(readings).toEqual([...new Set(readings)].sort((a, b) => a - b));
    expect([readings[0], readings.at(-1)]).toEqual([0, 299_999]);
    expect(readings).toContain(150_000);
    readings.forEach((reading, i) => {
      expect(outline?.force[i]).toBe(arch(300_000)(reading));
      expect(outline?.along?.[i]).toBe(reading / 10_000);
      expect(outline?.elapsedUs[i]).toBe(reading * 1_000);
    });
  });

  it('never loses a single high or low reading', () => {
    const outline = outlineOf(300_000, (i) =>
      i === 77_777 ? 90_000 : i === 200_001 ? -400 : arch(300_000)(i),
    );
    expect([...(outline?.readings ?? [])]).toEqual(expect.arrayContaining([77_777, 200_001]) as number[]);
  });

  it('has trigger, break and both edges of every gap', () => {
    const marks = { triggerSeq: 20_000, breakSeq: 290_000, lifts: [123_457] };
    const outline = outlineOf(300_000, (i) => (i < 290_000 ? arch(400_000)(i) : 0), marks);
    expect([...(outline?.readings ?? [])]).toEqual(
      expect.arrayContaining([20_000, 123_456, 123_457, 289_999, 290_000]) as number[],
    );
  });

  it('begins five seconds before the trigger and ends five after the last load', () => {
    const outline = outlineOf(300_000, (i) => (i < 100_000 ? arch(150_000)(i) : 0), {
      triggerSeq: 20_000,
      breakSeq: 100_000,
      lifts: [],
    });
    // Whatever lies within one stretch of these moments may be the first or the last.
    expect(Math.abs((outline?.readings[0] ?? 0) - 15_000)).toBeLessThan(128);
    expect(Math.abs((outline?.readings.at(-1) ?? 0) - 105_000)).toBeLessThan(128);
  });

  it('lifts the pen where values are missing for a while', () => {
    const outline = outlineOf(300_000, arch(300_000), NONE, (i) =>
      i >= 100_050 && i < 100_060 ? Number.NaN : i / 10_000,
    );
    const place = [...(outline?.readings ?? [])].indexOf(100_050);
    expect(place).toBeGreaterThan(0);
    expect(outline?.along?.[place]).toBeNaN();
  });

  it('is none where nothing has a load, and where there are more gaps than a picture can show', () => {
    expect(outlineOf(100_000, () => Number.NaN, NONE, null)).toBeNull();
    const lifts = Array.from({ length: 3_000 }, (_, i) => i * 20);
    expect(outlineOf(100_000, arch(100_000), { ...NONE, lifts })).toBeNull();
  });
});
