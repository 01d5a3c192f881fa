/** Two instruments, one stream of readings: what decides is in the raw chunks alone, so that parsing repeats. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { RawChunk } from '../../../core/archive/codec/raw-block.ts';
import { readoutProfile } from '../../../core/contract/readout-profile.ts';
import { joinFault, joinedAgeMaxMs, joinedChannels } from '../../../core/pull/joined-channels.ts';
import { PullLines } from '../../../electron/recorder/pull-lines.ts';
import { reparse } from '../../../electron/recorder/reparse.ts';

const profileOf = (quantity: 'force' | 'extension', unit: string, more: object = {}) =>
  readoutProfile.parse({
    schema: 'gaugemark.readout-profile/1',
    name: quantity,
    format: { kind: 'delimited', delimiter: ',', fields: ['value'] },
    channels: [{ field: 'value', quantity, unit: { kind: 'fixed', unit } }],
    ...more,
  });
const LOAD = profileOf('force', 'N');
const EXTENSION = profileOf('extension', 'mm');
const READOUTS = { profile: LOAD, second: { profile: EXTENSION, ageMaxMs: 100 } };

/** Chunks of the two by turns: which instrument, after how many ms, what. */
function chunksOf(given: readonly (readonly [0 | 1, number, string])[]): RawChunk[] {
  let elapsedUs = 0;
  return given.map(([instrument, afterMs, text], chunkSeq) => {
    elapsedUs += afterMs * 1000;
    return { chunkSeq, opening: instrument, elapsedUs, bytes: Buffer.from(text) };
  });
}

const shown = (chunks: readonly RawChunk[]): unknown[] =>
  [...reparse(LOAD, chunks, undefined, READOUTS.second)].map(({ channels }) =>
    channels.map(({ status, mantissa, exponent }) =>
      status === 'ok' ? Number(`${String(mantissa)}e${String(exponent)}`) : status,
    ),
  );

describe('a load', () => {
  it('takes along the newest extension that had come by then, and none that is too old', () => {
    expect(
      shown(
        chunksOf([
          [0, 0, '1\r\n'],
          [1, 5, '0.10\r\n'],
          [0, 5, '2\r\n'],
          [1, 5, '0.20\r\n0.30\r\n'],
          [0, 100, '3\r\n'],
          [0, 1, '4\r\n'],
        ]),
      ),
    ).toEqual([
      [1, 'blank'],
      [2, 0.1],
      [3, 0.3],
      [4, 'blank'],
    ]);
  });

  it('is not joined to what the second said before it was lost, once that speaks again', () => {
    const [before, after, load] = chunksOf([
      [1, 0, '0.10\r\n0.'],
      [1, 5, '20\r\n'],
      [0, 5, '1\r\n'],
    ]);
    if (before === undefined || after === undefined || load === undefined) throw new Error('three chunks');
    // "0." and "20" in one opening are one number; in two they are none.
    expect(shown([before, after, load])).toEqual([[1, 0.2]]);
    const lines = new PullLines(READOUTS);
    lines.push(before);
    expect(lines.push({ ...after, opening: 3 }).map(({ line }) => line.outcome.kind)).toContain('misfit');
  });
});

it('gives the same readings however the bytes of each instrument are cut into chunks, and tells how old they were', () => {
  const course = fc.array(fc.tuple(fc.constantFrom<0 | 1>(0, 1), fc.integer({ min: 0, max: 80 })), {
    maxLength: 40,
  });
  fc.assert(
    fc.property(course, (steps) => {
      const whole = chunksOf(steps.map(([its, ms], i) => [its, ms, `${String(i + 1)}\r\n`]));
      const cut = whole.flatMap((chunk) => [
        { ...chunk, bytes: chunk.bytes.subarray(0, 1) },
        { ...chunk, bytes: chunk.bytes.subarray(1) },
      ]);
      expect(shown(cut)).toEqual(shown(whole));
      const lines = new PullLines(READOUTS);
      const readings = whole.flatMap((chunk) => lines.push(chunk)).filter(({ reading }) => reading !== null);
      const skew = lines.skew;
      expect((skew?.joined ?? 0) + (skew?.alone ?? 0)).toBe(readings.length);
      expect(skew?.longestMs ?? 0).toBeLessThanOrEqual(100);
      expect(skew?.meanMs ?? 0).toBeLessThanOrEqual(skew?.longestMs ?? 0);
    }),
  );
});

describe('two profiles', () => {
  it('have all channels in one list, a field that both have told apart, and the second clock is no clock', () => {
    const clocked = profileOf('extension', 'mm', {
      format: { kind: 'delimited', delimiter: ',', fields: ['t', 'value'] },
      channels: [
        { field: 't', quantity: 'time', unit: { kind: 'fixed', unit: 's' } },
        { field: 'value', quantity: 'extension', unit: { kind: 'fixed', unit: 'mm' } },
      ],
    });
    expect(joinedChannels(LOAD, clocked).map(({ field, quantity }) => [field, quantity])).toEqual([
      ['value', 'force'],
      ['t', 'other'],
      ['value (2)', 'extension'],
    ]);
  });

  it('fit where one gives the load and nothing is given twice', () => {
    expect(joinFault(LOAD, EXTENSION)).toBeNull();
    expect(joinFault(EXTENSION, LOAD)).toMatch(/name that readout first/);
    expect(joinFault(LOAD, LOAD)).toMatch(/both .* give force/i);
    expect(joinFault(EXTENSION, EXTENSION)).toMatch(/has a channel for the force/);
  });

  it('bound the age by some intervals of the second, never below what slow displays take nor above two seconds', () => {
    const every = (intervalMs: number): number =>
      joinedAgeMaxMs(
        profileOf('extension', 'mm', { mode: { kind: 'polled', request: '?', intervalMs, timeoutMs: 100 } }),
      );
    expect([joinedAgeMaxMs(EXTENSION), every(20), every(400), every(5000)]).toEqual([600, 600, 1200, 2000]);
    expect(joinedAgeMaxMs(profileOf('extension', 'mm', { rateHz: 2 }))).toBe(1500);
  });
});
