/** Options as somebody who slips, or means harm, would give them: a sentence or finite results, and nothing else. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaluationOptions } from '../../../core/contract/evaluation-options.ts';
import type { Curve } from '../../../core/curve/curve.ts';
import { optionFault } from '../../../core/evaluation/option-fault.ts';
import { evaluateTyped } from '../../../core/results/evaluate-typed.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import type { Evaluation, EvaluationOptions } from '../../../core/results/evaluation.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';
import { checkedOptions } from '../../../electron/command-line/evaluation-options.ts';
import { record, voce, yieldPointLaw } from './synthetic-curve.ts';

const read = readSpecimen({
  id: 'T-1',
  geometry: { kind: 'round', diameter: '10 mm' },
  gaugeLength: '50 mm',
  parallelLength: '60 mm',
  finalGaugeLength: '62 mm',
  finalDiameter: '7 mm',
});
if (!read.ok) throw new Error('specimen');
const { specimen } = read;

const CURVES = [voce(), yieldPointLaw()].map((law): Curve => {
  const made = record(law, { readings: 400, stressNoiseMpa: 1, strainNoise: 1e-5 });
  const { stressMpa = new Float64Array(), strainRatio = new Float64Array() } = made;
  return {
    length: made.length,
    ...(made.timeS === undefined ? {} : { timeS: made.timeS }),
    forceN: stressMpa.map((s) => s * 25 * Math.PI),
    extensionMm: strainRatio.map((e) => e * 50),
    travelMm: strainRatio.map((e, i) => e * 60 + (stressMpa[i] ?? 0) * 0.002),
  };
});

/** The sentence that a nonsense is answered with; null where the options are taken. */
function faultOf(options: unknown): string | null {
  return optionFault(options)?.sentence ?? null;
}

function expectSound({ results, withheld, remarks, slope, proofs, zeroStrain = 0 }: Evaluation): void {
  for (const { symbol, value, uncertainty, working, rounded } of results) {
    expect(Number.isFinite(value), symbol).toBe(true);
    expect(Number.isFinite(uncertainty?.standard ?? 0), symbol).toBe(true);
    expect(
      rounded.every((r) => Number.isFinite(r.value)),
      symbol,
    ).toBe(true);
    expect(working.substituted, symbol).not.toMatch(/NaN|Infinity|undefined/);
  }
  for (const sentence of [...withheld.map((w) => w.reason), ...remarks])
    expect(sentence).not.toMatch(/NaN|Infinity|undefined/);
  const facts = [slope?.slopeMpa ?? 0, zeroStrain, ...proofs.map((p) => p.stressMpa)];
  expect(facts.every(Number.isFinite)).toBe(true);
  const symbols = results.map((r) => r.symbol);
  expect(new Set(symbols).size).toBe(symbols.length);
}

/** Numbers from plausible to absurd. */
const number = fc.oneof(
  fc.double({ min: 0, max: 10, noNaN: true }),
  fc.double({ min: -1e4, max: 1e5, noNaN: true }),
  fc.double(),
  fc.constantFrom(0, -1, NaN, Infinity, -Infinity, 1e300, 5e-324, 0.2, 0.5, 50, 1e9),
);
const points = (a: string, b: string) =>
  fc.array(fc.record({ [a]: number, [b]: number }), { minLength: 1, maxLength: 6 }).map((table) =>
    // In most cases in the order that is asked for.
    table.toSorted((p, q) => (p[a] ?? 0) - (q[a] ?? 0)),
  );
const anyOptions = fc.record(
  {
    offsetsPercent: fc.array(number, { maxLength: 5 }),
    extensionsUnderLoadPercent: fc.array(number, { maxLength: 5 }),
    slopeWindow: fc.record({ lowerMpa: number, upperMpa: number }),
    slopeFrom: fc.constantFrom('loading', 'loop'),
    fractureIndex: fc.oneof(fc.integer(), fc.nat(400)),
    strainFrom: fc.constantFrom('extensometer', 'travel'),
    corrections: fc.record(
      {
        toe: fc.boolean(),
        forceZeroN: number,
        extensionZeroMm: number,
        travelZeroMm: number,
        forceTable: points('shown', 'actual'),
        extensionTable: points('shown', 'actual'),
        frameCompliance: points('forceN', 'travelMm'),
      },
      { requiredKeys: [] },
    ),
    requiredElongationPercent: number,
    convertElongation: fc.record({ gaugeLengthMm: number, materialKind: fc.constant('carbon') }),
    measuring: fc.record({ readoutUncertaintyPercent: number, readoutResolutionN: number }),
    hardeningRangePercent: fc.record({ from: number, to: number }),
  },
  { requiredKeys: [] },
);

describe('options that are nonsense', () => {
  it('are answered with a sentence, or lead to finite results', () => {
    fc.assert(
      fc.property(anyOptions, fc.constantFrom(...CURVES), (options, curve) => {
        const fault = faultOf(options);
        if (fault !== null) {
          expect(fault).toMatch(/^.{10,}\.$/s);
          return;
        }
        expectSound(evaluate(curve, specimen, evaluationOptions.parse(options)));
      }),
      { numRuns: 400 },
    );
  });

  /** One field at a time, so that many are taken and evaluated. */
  it('are as sound one at a time', () => {
    let taken = 0;
    fc.assert(
      fc.property(anyOptions, fc.constantFrom(...CURVES), (all, curve) => {
        for (const [key, value] of Object.entries(all)) {
          const options = { [key]: value, ...(key === 'corrections' ? { strainFrom: 'travel' } : {}) };
          if (faultOf(options) !== null) continue;
          taken += 1;
          expectSound(evaluate(curve, specimen, evaluationOptions.parse(options)));
        }
      }),
      { numRuns: 60 },
    );
    expect(taken).toBeGreaterThan(50);
  });

  it.each<readonly [string, object, RegExp]>([
    ['an offset below zero', { offsetsPercent: [-0.2] }, /offsetsPercent/],
    ['an offset that is no number', { offsetsPercent: [NaN] }, /number/],
    ['an offset of 500 %', { offsetsPercent: [500] }, /100/],
    ['an offset that no extensometer tells', { offsetsPercent: [1e-9] }, /0\.001/],
    ['offsets that share a name', { offsetsPercent: [0.2, 0.200001] }, /two results of one name/],
    [
      'a thousand offsets',
      { offsetsPercent: Array.from({ length: 1_000 }, (_, i) => 0.01 * (i + 1)) },
      /longer than 50/,
    ],
    [
      'a table that falls',
      {
        corrections: {
          forceTable: [
            { shown: 0, actual: 100 },
            { shown: 100, actual: 0 },
          ],
        },
      },
      /must grow with what was shown/,
    ],
    [
      'a table that leaps',
      {
        corrections: {
          extensionTable: [
            { shown: 0, actual: 0 },
            { shown: 1e-12, actual: 10 },
          ],
        },
      },
      /no more than 1000/,
    ],
    [
      'a compliance of metres per newton',
      {
        corrections: {
          frameCompliance: [
            { forceN: 0, travelMm: 0 },
            { forceN: 1e-3, travelMm: 1e5 },
          ],
        },
      },
      /1000 mm per N/,
    ],
    ['a window of infinite stress', { slopeWindow: { lowerMpa: 0, upperMpa: Infinity } }, /number/],
  ])('%s is told in a sentence, on the command line as well', (name, options, sentence) => {
    expect(faultOf(options)).toMatch(sentence);
    // A frame's compliance has something to correct only where strain comes from the travel.
    const asked = { ...options, ...(name.includes('compliance') ? { strainFrom: 'travel' } : {}) };
    expect(() => checkedOptions(asked as EvaluationOptions)).toThrow(sentence);
  });

  it.each<readonly [string, unknown, RegExp]>([
    ['an offset that is no number', { offsetsPercent: [NaN] }, /offsetsPercent\[0\]: .* must be a number/],
    ['an endless offset', { offsetsPercent: [Infinity] }, /offsetsPercent\[0\]/],
    ['an extension below zero', { extensionsUnderLoadPercent: [-0.5] }, /extensionsUnderLoadPercent\[0\]/],
    [
      'a gauge length below zero',
      { convertElongation: { gaugeLengthMm: -80, materialKind: 'carbon' } },
      /convertElongation\.gaugeLengthMm: -80 is too small/,
    ],
    [
      'a kind of material that there is no rule for',
      { convertElongation: { gaugeLengthMm: 80, materialKind: 'brass' } },
      /"brass" is not known here; it must be "carbon" or "austenitic"/,
    ],
    ['an unknown rounding rule', { rounding: 'bogus' }, /"bogus" is not known here/],
    ['an unknown section rule', { section: 'largest' }, /section: "largest"/],
    ['an unknown form of the section', { sectionForm: 'oval' }, /sectionForm: "oval"/],
    ['an unknown way of the slope', { slopeFrom: 'guess' }, /slopeFrom: "guess"/],
    ['an unknown class', { measuring: { readoutClass: '7' } }, /measuring\.readoutClass: "7"/],
    ['a zero that is no number', { corrections: { forceZeroN: NaN } }, /corrections\.forceZeroN/],
    ['a mark before the record', { fractureIndex: -1 }, /fractureIndex: -1 is too small/],
    ['a mark between two readings', { fractureIndex: 10.5 }, /fractureIndex/],
    ['a misspelt name', { offset: 0.2 }, /offset: there is no such field/],
    ['text', 'Rp0.2', /^Nothing is evaluated.*The options: "Rp0\.2" stands here/],
    ['null', null, /The options: null stands here/],
    ['a list', [], /The options: a list stands here/],
  ])('%s, handed in unchecked, withholds everything and says why', (_name, options, sentence) => {
    for (const curve of CURVES) {
      const evaluation = evaluate(curve, specimen, options as EvaluationOptions);
      expectSound(evaluation);
      expect(evaluation.results).toEqual([]);
      for (const symbol of ['Fm', 'Rm', 'Rp0.2', 'Rt0.5', 'ReH', 'A', 'Ag', 'Z', 'S0']) {
        const withheld = evaluation.withheld.find((w) => w.symbol === symbol);
        expect(withheld?.code, symbol).toBe('option-wrong');
        expect(withheld?.reason, symbol).toMatch(sentence);
      }
    }
    const typed = evaluateTyped({ load: '30 kN' }, specimen, options as EvaluationOptions);
    expect(typed.results).toEqual([]);
    expect(typed.withheld.find((w) => w.symbol === 'Rm')?.reason).toMatch(sentence);
  });

  it.each<readonly [string, object, RegExp]>([
    ['gauge length below zero', { gaugeLength: { ...specimen.gaugeLength, mean: -50 } }, /gaugeLength: -50/],
    [
      'gauge length that is no number',
      { gaugeLength: { ...specimen.gaugeLength, mean: NaN } },
      /gaugeLength: what is no finite number/,
    ],
    ['extensometer length of nothing', { extensometerGaugeLengthMm: 0 }, /extensometerGaugeLengthMm: 0/],
    [
      'diameter below zero',
      { geometry: { kind: 'round', diameter: { ...specimen.gaugeLength, mean: -10 } } },
      /diameter: -10/,
    ],
  ])('a specimen put together with a %s withholds everything as well', (_name, wrong, sentence) => {
    for (const curve of CURVES) {
      const evaluation = evaluate(curve, { ...specimen, ...wrong });
      expect(evaluation.results).toEqual([]);
      expect(evaluation.withheld.find((w) => w.symbol === 'A')?.reason).toMatch(sentence);
      expectSound(evaluation);
    }
  });

  it('are as sound handed in unchecked', () => {
    fc.assert(
      fc.property(anyOptions, fc.constantFrom(...CURVES), (options, curve) => {
        expectSound(evaluate(curve, specimen, options as unknown as EvaluationOptions));
      }),
      { numRuns: 150 },
    );
  });

  it('take no zero that lies beyond the whole record', () => {
    const [curve] = CURVES;
    if (curve === undefined) throw new Error('no curve');
    for (const corrections of [{ extensionZeroMm: 1e6 }, { forceZeroN: -1e9 }]) {
      const evaluation = evaluate(curve, specimen, { corrections });
      expect(evaluation.withheld.find((w) => w.symbol === 'Rp0.2')?.reason).toContain(
        'farther out than anything recorded',
      );
    }
  });

  it('say that a mark of the break lies outside the record', () => {
    const [curve] = CURVES;
    if (curve === undefined) throw new Error('no curve');
    const { remarks } = evaluate(curve, specimen, { fractureIndex: 1e9 });
    expect(remarks.join(' ')).toMatch(/marked at reading no\. 1000000001.*the mark is left out/);
  });
});
