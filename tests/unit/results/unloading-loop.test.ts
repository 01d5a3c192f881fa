/** The slope of the elastic part from an unloading loop, on curves whose slope and proof strength are known. */
import { describe, expect, it } from 'vitest';
import { evaluate } from '../../../core/results/evaluate.ts';
import type { Evaluation } from '../../../core/results/evaluation.ts';
import { bilinear, rambergOsgood, record } from './synthetic-curve.ts';

const resultOf = ({ results }: Evaluation, symbol: string) => results.find((r) => r.symbol === symbol);

describe('the slope from an unloading loop', () => {
  it('is that of the elastic law, although the loading has no clear elastic part', () => {
    const law = rambergOsgood({ E: 70_000, R: 250, n: 5 });
    const evaluation = evaluate(record(law, { loopAtMpa: 270 }), null, { slopeFrom: 'loop' });
    expect(Math.abs((resultOf(evaluation, 'mE')?.value ?? 0) / 70_000 - 1)).toBeLessThan(0.001);
    expect(Math.abs((resultOf(evaluation, 'Rp0.2')?.value ?? 0) - 250)).toBeLessThan(1);
    // What the loading alone gives, so that the test tells one from the other.
    const loading = evaluate(record(law, {}), null);
    expect(resultOf(loading, 'mE')?.value).toBeLessThan(0.99 * 70_000);
  });

  it('takes both branches, so that a hysteresis of equal width on either side cancels', () => {
    const curve = record(bilinear(), { loopAtMpa: 410, loopReadings: 201 });
    const { strainRatio, stressMpa } = curve;
    if (strainRatio === undefined || stressMpa === undefined) throw new Error('no columns');
    const top = stressMpa.findIndex((s) => s >= 410);
    for (let k = 1; k < 200; k++) {
      const half = 2e-5 * Math.sin((Math.PI * k) / 100);
      strainRatio[top + k] = (strainRatio[top + k] ?? 0) + half;
    }
    const evaluation = evaluate(curve, null, { slopeFrom: 'loop' });
    expect(Math.abs((resultOf(evaluation, 'mE')?.value ?? 0) / 200_000 - 1)).toBeLessThan(0.005);
  });

  it('is said with the loop’s readings in method and working', () => {
    const curve = record(bilinear(), { loopAtMpa: 410 });
    const evaluation = evaluate(curve, null, { slopeFrom: 'loop' });
    expect(resultOf(evaluation, 'mE')?.value).toBeCloseTo(200_000, 2);
    expect(resultOf(evaluation, 'Rp0.2')?.value).toBeCloseTo(bilinear().known.proofMpa, 1);
    expect(resultOf(evaluation, 'mE')?.method).toContain('both branches of the unloading loop');
    expect(resultOf(evaluation, 'mE')?.working.steps?.join(' ')).toMatch(
      /Unloading loop from reading .* parallel/,
    );
    expect(resultOf(evaluation, 'Rp0.2')?.method).toContain('slope of the unloading loop');
    const top = curve.stressMpa?.findIndex((s) => s >= 410);
    expect(evaluation.slope?.fromIndex).toBe(top);
  });

  it('is withheld with its reason where the loading has no loop, and the proof strength with it', () => {
    const evaluation = evaluate(record(bilinear()), null, { slopeFrom: 'loop' });
    for (const symbol of ['mE', 'Rp0.2']) {
      expect(resultOf(evaluation, symbol)).toBeUndefined();
      expect(evaluation.withheld.find((w) => w.symbol === symbol)?.code).toBe('no-unloading-loop');
    }
  });

  it('is not taken from a fall of the load alone, in which the extension stays', () => {
    const curve = record(bilinear());
    const at = 1_500;
    for (let k = 0; k < 40; k++) {
      if (curve.stressMpa !== undefined) curve.stressMpa[at + k] = 60;
      if (curve.strainRatio !== undefined) curve.strainRatio[at + k] = curve.strainRatio[at] ?? 0;
    }
    const evaluation = evaluate(curve, null, { slopeFrom: 'loop' });
    expect(evaluation.withheld.find((w) => w.symbol === 'mE')?.code).toBe('no-unloading-loop');
  });
});
