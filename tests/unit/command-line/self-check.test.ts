import { describe, expect, it } from 'vitest';
import { ran } from './in-process.ts';

interface Document {
  readonly program: { readonly name: string; readonly version: string };
  readonly agreeing: number;
  readonly failing: number;
  readonly checks: readonly { source: string; expected: number | string; got: unknown; verdict: string }[];
}

describe('gaugemark self-check', () => {
  it('prints source, expected, got, difference, verdict for each, and the version', async () => {
    const { code, out } = await ran('self-check');
    expect(code).toBe(0);
    expect(out).toMatch(/^gaugemark \d+\.\d+\.\d+, method /);
    expect(out).toMatch(/agrees {4}Rm: expected 1198\.732 MPa \(printed\), got 1198\.732 MPa, difference/);
    expect(out).toMatch(/All \d+ checks agree\.$/);
  });

  it('says the same as one JSON document', async () => {
    const { code, out } = await ran('self-check', '--json');
    const report = JSON.parse(out) as Document;
    expect(code).toBe(0);
    expect(report.failing).toBe(0);
    expect(report.checks).toHaveLength(report.agreeing);
    expect(report.agreeing).toBeGreaterThan(150);
    expect(report.checks.every((c) => c.source !== '' && c.got !== null)).toBe(true);
  });
});

describe('the command line', () => {
  it('lists its verbs, and shows the usage of one', async () => {
    expect((await ran('help')).out).toMatch(/evaluate.*\n(.*\n)*.*self-check/);
    expect((await ran('evaluate', '--help')).out).toContain('gaugemark evaluate CURVE.csv');
    expect((await ran('help', 'self-check')).out).toContain('17025');
  });

  it('names the verbs when it does not know one', async () => {
    const { code, err } = await ran('weigh');
    expect(code).toBe(2);
    expect(err).toMatch(/no verb "weigh".*evaluate/);
  });
});
