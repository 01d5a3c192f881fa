/** A gauge length that was marked, not measured: 2.000 in ± 0.005 in (ASTM E8/E8M Fig. 8) counts, not the digits typed. */
import { expect, it } from 'vitest';
import { elongationUncertainty } from '../../../core/results/ductility-uncertainty.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';

const uncertaintyWith = (gaugeLength: string) => {
  const read = readSpecimen({
    id: 'T-1',
    geometry: { kind: 'round', diameter: '0.500 in' },
    gaugeLength,
    finalGaugeLength: '2.52 in',
  });
  if (!read.ok) throw new Error('specimen');
  const uncertainty = elongationUncertainty(read.specimen);
  if (uncertainty === null) throw new Error('no uncertainty');
  return uncertainty;
};

it('"2 in" is a nominal length within the marking tolerance, not one read to the inch', () => {
  // ∂A/∂L0 = 100·Lu/L0² = 63 %/in; 0.005 in rectangular: 63 × 0.005/√3 = 0.1819 %.
  const { budget, expanded } = uncertaintyWith('2 in');
  const marking = budget.find((line) => line.source.includes('marked'));
  expect(Math.abs((marking?.standard ?? 0) * (marking?.sensitivity ?? 0))).toBeCloseTo(0.1819, 3);
  expect(expanded).toBeLessThan(1.5);
});

it('"2.001 in" was measured: its last digit is the step of the display', () => {
  expect(uncertaintyWith('2.001 in').budget.some((line) => line.source.includes('marked'))).toBe(false);
});
