/** All twelve published curves through the import, against a general CSV reader and the curve reader of our own form. */
import { parse } from 'csv-parse/sync';
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readCurveCsv } from '../../../core/curve/read-csv.ts';
import { importBytes } from '../../../core/exchange/import/import-bytes.ts';

const folder = new URL('../../../fixtures/curves/', import.meta.url);
const files = readdirSync(folder).filter((name) => name.endsWith('.csv'));

describe('the published curves', () => {
  it('are twelve', () => {
    expect(files).toHaveLength(12);
  });

  it.each(files)('%s is imported without asking, every number as it stands in the file', (name) => {
    const bytes = readFileSync(new URL(name, folder));
    const outcome = importBytes(bytes);
    if (!outcome.ok) throw new Error(outcome.fault.sentence);
    const { curve, plan, report } = outcome;
    const rows: Record<string, string>[] = parse(bytes, { columns: true, comment: '#', trim: true });
    expect(curve.length).toBe(rows.length);
    expect(report.misfits.count).toBe(0);
    const force = plan.columns.find((c) => c.quantity === 'force');
    if (force !== undefined) {
      const scale = force.unit === 'kN' ? 1000 : 1;
      for (const [i, row] of rows.entries())
        expect(curve.forceN?.[i]).toBeCloseTo(Number(row[force.name]) * scale, 6);
    }
    const own = readCurveCsv(bytes);
    if (!own.ok) throw new Error(own.fault.sentence);
    for (const key of ['timeS', 'forceN', 'extensionMm', 'travelMm', 'stressMpa', 'strainRatio'] as const) {
      expect(curve[key]?.length, key).toBe(own.curve[key]?.length);
      curve[key]?.forEach((value, i) => {
        const other = own.curve[key]?.[i] ?? Number.NaN;
        expect(Math.abs(value - other)).toBeLessThanOrEqual(Math.abs(other) * 3e-16);
      });
    }
  });
});
