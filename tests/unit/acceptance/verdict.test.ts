import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DOUBT_CODES } from '../../../core/acceptance/doubts.ts';
import { FRACTURE_LOCATIONS, fractureLocationFromText } from '../../../core/acceptance/fracture.ts';
import { measuredFromResults } from '../../../core/acceptance/measured-from-results.ts';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import { decidedVerdict, override } from '../../../core/acceptance/override.ts';
import { judgeEvaluation } from '../../../core/acceptance/judge-evaluation.ts';
import { judged, packCalled, refused } from './judging.ts';

const GOOD = { baseMetals: ['SA-516-70'], strength: '75 000 psi', broke: 'weld-metal' } as const;

describe('what is missing makes a verdict undecided, with the reason', () => {
  it('nothing is judged before somebody has noted where it broke', () => {
    for (const pack of builtInPacks()) {
      const verdict = judged(pack, {
        minima: ['30 ksi'].slice(pack.file.unitSystem === 'SI' ? 1 : 0),
        strength: '400 ksi',
      });
      expect(verdict.outcome, pack.file.id).toBe('undecided');
      expect(verdict.missing[0]?.code, pack.file.id).toBe('where-it-broke');
      expect(verdict.sentence).toContain('where it broke is not noted');
    }
  });

  it('no strength', () => {
    const verdict = judged('asme-ix', { baseMetals: ['A36'], broke: 'weld-metal' });
    expect(verdict).toMatchObject({ outcome: 'undecided', limit: { value: 58, unit: 'ksi' } });
    expect(verdict.sentence).toContain('the tensile strength is not given');
  });

  it('no base metal', () => {
    expect(judged('asme-ix', { strength: '70 ksi', broke: 'weld-metal' }).missing[0]?.code).toBe(
      'base-metal',
    );
  });

  it('no filler class', () => {
    expect(judged('aws-a5.1', { strength: '70 ksi', broke: 'weld-metal' }).missing[0]?.code).toBe('filler');
  });

  it('yield and elongation that a class asks for', () => {
    const verdict = judged('aws-a5.1', { filler: 'E7018', strength: '75 ksi', broke: 'weld-metal' });
    expect(verdict.outcome).toBe('undecided');
    expect(verdict.sentence).toMatch(/yield strength is not given.*elongation is not given/);
  });

  it('but a strength that already fails is rejected without them', () => {
    expect(judged('aws-a5.1', { filler: 'E7018', strength: '65 ksi', broke: 'weld-metal' }).outcome).toBe(
      'reject',
    );
  });

  it('and shop practice rejects a weld break without knowing any minimum', () => {
    expect(judged('shop-practice', { strength: '90 ksi', broke: 'weld-metal' })).toMatchObject({
      outcome: 'reject',
      limit: null,
    });
  });

  it('an all-weld-metal specimen can’t break in base metal', () => {
    const verdict = judged('aws-a5.1', {
      filler: 'E7018',
      strength: '75 ksi',
      yield: '65 ksi',
      elongation: '25 %',
      broke: 'base-metal',
    });
    expect(verdict.missing[0]?.code).toBe('contradiction');
  });
});

describe('validity comes first', () => {
  it.each(DOUBT_CODES)('%s: questionable, never silently good', (code) => {
    const verdict = judged('asme-ix', { ...GOOD, doubts: [{ code, detail: 'noted by hand' }] });
    expect(verdict.outcome).toBe('undecided');
    expect(verdict.validity.state).toBe('questionable');
    expect(verdict.sentence).toContain('questionable');
  });

  it('tells what the answer would be were the doubt cleared', () => {
    const doubts = [{ code: 'calibration-overdue' as const, detail: 'due 2031-05-01' }];
    expect(judged('asme-ix', { ...GOOD, doubts }).validity.outcomeIfCleared).toBe('accept');
    expect(judged('asme-ix', { ...GOOD, doubts, strength: '50 ksi' }).validity.outcomeIfCleared).toBe(
      'reject',
    );
    expect(judged('asme-ix', { ...GOOD, doubts }).sentence).toContain('due 2031-05-01');
  });

  it('a break in the grips is such a doubt by itself, and nothing can clear it', () => {
    const verdict = judged('asme-ix', { ...GOOD, broke: 'grips' });
    expect(verdict.validity).toMatchObject({ state: 'questionable', outcomeIfCleared: null });
  });

  it('an elongation from a break outside the gauge length counts only when it meets the minimum (ASTM B557 7.8)', () => {
    const request = { filler: 'E7018', strength: '75 ksi', yield: '65 ksi', broke: 'outside-gauge' } as const;
    expect(judged('aws-a5.1', { ...request, elongation: '24 %' }).outcome).toBe('accept');
    const short = judged('aws-a5.1', { ...request, elongation: '15 %' });
    expect(short).toMatchObject({ outcome: 'undecided', missing: [{ code: 'replacement' }] });
    const within = { ...request, broke: 'weld-metal', elongation: '15 %' } as const;
    expect(judged('aws-a5.1', within).outcome).toBe('reject');
    // 7.8: "in a punched or scribed mark", the same.
    const atMark = judged('aws-a5.1', { ...within, mark: 'gauge-mark' });
    expect(atMark).toMatchObject({ outcome: 'undecided', missing: [{ code: 'replacement' }] });
    expect(atMark.sentence).toContain('broke at a gauge mark');
    const longEnough = judged('aws-a5.1', { ...within, elongation: '24 %', mark: 'gauge-mark' });
    expect(longEnough.outcome).toBe('accept');
    expect(longEnough.remarks.join()).toContain('It broke at a gauge mark');
  });

  it('a break at a stamp mark is such a doubt, told with the request', () => {
    const verdict = judged('asme-ix', { ...GOOD, mark: 'stamp-mark' });
    expect(verdict).toMatchObject({ outcome: 'undecided', validity: { state: 'questionable' } });
    expect(verdict.sentence).toContain('stamp mark');
  });
});

describe('two base metals', () => {
  const two = { baseMetals: ['A36', 'SA-516-70'] };

  it('the lower minimum governs (QW-153.1(b))', () => {
    expect(judged('asme-ix', { ...two, strength: '58 000 psi', broke: 'weld-metal' })).toMatchObject({
      outcome: 'accept',
      clause: 'QW-153.1(b)',
      limit: { value: 58_000, unit: 'psi' },
    });
    expect(judged('asme-ix', { ...two, strength: '57 999 psi', broke: 'weld-metal' }).outcome).toBe('reject');
  });

  it('for a break in base metal both readings of the unclear paragraph are shown, the weaker metal deciding', () => {
    const verdict = judged('asme-ix', {
      ...two,
      strength: '60 000 psi',
      broke: 'base-metal',
      brokenBaseMetal: 'SA-516-70',
    });
    expect(verdict).toMatchObject({ outcome: 'accept', clause: 'QW-153.1(d)', limit: { value: 55_100 } });
    expect(verdict.otherReadings).toMatchObject([
      { outcome: 'reject', limit: { value: 66_500, unit: 'psi' } },
    ]);
  });

  it('no other reading is shown when the weaker metal itself broke', () => {
    const verdict = judged('asme-ix', {
      ...two,
      strength: '60 000 psi',
      broke: 'base-metal',
      brokenBaseMetal: '1',
    });
    expect(verdict.otherReadings).toEqual([]);
  });

  it('two of one kind are one minimum (QW-153.1(a))', () => {
    expect(judged('asme-ix', { ...GOOD, baseMetals: ['A36', 'A36'] }).clause).toBe('QW-153.1(a)');
  });

  it('one unknown minimum leaves the verdict open', () => {
    expect(judged('asme-ix', { ...GOOD, baseMetals: ['A36', 'unobtainium'] }).outcome).toBe('undecided');
    expect(
      judged('asme-ix', { ...GOOD, baseMetals: ['A36', 'unobtainium'], minima: ['80 ksi'] }),
    ).toMatchObject({
      outcome: 'accept',
      limit: { value: 58_000 },
    });
  });

  it('stated minima: the lower governs whatever their order', () => {
    for (const minima of [
      ['60 ksi', '70 000 psi'],
      ['70 000 psi', '60 ksi'],
    ]) {
      expect(judged('asme-ix', { minima, strength: '60 000 psi', broke: 'fusion-line' })).toMatchObject({
        outcome: 'accept',
        limit: { value: 60_000, unit: 'psi' },
      });
    }
  });
});

describe('weld metal weaker on purpose (QW-153.1(c))', () => {
  it('its stated minimum is enough, in the weld only where it is stated', () => {
    const request = { baseMetals: ['SA-516-70'], strength: '62 ksi', broke: 'weld-metal' } as const;
    expect(judged('asme-ix', request).outcome).toBe('reject');
    expect(judged('asme-ix', { ...request, weldMetalMinimum: '60 ksi' })).toMatchObject({
      outcome: 'accept',
      clause: 'QW-153.1(c)',
      limit: { value: 60 },
    });
  });
});

describe('a stated minimum beside a material of the tables', () => {
  it('the same figure in either system is no contradiction', () => {
    for (const minimum of ['70 000 psi', '70 ksi', '485 MPa']) {
      expect(judged('asme-ix', { ...GOOD, minima: [minimum] }).remarks).toEqual(
        judged('asme-ix', GOOD).remarks,
      );
    }
  });

  it('a different one that changes nothing is told', () => {
    const verdict = judged('asme-ix', { ...GOOD, minima: ['72 ksi'] });
    expect(verdict.outcome).toBe('accept');
    expect(verdict.remarks.join(' ')).toMatch(/stated for SA-516-70 is 72 ksi, but the table prints 70 ksi/);
  });

  it('a different one that matters leaves the verdict open: the printed value governs', () => {
    const verdict = judged('asme-ix', { ...GOOD, strength: '71 ksi', minima: ['72 ksi'] });
    expect(verdict).toMatchObject({ outcome: 'undecided', missing: [{ code: 'contradiction' }] });
    expect(verdict.sentence).toContain('the value printed for the material governs');
  });
});

describe('shop practice beside the code', () => {
  it('the code’s verdict tells what the shop would have said, where it differs', () => {
    const verdict = judged('aws-d1.1', { baseMetals: ['A36'], strength: '60 ksi', broke: 'weld-metal' });
    expect(verdict.outcome).toBe('accept');
    expect(verdict.otherPacks).toMatchObject([
      { pack: { id: 'shop-practice', kind: 'practice' }, outcome: 'reject' },
    ]);
    expect(
      judged('aws-d1.1', { baseMetals: ['A36'], strength: '60 ksi', broke: 'base-metal' }).otherPacks,
    ).toEqual([]);
  });

  it('the shop’s verdict tells what the codes would have said', () => {
    const verdict = judged('shop-practice', { baseMetals: ['A36'], strength: '60 ksi', broke: 'weld-metal' });
    expect(verdict.otherPacks.map((other) => [other.pack.id, other.outcome])).toEqual([
      ['asme-ix', 'accept'],
      ['aws-d1.1', 'accept'],
      ['iso-15614-1', 'accept'],
    ]);
  });
});

describe('the sentence', () => {
  it('holds outcome, clause, place, strength, limit, where the limit comes from, and the margin', () => {
    expect(
      judged('asme-ix', { baseMetals: ['SA-516-70'], strength: '68 000 psi', broke: 'base-metal' }).sentence,
    ).toBe(
      'Accepted by ASME BPVC IX, QW-153.1(d): it broke in the base metal; tensile strength 68 000 psi, at least 66 500 psi needed (0.95 × 70 000 psi, the specified minimum of A516-70), margin 1500 psi.',
    );
  });

  it('shows both numbers where the pack rounds', () => {
    const verdict = judged('aws-a5.1', { filler: 'E7018', strength: '69 499 psi', broke: 'weld-metal' });
    expect(verdict.sentence).toContain('tensile strength 69 ksi (69.499 ksi rounded to 1 ksi)');
    expect(verdict.checks[0]).toMatchObject({
      unrounded: { value: 69.499 },
      compared: { value: 69 },
      margin: { value: -1 },
    });
  });
});

describe('bad input is refused with its field', () => {
  it.each([
    ['strength', { strength: '500' }, 'strength', /no unit/],
    ['a negative strength', { strength: '-500 MPa' }, 'strength', /below zero/],
    ['a length for a strength', { strength: '5 mm' }, 'strength', /stress is needed/],
    ['a place that is none', { broke: 'flange' }, 'broke', /weld-metal/],
    ['a negative minimum', { minima: ['-70 ksi'] }, 'minima', /negative/],
    ['minima in two unit systems', { minima: ['70 ksi', '485 MPa'] }, 'minima', /two unit systems/],
    ['two values in one', { minima: ['70 ksi (485 MPa)'] }, 'minima', /two values/],
    [
      'more minima than metals',
      { baseMetals: ['A36'], minima: ['60 ksi', '70 ksi'] },
      'minima',
      /not clear which/,
    ],
    ['a negative uncertainty', { uncertainty: '-1 %' }, 'uncertainty', /below zero/],
    ['a coverage factor of zero', { uncertainty: '1 %', coverageFactor: '0' }, 'coverageFactor', /above 0/],
    ['an unknown field', { colour: 'red' }, 'colour', /no such field/],
    [
      'a metal that is not there',
      { baseMetals: ['A36'], brokenBaseMetal: '3' },
      'brokenBaseMetal',
      /none of the base metals/,
    ],
  ])('%s', (_what, request, field, sentence) => {
    const [fault] = refused('asme-ix', request);
    expect(fault?.field).toBe(field);
    expect(fault?.sentence).toMatch(sentence);
  });

  it('a minimum in MPa for a pack that rounds in ksi', () => {
    expect(refused('aws-a5.1', { minima: ['490 MPa'] })[0]?.sentence).toMatch(/judges in psi or ksi/);
  });

  it('never throws, whatever is asked', () => {
    const text = fc.oneof(
      fc.string({ maxLength: 40 }),
      fc.constantFrom('70 ksi', '500 MPa', '22 %', 'A36', 'E7018', '1e-300 psi', '9e99 MPa'),
    );
    fc.assert(
      fc.property(
        fc.constantFrom(...builtInPacks()),
        fc.record(
          {
            strength: text,
            yield: text,
            elongation: text,
            broke: fc.oneof(text, fc.constantFrom(...FRACTURE_LOCATIONS)),
            baseMetals: fc.array(text, { maxLength: 3 }),
            minima: fc.array(text, { maxLength: 3 }),
            filler: text,
            uncertainty: text,
            guardFactor: text,
          },
          { requiredKeys: [] },
        ),
        (pack, request) => {
          try {
            judged(pack, request);
          } catch (error) {
            // Refusals come as sentences; a TypeError would be a bug.
            expect(error).not.toBeInstanceOf(TypeError);
            expect(error).not.toBeInstanceOf(RangeError);
          }
        },
      ),
      { numRuns: 300 },
    );
  });
});

it('places are understood as people write them', () => {
  expect(
    ['HAZ', 'weld metal', 'Parent pipe', 'weld_interface', 'in grips', 'outside-gauge-marks'].map(
      fractureLocationFromText,
    ),
  ).toEqual(['heat-affected-zone', 'weld-metal', 'base-metal', 'fusion-line', 'grips', 'outside-gauge']);
  expect(fractureLocationFromText('constructor')).toBeNull();
});

describe('an override', () => {
  const verdict = judged('asme-ix', { ...GOOD, doubts: [{ code: 'calibration-overdue' }] });

  it('needs a person and a reason', () => {
    expect(override.safeParse({ to: 'accept', person: ' ', reason: 'x' }).success).toBe(false);
    expect(override.safeParse({ to: 'accept', person: 'Q. Inspector', reason: '' }).success).toBe(false);
  });

  it('counts, and leaves the verdict of the rules visible', () => {
    const given = override.parse({
      to: 'accept',
      person: 'Q. Inspector',
      reason: 'verified the day after, within 1 %.',
    });
    const decided = decidedVerdict(verdict, [given]);
    expect(decided.outcome).toBe('accept');
    expect(decided.verdict.outcome).toBe('undecided');
    expect(decided.sentence).toMatch(
      /Decided by Q\. Inspector as "accept": verified the day after.*The rules said: Undecided/,
    );
  });

  it('without one the rules decide', () => {
    expect(decidedVerdict(verdict)).toMatchObject({ outcome: 'undecided', overrides: [] });
  });
});

describe('values from an evaluation', () => {
  const result = (symbol: string, value: number, unit: 'MPa' | '1' | '%') =>
    ({
      symbol,
      name: symbol,
      value,
      unit,
      rounded: [],
      method: '',
      working: { formula: '', inputs: [], substituted: '', source: '' },
    }) as const;

  it('are taken unrounded, with elongation in per cent', () => {
    const measured = measuredFromResults(
      [result('Rm', 458.52, 'MPa'), result('Rp0.2', 301.5, 'MPa'), result('A', 0.245, '1')],
      'SI',
    );
    expect(measured['tensile-strength']).toMatchObject({ text: '458.52 MPa' });
    expect(measured['yield-strength']).toMatchObject({ text: '301.5 MPa' });
    expect(measured.elongation).toMatchObject({ text: '24.5 %' });
  });

  it('the noise of binary arithmetic does not decide: 3325 lbf on 0.05 in² is 66 500 psi', () => {
    const megapascal = (3325 * 4.4482216152605) / (0.05 * 645.16);
    for (const noisy of [megapascal, megapascal * (1 + 4e-16), megapascal * (1 - 4e-16)]) {
      const outcome = judgeEvaluation({
        pack: packCalled('asme-ix'),
        request: { baseMetals: ['SA-516-70'], broke: 'base-metal' },
        evaluation: { results: [result('Rm', noisy, 'MPa')] },
        measuredIn: 'US',
        packs: [],
      });
      expect(outcome).toMatchObject({
        ok: true,
        verdict: { outcome: 'accept', limit: { value: 66_500, unit: 'psi' } },
      });
    }
  });

  it('bring their uncertainty along, so that the probability of a false accept is told', () => {
    const rm = {
      ...result('Rm', 490, 'MPa'),
      uncertainty: { standard: 4, expanded: 8, coverageFactor: 2, budget: [] },
    };
    const outcome = judgeEvaluation({
      pack: packCalled('iso-15614-1'),
      request: { baseMetals: ['SA-516-70'], broke: 'weld-metal' },
      evaluation: { results: [rm] },
      measuredIn: 'US',
      packs: [],
    });
    if (!outcome.ok) throw new Error('refused');
    expect(outcome.verdict.limit).toMatchObject({ value: 485, unit: 'MPa' });
    // 1 − Φ(5/4), mathematical tables.
    expect(outcome.verdict.decision?.probabilityOfFalseAccept).toBeCloseTo(0.1056498, 6);
  });

  it('what was withheld stays absent', () => {
    expect(Object.keys(measuredFromResults([result('Rm', 458.5, 'MPa')], 'SI'))).toEqual([
      'tensile-strength',
    ]);
  });
});
