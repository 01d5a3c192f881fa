import { describe, expect, it } from 'vitest';
import { changedValues } from '../../../core/evaluation/evaluate-again.ts';

const value = (symbol: string, of: number, unit: 'MPa' | 'psi' | '%' = 'MPa') => ({
  symbol,
  value: of,
  unit,
});

describe('what changed between two evaluations', () => {
  it('is nothing where a value differs in its last bits or stands in another unit', () => {
    // 1 psi = 0.00689475729… MPa (NIST SP 811, B.8).
    const psi = 500 / 0.006894757293168361;
    expect(changedValues([value('Rm', 500)], [value('Rm', 500 * (1 + 1e-12))])).toEqual([]);
    expect(changedValues([value('Rm', 500)], [value('Rm', psi, 'psi')])).toEqual([]);
  });

  it('is every value that moved, came, or is given no more', () => {
    expect(
      changedValues(
        [value('Rm', 500), value('ReH', 400), value('A', 20, '%')],
        [value('Rm', 501), value('A', 20, '%'), value('Rp0.2', 390)],
      ),
    ).toEqual([
      { symbol: 'Rm', before: value('Rm', 500), after: value('Rm', 501) },
      { symbol: 'ReH', before: value('ReH', 400), after: null },
      { symbol: 'Rp0.2', before: null, after: value('Rp0.2', 390) },
    ]);
  });
});
