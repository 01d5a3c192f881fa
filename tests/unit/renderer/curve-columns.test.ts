import { describe, expect, it } from 'vitest';
import type { ReadingColumns } from '../../../core/contract/reading.ts';
import { CurveColumns } from '../../../renderer/store/curve-columns.ts';
import { block } from './reading-block.ts';

describe('the columns of a pull', () => {
  it('hold readings in order, with elapsed time in seconds', () => {
    const columns = new CurveColumns();
    expect(columns.append(block(0, [0, 100, 200]))).toBe(true);
    expect(columns.length).toBe(3);
    expect(columns.value('force', 1)).toBe(100);
    expect(columns.timeS(2)).toBeCloseTo(0.002, 12);
  });

  it('refuse a block that leaves a hole, and are left as they were', () => {
    const columns = new CurveColumns();
    columns.append(block(0, [1, 2]));
    expect(columns.append(block(5, [6]))).toBe(false);
    expect(columns.length).toBe(2);
  });

  it('take only what is new of a block that overlaps', () => {
    const columns = new CurveColumns();
    columns.append(block(0, [1, 2, 3]));
    expect(columns.append(block(1, [22, 33, 4]))).toBe(true);
    expect([0, 1, 2, 3].map((i) => columns.value('force', i))).toEqual([1, 2, 3, 4]);
  });

  it('grow far beyond their first room without losing a value', () => {
    const columns = new CurveColumns();
    for (let first = 0; first < 20_000; first += 1_000) {
      columns.append(
        block(
          first,
          Array.from({ length: 1_000 }, (_, i) => first + i),
        ),
      );
    }
    expect(columns.length).toBe(20_000);
    expect(columns.value('force', 12_345)).toBe(12_345);
    expect(columns.peakIndex).toBe(19_999);
  });

  it('keep a reading without a value as none, never as zero, and never take it for the peak', () => {
    const columns = new CurveColumns();
    columns.append(block(0, [5, Number.NaN, 3]));
    expect(columns.value('force', 1)).toBeNaN();
    expect(columns.peakIndex).toBe(0);
    expect(columns.extent('force')).toEqual({ min: 3, max: 5 });
  });

  it('take a garbled reading neither for the peak nor for the height of the axis, and hold it as it came (C8)', () => {
    const columns = new CurveColumns();
    const rise = Array.from({ length: 20 }, (_, i) => 100 * i);
    columns.append(block(0, [...rise, 9e9, 1950, 2000]));
    columns.append(block(23, [8e9]));
    expect([columns.peakIndex, columns.extent('force')?.max]).toEqual([22, 2000]);
    expect(columns.value('force', 20)).toBe(9e9);
    // A second one like it is a load that has really jumped.
    columns.append(block(24, [7.9e9]));
    expect([columns.peakIndex, columns.extent('force')?.max]).toEqual([23, 8e9]);
  });

  it('let go of a peak that stood there before a zero was taken, as soon as the record names its own', () => {
    const columns = new CurveColumns();
    // The grips hung on the load cell; then the zero was taken and the load came on.
    columns.append(block(0, [900, 900, 900, 900, 0, 1, 0, 2, 0, 50, 100, 150]));
    expect(columns.peakIndex).toBe(0);
    columns.heedPeakOfRecord(10);
    expect(columns.peakIndex).toBe(11);
    columns.append(block(12, [220, 300, 250]));
    // A snapshot that lags behind takes nothing back.
    columns.heedPeakOfRecord(11);
    expect(columns.peakIndex).toBe(13);
  });

  it('have no value of a channel before it appeared and after it was gone', () => {
    const columns = new CurveColumns();
    columns.append(block(0, [1, 2]));
    columns.append(withExtension(block(2, [3, 4]), [0.1, 0.2]));
    columns.append(block(4, [5]));
    expect(columns.has('extension')).toBe(true);
    const extension = [0, 1, 2, 3, 4].map((i) => columns.value('extension', i));
    expect(extension).toEqual([NaN, NaN, 0.1, 0.2, NaN]);
  });

  it('say nothing beyond their end', () => {
    const columns = new CurveColumns();
    columns.append(block(0, [1]));
    expect(columns.value('force', 1)).toBeNaN();
    expect(columns.timeS(7)).toBeNaN();
    expect(columns.peakIndex).toBe(0);
  });

  it('draw a broken pull up to five seconds after its last load, whatever the extensometer does then', () => {
    const columns = new CurveColumns();
    const force = [0, 500, 1000, 0, 0, 0, 0, 0];
    const extension = [0, 0.1, 0.2, 0.2, 0.3, 9, -9, 9];
    const at = (count: number, firstSeq = 0): ReadingColumns => ({
      ...withExtension(
        block(firstSeq, force.slice(firstSeq, firstSeq + count)),
        extension.slice(firstSeq, firstSeq + count),
      ),
      // One reading every two seconds.
      elapsedUs: Float64Array.from({ length: count }, (_, i) => (firstSeq + i) * 2e6),
    });
    columns.append(at(8));
    expect(columns.drawnLength).toBe(5);
    expect(columns.extent('extension', 'drawn')).toEqual({ min: 0, max: 0.3 });
    expect(columns.extent('extension')).toEqual({ min: -9, max: 9 });
    // It had only slipped: the load comes back, and all before it belongs to the pull.
    const more = withExtension(block(8, [700, 0]), [0.4, 0.5]);
    columns.append({ ...more, elapsedUs: Float64Array.of(16e6, 18e6) });
    expect(columns.drawnLength).toBe(10);
    expect(columns.extent('extension', 'drawn')).toEqual({ min: -9, max: 9 });
  });

  it('show the time that stands in a file, where its rows came all at once, and that of arrival else', () => {
    const withClock = (columns: ReadingColumns, seconds: readonly number[]): ReadingColumns => ({
      ...columns,
      channels: [
        ...columns.channels,
        {
          key: 'time',
          quantity: 'time',
          coreUnit: 's',
          value: Float64Array.from(seconds),
          status: new Uint8Array(seconds.length),
        },
      ],
    });
    const atOnce = (firstSeq: number, loadN: readonly number[]): ReadingColumns => ({
      ...block(firstSeq, loadN),
      elapsedUs: new Float64Array(loadN.length),
    });
    const ofFile = new CurveColumns();
    ofFile.append(withClock(atOnce(0, [0, 10]), [5, 5.1]));
    ofFile.countByFile();
    // More of it than there is room for at first.
    const many = Array.from({ length: 5_000 }, (_, i) => i);
    ofFile.append(
      withClock(
        atOnce(2, many),
        many.map((i) => 5.2 + i / 10),
      ),
    );
    expect([0, 1, 2, 5_001].map((reading) => ofFile.timeS(reading))).toEqual([5, 5.1, 5.2, 5.2 + 499.9]);
    expect(ofFile.rawColumn('time')[1]).toBe(5.1);
    const live = new CurveColumns();
    live.append(withClock(block(0, [0, 10]), [900, 901]));
    live.countByFile();
    expect(live.timeS(1)).toBe(0.001);
  });
});

function withExtension(columns: ReadingColumns, values: readonly number[]): ReadingColumns {
  return {
    ...columns,
    channels: [
      ...columns.channels,
      {
        key: 'extension',
        quantity: 'extension',
        coreUnit: 'mm',
        value: Float64Array.from(values),
        status: new Uint8Array(values.length),
      },
    ],
  };
}
