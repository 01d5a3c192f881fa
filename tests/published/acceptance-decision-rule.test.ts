/** Decision rule and its probabilities against a general-purpose mathematics library and published figures. */
import { erf } from 'mathjs';
import fc from 'fast-check';
import { cumulativeStdNormalProbability } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { standardNormalShare } from '../../core/statistics/normal-distribution.ts';
import { judgeAsked, type JudgeRequest } from '../../core/acceptance/judge-request.ts';
import { findPack } from '../../core/acceptance/packs.ts';
import type { Verdict } from '../../core/acceptance/verdict.ts';

function judge(request: JudgeRequest): Verdict {
  const found = findPack('asme-ix');
  if (found.kind !== 'found') throw new Error('no pack');
  const outcome = judgeAsked(found.item, { minima: ['500 MPa'], broke: 'weld-metal', ...request }, []);
  if (!outcome.ok) throw new Error(outcome.faults.map((fault) => fault.sentence).join(' '));
  return outcome.verdict;
}

describe('the normal distribution', () => {
  it('agrees with the error function of mathjs within rounding', () => {
    fc.assert(
      fc.property(fc.double({ min: -6, max: 6, noNaN: true }), (z) => {
        expect(Math.abs(standardNormalShare(z) - 0.5 * (1 + erf(z / Math.SQRT2)))).toBeLessThan(2e-15);
      }),
      { numRuns: 300 },
    );
  });

  it('agrees with the table of simple-statistics to its four places', () => {
    for (let z = -3; z <= 3; z += 0.25) {
      expect(Math.abs(standardNormalShare(z) - cumulativeStdNormalProbability(z))).toBeLessThan(1.5e-4);
    }
  });

  // Abramowitz and Stegun, Table 26.1 and 26.2, from memory.
  it.each([
    [0, 0.5],
    [1, 0.841344746068543],
    [1.959963984540054, 0.975],
    [-1.6448536269514722, 0.05],
    [-5, 2.866515718791939e-7],
    [-10, 7.619853024160527e-24],
  ])('is %d → %d, also far out in its tails', (z, probability) => {
    expect(Math.abs(standardNormalShare(z) / probability - 1)).toBeLessThan(1e-13);
  });
});

describe('simple acceptance (the default)', () => {
  it('accepts at the limit, where the probability of a false accept is one half', () => {
    const verdict = judge({ strength: '500 MPa', uncertainty: '2 %' });
    expect(verdict.outcome).toBe('accept');
    expect(verdict.decision?.guardBand).toBe(0);
    expect(verdict.decision?.probabilityOfFalseAccept).toBeCloseTo(0.5, 12);
  });

  it('tells nothing about probabilities without an uncertainty', () => {
    expect(judge({ strength: '500 MPa' }).decision).toBeNull();
  });
});

describe('guarded acceptance (ILAC-G8, JCGM 106, from memory): w = U leaves at most 2.5 % false accepts', () => {
  it('moves the acceptance limit up by the expanded uncertainty', () => {
    const rule = { uncertainty: '10 MPa', decisionRule: 'guarded-acceptance' } as const;
    expect(judge({ ...rule, strength: '510 MPa' }).outcome).toBe('accept');
    expect(judge({ ...rule, strength: '509.999 MPa' }).outcome).toBe('reject');
    const { decision } = judge({ ...rule, strength: '510 MPa' });
    expect(decision).toMatchObject({ guardBand: 10, acceptanceLimit: 510, coverageFactor: 2, unit: 'MPa' });
    // Two standard uncertainties above the limit: 1 − Φ(2).
    expect(decision?.probabilityOfFalseAccept).toBeCloseTo(0.022750131948179, 12);
  });

  it('with w = 0.82 U leaves 5 % false accepts (1.64 standard uncertainties)', () => {
    const verdict = judge({
      strength: '508.2 MPa',
      uncertainty: '10 MPa',
      guardFactor: '0.82',
      decisionRule: 'guarded-acceptance',
    });
    expect(verdict.outcome).toBe('accept');
    expect(verdict.decision?.probabilityOfFalseAccept).toBeCloseTo(0.0505, 3);
  });

  it('with three zones neither accepts nor rejects inside the guard band', () => {
    const rule = { uncertainty: '10 MPa', decisionRule: 'three-zones' } as const;
    expect(judge({ ...rule, strength: '490 MPa' }).outcome).toBe('undecided');
    expect(judge({ ...rule, strength: '489.999 MPa' }).outcome).toBe('reject');
    expect(judge({ ...rule, strength: '505 MPa' }).missing[0]?.code).toBe('outside-guard-band');
    expect(judge({ ...rule, strength: '510 MPa' }).outcome).toBe('accept');
  });

  it('needs the uncertainty, and says so', () => {
    expect(() => judge({ strength: '500 MPa', decisionRule: 'guarded-acceptance' })).toThrow(/uncertainty/);
  });
});

it('a relative uncertainty gives the same probability as mathjs works out', () => {
  // u = 1.815 % of 503 MPa / 2 (1.815 % is the expanded uncertainty of ISO 6892-1 Annex J, from memory).
  const verdict = judge({ strength: '503 MPa', uncertainty: '1.815 %' });
  const standard = (503 * 0.01815) / 2;
  const expected = 0.5 * (1 + erf((500 - 503) / standard / Math.SQRT2));
  expect(verdict.decision?.probabilityOfFalseAccept).toBeCloseTo(expected, 12);
  expect(verdict.decision?.probabilityOfConformity).toBeCloseTo(1 - expected, 12);
});
