/** The worksheet of an extensometer. Limits of ISO 9513 and ASTM E83: from memory, as their file says. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readExtensionWorksheet } from '../../../core/verification/extension-worksheet.ts';
import { verifyExtension } from '../../../core/verification/verify-extension.ts';

const verified = (sheet: object) => {
  const outcome = readExtensionWorksheet(sheet);
  if (!outcome.ok) throw new Error(outcome.faults.map(({ sentence }) => sentence).join(' '));
  return verifyExtension(outcome.read);
};
const faultsOf = (sheet: object): string[] => {
  const outcome = readExtensionWorksheet(sheet);
  return outcome.ok ? [] : outcome.faults.map(({ sentence }) => sentence);
};
/** Five displacements, twice, each off by so much. */
const sheet = (errorMm: number, more: object = {}): object => ({
  unit: 'mm',
  gaugeLength: '50',
  measuredGaugeLength: '50',
  resolution: '0.0001',
  steps: [0.1, 0.2, 0.5, 1, 2].map((applied) => ({
    applied: String(applied),
    indicated: [(applied + errorMm).toFixed(4), String(applied)],
  })),
  ...more,
});

describe('the class of an extensometer', () => {
  it.each([
    // 0.6, 1.5, 3, 6 µm are the fixed limits; at 0.1 mm the share is less.
    [0.0006, '0.2'],
    [0.0007, '0.5'],
    [0.0015, '0.5'],
    [0.003, '1'],
    [0.0031, '2'],
    [0.006, '2'],
    [0.0061, null],
  ])('by ISO 9513 at an error of %d mm at every displacement is %s', (error, expected) => {
    expect(verified(sheet(error)).iso.class).toBe(expected);
  });

  it.each([
    // 0.000 02, 0.000 1, 0.000 2, 0.001 of 50 mm.
    [0.001, 'A'],
    [0.0011, 'B-1'],
    [0.005, 'B-1'],
    [0.01, 'B-2'],
    [0.0101, 'C'],
    [0.05, 'C'],
  ])('by ASTM E83 at an error of %d mm at every displacement is %s', (error, expected) => {
    expect(verified(sheet(error)).e83.class).toBe(expected);
  });

  it('takes the share of the reading where it is the greater: 1 % of 2 mm is 20 µm', () => {
    const steps = [0.5, 1, 2, 3, 4].map((applied) => ({
      applied: String(applied),
      indicated: [(applied * 1.01).toFixed(4), (applied * 1.01).toFixed(4)],
    }));
    expect(verified(sheet(0, { steps })).iso.class).toBe('1');
    expect(verified(sheet(0, { steps })).e83.class).toBe('C');
  });

  it('is no better than the gauge length and the resolution', () => {
    expect(verified(sheet(0, { measuredGaugeLength: '50.4' })).iso.class).toBe('1');
    expect(verified(sheet(0, { measuredGaugeLength: '52' })).iso.class).toBeNull();
    expect(verified(sheet(0, { resolution: '0.001' })).iso.class).toBe('1');
    expect(verified(sheet(0, { measuredGaugeLength: undefined })).remarks.join()).toMatch(/was not measured/);
  });

  it('is the same in inches: 3 µm are 0.000 118 in', () => {
    const inches = (error: number): object => ({
      unit: 'in',
      gaugeLength: '2',
      resolution: '0.000004',
      steps: [0.004, 0.008, 0.01, 0.011, 0.0115].map((applied) => ({
        applied: String(applied),
        indicated: [(applied + error).toFixed(7), String(applied)],
      })),
    });
    expect(verified(inches(0.000118)).iso.class).toBe('1');
    expect(verified(inches(0.000119)).iso.class).toBe('2');
  });

  it('is withheld with the reason where too little was done', () => {
    const one = verified(sheet(0, { steps: [{ applied: '1', indicated: '1' }] }));
    expect(one.iso.class).toBeNull();
    expect(one.iso.withheld.join(' ')).toMatch(/2 series at least.*5 displacements at least/);
  });
});

it('writes the arithmetic out, and takes the way down as a run', () => {
  const steps = [{ applied: '0.5', indicated: ['0.5010', '0.5000'], descending: { indicated: '0.4970' } }];
  const [step] = verified(sheet(0, { steps })).steps;
  expect(step?.bias.working.substituted).toContain('q = 100 × -0.003 / 0.5 = -0.600 %; -3.00 µm');
  expect(step?.isoClass).toBe('1');
});

it('shows the mean of what was applied, and rests bias and resolution on what was applied in the run furthest off', () => {
  const steps = [{ applied: ['0.4', '0.6'], indicated: ['0.402', '0.6'] }];
  const [step] = verified(sheet(0, { steps })).steps;
  expect(step?.appliedText).toBe('0.5');
  expect(step?.bias.working.substituted).toContain('q = 100 × 0.002 / 0.4 = 0.500 %');
  expect(step?.resolution.working.substituted).toContain('a = 100 × 0.0001 / 0.4 = 0.025 %');
});

it('says what is wrong with a worksheet, in words of displacements', () => {
  const steps = [
    { applied: '2', indicated: '2' },
    { applied: '1', indicated: '1' },
  ];
  expect(faultsOf(sheet(0, { steps })).join()).toMatch(/displacements do not ascend/);
  expect(faultsOf(sheet(0, { gaugeLength: '0' })).join()).toMatch(/no gauge length/);
  expect(faultsOf(sheet(0, { unit: 'kN' })).join()).toMatch(/unit/);
});

it('a larger error never makes a better class', () => {
  const order = ['0.2', '0.5', '1', '2', null];
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 100 }), fc.integer({ min: 0, max: 100 }), (a, b) => {
      const [small, large] = [Math.min(a, b), Math.max(a, b)].map(
        (n) => verified(sheet(n / 10_000)).iso.class,
      );
      expect(order.indexOf(small ?? null)).toBeLessThanOrEqual(order.indexOf(large ?? null));
    }),
    { numRuns: 60 },
  );
});
