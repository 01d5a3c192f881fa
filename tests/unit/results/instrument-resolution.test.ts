import { describe, expect, it } from 'vitest';
import { resolutionChecks } from '../../../core/results/instrument-resolution.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';

function verdicts(geometry: object, more: object = {}): string[] {
  const outcome = readSpecimen({ id: 'x', geometry, ...more });
  if (!outcome.ok) throw new Error(outcome.faults[0]?.sentence);
  return resolutionChecks(outcome.specimen).map((c) => `${c.standard} ${c.dimension}: ${c.verdict}`);
}

// Size ranges of ASTM E8/E8M 7.2.1 and shares of ISO 6892-1: from memory (reference A5).
describe('is the calliper fine enough', () => {
  it.each([
    ['0.500 in', 'fine-enough'],
    ['0.200 in', 'fine-enough'],
    ['0.196 in', 'too-coarse'],
    ['0.1960 in', 'fine-enough'],
    ['0.0990 in', 'fine-enough'],
    ['0.050 in', 'too-coarse'],
    ['12.50 mm', 'fine-enough'],
    ['12.5 mm', 'too-coarse'],
  ])('E8/E8M on a diameter typed as %s: %s', (text, verdict) => {
    expect(verdicts({ kind: 'round', diameter: text })).toContain(`ASTM E8/E8M diameter: ${verdict}`);
  });

  it('ISO 6892-1 asks for 0.5 % of the size, 0.2 % on the width of thin sheet', () => {
    expect(verdicts({ kind: 'flat', width: '12.5 mm', thickness: '2.0 mm' })).toContain(
      'ISO 6892-1 width: too-coarse',
    );
    expect(verdicts({ kind: 'flat', width: '12.5 mm', thickness: '4.00 mm' })).toContain(
      'ISO 6892-1 width: too-coarse',
    );
    expect(verdicts({ kind: 'flat', width: '25.0 mm', thickness: '4.00 mm' })).toContain(
      'ISO 6892-1 width: fine-enough',
    );
  });

  it('takes the step that was given before the digits that were typed', () => {
    const steps = verdicts({ kind: 'round', diameter: '12.5 mm' }, { instrumentResolution: '0.01 mm' });
    expect(steps).toContain('ASTM E8/E8M diameter: fine-enough');
  });

  it("can't tell from a fraction, and judges no masses", () => {
    expect(verdicts({ kind: 'round', diameter: '1/2 in' })).toContain('ASTM E8/E8M diameter: not-known');
    expect(verdicts({ kind: 'weighed', mass: '1 kg', length: '1 m', density: '7.85 g/cm3' })).toEqual([]);
  });
});
