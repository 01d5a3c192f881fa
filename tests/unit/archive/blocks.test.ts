/** Blocks of the archive give back exactly what was put in, and a damaged block is never believed. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CHANNEL_STATUSES, READING_STATUSES, type Reading } from '../../../core/contract/reading.ts';
import { BlockDamagedError, VarintReader, VarintWriter } from '../../../core/archive/codec/varint.ts';
import { decodeReadings, encodeReadings } from '../../../core/archive/codec/reading-block.ts';
import {
  decodeChunkTable,
  encodeChunkTable,
  joinBytes,
  splitBytes,
} from '../../../core/archive/codec/raw-block.ts';
import { pack, unpack, PACKED_DEFLATE } from '../../../core/archive/codec/packing.ts';

const shown = fc.record({
  mantissa: fc.option(fc.oneof(fc.maxSafeInteger(), fc.integer({ min: -500, max: 500 })), { nil: null }),
  exponent: fc.integer({ min: -20, max: 20 }),
  unit: fc.constantFrom('N', 'lbf', 'µm' as const),
  status: fc.constantFrom(...CHANNEL_STATUSES),
});
const readings = fc.integer({ min: 1, max: 3 }).chain((channelCount) =>
  fc.array(
    fc.record({
      chunkSeq: fc.integer({ min: 0, max: 2 ** 40 }),
      lineIndex: fc.integer({ min: 0, max: 9000 }),
      status: fc.constantFrom(...READING_STATUSES),
      channels: fc.array(shown, { minLength: channelCount, maxLength: channelCount }),
    }),
    { maxLength: 60 },
  ),
);

describe('a block of readings', () => {
  it('gives back every decimal, status and unit as it was', () => {
    fc.assert(
      fc.property(readings, (its) => {
        expect(decodeReadings(encodeReadings(its as Reading[]))).toEqual(its);
      }),
      { numRuns: 200 },
    );
  });

  it('gives back a number longer than a safe integer digit by digit, and no other form for it where there is none', () => {
    const long = fc.stringMatching(/^-?[1-9][0-9]{15,40}(\.[0-9]{1,10})?$/);
    fc.assert(
      fc.property(readings, fc.array(fc.option(long), { maxLength: 60 }), (its, texts) => {
        const withLong = (its as Reading[]).map((reading, i) => ({
          ...reading,
          channels: reading.channels.map((value) => {
            const exact = texts[i];
            return exact === null || exact === undefined || value.mantissa === null
              ? value
              : { ...value, exact };
          }),
        }));
        expect(decodeReadings(encodeReadings(withLong))).toEqual(withLong);
      }),
      { numRuns: 200 },
    );
    const plain = { chunkSeq: 0, lineIndex: 0, status: 'ok' } as const;
    const value = { mantissa: 10 ** 15, exponent: 8, unit: 'N', status: 'ok' } as const;
    expect(encodeReadings([{ ...plain, channels: [value] }])[0]).toBe(1);
    expect(encodeReadings([{ ...plain, channels: [{ ...value, exact: '9'.repeat(23) }] }])[0]).toBe(2);
  });

  it('refuses a long number that is none', () => {
    const reading: Reading = {
      chunkSeq: 0,
      lineIndex: 0,
      status: 'ok',
      channels: [{ mantissa: 5, exponent: 0, unit: 'N', status: 'ok', exact: '12345678901234567890' }],
    };
    const bytes = encodeReadings([reading]);
    const damaged = bytes.slice();
    damaged[bytes.length - 1] = 'x'.charCodeAt(0);
    expect(() => decodeReadings(damaged)).toThrow(BlockDamagedError);
  });

  it('takes little for a reading of a slowly changing channel', () => {
    const slow = Array.from({ length: 1000 }, (_, i): Reading => ({
      chunkSeq: i,
      lineIndex: 0,
      status: 'ok',
      channels: [
        {
          mantissa: Math.round(200 * Math.sin(i / 50) * 10 + (i % 7)),
          exponent: -1,
          unit: 'N',
          status: 'ok',
        },
        { mantissa: 13 * i + (i % 5), exponent: -4, unit: 'mm', status: 'ok' },
      ],
    }));
    expect(encodeReadings(slow).length / slow.length).toBeLessThan(4.2);
    expect(pack(encodeReadings(slow)).length / slow.length).toBeLessThan(3.2);
  });

  it('is refused as damaged, never misread, when bytes are missing or added', () => {
    const bytes = encodeReadings([
      {
        chunkSeq: 3,
        lineIndex: 1,
        status: 'ok',
        channels: [{ mantissa: 5, exponent: 0, unit: 'N', status: 'ok' }],
      },
    ]);
    for (let length = 0; length < bytes.length; length++)
      expect(() => decodeReadings(bytes.subarray(0, length))).toThrow(BlockDamagedError);
    expect(() => decodeReadings(new Uint8Array([...bytes, 0]))).toThrow(BlockDamagedError);
  });

  it('is refused when it tells more readings than it has bytes for, before room is made for them', () => {
    const fourThousandMillion = [0xff, 0xff, 0xff, 0xff, 0x0f];
    expect(() => decodeReadings(new Uint8Array([1, ...fourThousandMillion, 1, 0, 0]))).toThrow(
      BlockDamagedError,
    );
  });
});

describe('a block of raw chunks', () => {
  const chunks = fc.array(
    fc.record({
      opening: fc.integer({ min: 0, max: 5 }),
      elapsedUs: fc.integer({ min: 0, max: 2 ** 45 }),
      bytes: fc.uint8Array({ maxLength: 80 }),
    }),
    { maxLength: 40 },
  );

  it('gives back every chunk with its time and its bytes', () => {
    fc.assert(
      fc.property(chunks, fc.integer({ min: 0, max: 1e9 }), (list, first) => {
        const its = list.map((c, i) => ({ ...c, chunkSeq: first + i }));
        const back = splitBytes(first, decodeChunkTable(encodeChunkTable(its)), joinBytes(its));
        expect(back.map((c) => ({ ...c, bytes: [...c.bytes] }))).toEqual(
          its.map((c) => ({ ...c, bytes: [...c.bytes] })),
        );
      }),
      { numRuns: 200 },
    );
  });

  it('is refused when its table tells another length than its bytes have', () => {
    const table = decodeChunkTable(
      encodeChunkTable([{ chunkSeq: 0, opening: 0, elapsedUs: 1, bytes: new Uint8Array(3) }]),
    );
    expect(() => splitBytes(0, table, new Uint8Array(4))).toThrow(BlockDamagedError);
  });
});

it('packs and unpacks, and refuses what was not packed so', () => {
  const bytes = new Uint8Array(1000).fill(7);
  expect([...unpack(pack(bytes), PACKED_DEFLATE)]).toEqual([...bytes]);
  expect(() => unpack(new Uint8Array([1, 2, 3]), PACKED_DEFLATE)).toThrow(BlockDamagedError);
  expect(() => unpack(bytes, 77)).toThrow(BlockDamagedError);
});

it('writes whole numbers of any size that a difference of safe integers can have', () => {
  const edge = [
    0,
    1,
    -1,
    127,
    128,
    -64,
    2 ** 31,
    -(2 ** 31) - 1,
    2 ** 51,
    -(2 ** 51),
    Number.MAX_SAFE_INTEGER,
  ];
  const large = [2n ** 53n, -(2n ** 54n) + 1n, 2n ** 54n - 2n];
  const writer = new VarintWriter();
  for (const value of [...edge, ...large]) writer.signed(value);
  const reader = new VarintReader(writer.finish());
  expect([...edge, ...large].map(() => BigInt(reader.signed()))).toEqual([...edge, ...large].map(BigInt));
});

it('sums a column of differences as it would one by one, at every length in bytes, and leaves the largest to the other way', () => {
  // Seven bytes hold 48 bits and a sign.
  const around = Array.from({ length: 48 }, (_, bits) => [
    2 ** bits - 1,
    2 ** bits,
    -(2 ** bits),
    -(2 ** bits) - 1,
  ]).flat();
  const values = around.filter((value) => value < 2 ** 48 && value >= -(2 ** 48));
  const writer = new VarintWriter();
  for (const value of values) writer.signed(value);
  const bytes = writer.finish();
  const sumsOf = (steps: readonly number[]): number[] => {
    let sum = 0;
    return steps.map((step) => (sum += step));
  };
  const column = (from: Uint8Array, ofSteps: boolean, count = values.length): Float64Array | null =>
    new VarintReader(from).summedColumn(new Float64Array(count), ofSteps);
  expect([...(column(bytes, false) ?? [])]).toEqual(sumsOf(values));
  expect([...(column(bytes, true) ?? [])]).toEqual(sumsOf(sumsOf(values)));
  for (let end = 1; end < bytes.length; end += 7)
    expect(() => column(bytes.subarray(0, end), false)).toThrow(BlockDamagedError);
  const larger = new VarintWriter();
  larger.signed(2 ** 49);
  expect(column(larger.finish(), false, 1)).toBeNull();
});
