/** The published curves in fixtures/curves/ against what their authors, or an independent computation, found. */
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { publishedCurves } from '../../core/self-check/all-cases.ts';
import { publishedCurveCases } from '../../core/self-check/published-curves.ts';
import { runSelfCheck } from '../../core/self-check/self-check-case.ts';

const folder = new URL('../../fixtures/curves/', import.meta.url);

describe.each(publishedCurves.map((curve) => [curve.id, curve] as const))('%s', (_id, curve) => {
  const cases = publishedCurveCases([curve]);
  it.each(
    cases.map(
      (c) => [`${c.what} is ${String(c.expected)} ${c.unit} within ${String(c.tolerance)}`, c] as const,
    ),
  )('%s', (_title, one) => {
    const [line] = runSelfCheck([one]).lines;
    expect(line?.reason).toBeUndefined();
    expect(Math.abs(Number(line?.got) - Number(one.expected))).toBeLessThanOrEqual(one.tolerance);
  });
});

describe('what the program carries', () => {
  it('is what stands in fixtures/curves, to the byte (node fixtures/bundle-curves.mjs makes it anew)', () => {
    const published = JSON.parse(readFileSync(new URL('published.json', folder), 'utf8')) as {
      curves: { file: string }[];
    };
    expect(publishedCurves).toEqual(
      published.curves.map((facts) => ({
        ...facts,
        csv: readFileSync(new URL(facts.file, folder), 'utf8'),
      })),
    );
  });

  it('has every curve of the folder, each with its licence and at least one expected value', () => {
    const files = readdirSync(folder).filter((name) => name.endsWith('.csv'));
    expect(publishedCurves.map((c) => c.file).sort()).toEqual(files.sort());
    for (const curve of publishedCurves) {
      expect(curve.csv).toContain('CC BY 4.0');
      expect(curve.expected.length).toBeGreaterThan(0);
    }
  });
});
