/** ReL leaves the first transient out (ISO 6892-1, 3.10.2.2), whatever it looks like; closed-form curve. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { evaluate } from '../../../core/results/evaluate.ts';
import { record, yieldPointLaw } from './synthetic-curve.ts';

it('is the lowest of the plateau, however deep the transient dips', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 3, max: 80 }),
      fc.integer({ min: 310, max: 400 }),
      fc.double({ min: 0.012, max: 0.03, noNaN: true }),
      (transient, upper, plateau) => {
        const evaluation = evaluate(
          record(yieldPointLaw({ transient, upper, plateau }), { readings: 30_000 }),
          null,
        );
        const valueOf = (symbol: string): number =>
          evaluation.results.find((r) => r.symbol === symbol)?.value ?? Number.NaN;
        expect(Math.abs(valueOf('ReL') - 300)).toBeLessThan(0.5);
        expect(Math.abs(valueOf('Ae') - 100 * plateau)).toBeLessThan(0.1);
      },
    ),
    { numRuns: 40 },
  );
});
