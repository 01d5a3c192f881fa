/** A readout with a print key: its peak is the strength, and nothing that needs a curve is given. */
import { describe, expect, it } from 'vitest';
import { loadChannel, showsPeakOnly } from '../../../core/pull/peak-only.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';

const read = readSpecimen({
  id: 'T-1',
  geometry: { kind: 'flat', width: '20.00 mm', thickness: '5.00 mm' },
});
if (!read.ok) throw new Error('the specimen can be read');

const evaluated = (peaksN: readonly number[], specimen = read.specimen) =>
  evaluate({ length: peaksN.length, peakForceN: Float64Array.from(peaksN) }, specimen);

describe('a record of peaks alone', () => {
  it('gives the largest of them as maximum force, and the strength with its working', () => {
    const { results, withheld, remarks } = evaluated([41_000, Number.NaN, 42_000]);
    const value = (symbol: string) => results.find((one) => one.symbol === symbol);
    expect([value('Fm')?.value, value('Rm')?.value]).toEqual([42_000, 420]);
    expect(value('Rm')?.working.substituted).toBe('Rm = 42000 N / 100 mm² = 420 MPa');
    expect(withheld.filter(({ code }) => code === 'no-curve').map(({ symbol }) => symbol)).toEqual(
      expect.arrayContaining(['Rp0.2', 'ReH', 'Agt', 'mE']),
    );
    expect(remarks.join(' ')).toMatch(/2 values were recorded and no curve/);
  });

  it.each([
    ['no-load', [0]],
    ['stress-implausible', [9e9]],
  ])('gives no strength with %s', (code, peaks) => {
    const { results, withheld } = evaluated(peaks);
    expect(results.map(({ symbol }) => symbol)).not.toContain('Rm');
    expect(withheld.find(({ symbol }) => symbol === 'Rm')?.code).toBe(code);
  });
});

describe('the channel of the load', () => {
  const channel = (peak: boolean) => ({ quantity: 'force' as const, peak });
  it('is that of the moment where there is one', () => {
    expect(loadChannel([channel(true), channel(false)])).toBe(1);
    expect(showsPeakOnly([channel(true), channel(false)])).toBe(false);
    expect(loadChannel([{ quantity: 'travel', peak: false }, channel(true)])).toBe(1);
    expect(loadChannel([{ quantity: 'travel', peak: false }])).toBe(-1);
  });
});
