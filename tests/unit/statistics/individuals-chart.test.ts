import { describe, expect, it } from 'vitest';
import { individualsChart } from '../../../core/statistics/individuals-chart.ts';

describe('the chart of individual values', () => {
  it('marks what lies outside three sigma', () => {
    const values = [...Array.from({ length: 24 }, (_, i) => 500 + (i % 2)), 460];
    const outcome = individualsChart(values);
    if (outcome.kind !== 'chart') throw new Error(outcome.reason);
    expect(outcome.chart.outside).toEqual([24]);
    expect(outcome.chart.remarks).toEqual([]);
  });

  it('rests on the order of the values: sorting them narrows the lines', () => {
    const chart = (values: number[]) => {
      const outcome = individualsChart(values);
      if (outcome.kind !== 'chart') throw new Error(outcome.reason);
      return outcome.chart;
    };
    const mixed = [500, 520, 498, 523, 501, 519];
    expect(chart([...mixed].sort((a, b) => a - b)).sigma).toBeLessThan(chart(mixed).sigma);
  });

  it('is withheld for a single value and says when it rests on few', () => {
    expect(individualsChart([500])).toMatchObject({ kind: 'withheld', code: 'too-few' });
    const outcome = individualsChart([500, 510]);
    expect(outcome.kind === 'chart' && outcome.chart.remarks[0]).toMatch(/2 values only/);
  });
});
