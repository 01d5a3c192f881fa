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

  it('has no help about what is no verb, and says which one may be meant', async () => {
    for (const args of [
      ['help', 'pul'],
      ['help', '--json', 'pul'],
    ]) {
      const { code, err } = await ran(...args);
      expect([code, err]).toEqual([2, expect.stringMatching(/no verb "pul"; did you mean pull\?/)]);
    }
    expect(await ran('help', 'nonsense')).toMatchObject({
      code: 2,
      out: '',
      err: expect.stringMatching(/^There is no verb "nonsense"; the verbs are archive, .*\.$/) as string,
    });
    expect((await ran('help', '--json')).code).toBe(0);
  });

  it('names the verbs when it does not know one', async () => {
    const { code, err } = await ran('weigh');
    expect(code).toBe(2);
    expect(err).toMatch(/no verb "weigh".*evaluate/);
  });
});
