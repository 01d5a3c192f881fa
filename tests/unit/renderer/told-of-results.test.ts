/** What evaluations and verdicts come out with, in Spanish: no English is left, whatever happened at the pull. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { FRACTURE_LOCATIONS } from '../../../core/acceptance/fracture.ts';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import type { Verdict } from '../../../core/acceptance/verdict.ts';
import type { Curve } from '../../../core/curve/curve.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import type { Evaluation } from '../../../core/results/evaluation.ts';
import { speedReason } from '../../../core/results/testing-speed.ts';
import { inFieldWords } from '../../../core/specimen/field-words.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';
import { lowerToleranceBound } from '../../../core/statistics/tolerance-bound.ts';
import { changeView } from '../../../renderer/store/view-settings.ts';
import { told } from '../../../renderer/words/told.ts';
import { verifyForce } from '../../../core/verification/verify-force.ts';
import { readWorksheet } from '../../../core/verification/worksheet.ts';
import { judged } from '../acceptance/judging.ts';
import { bilinear, rambergOsgood, record, voce, yieldPointLaw } from '../results/synthetic-curve.ts';

beforeAll(() => changeView({ language: 'es' }));
afterAll(() => changeView({ language: 'en' }));

/** Words that stand in most English sentences and in no Spanish one. `At` is a symbol. */
const ENGLISH =
  /\b([Tt]he|of|[Ii]s|are|and|with|from|not|for|[Bb]y|at|[Ii]t|to|than|[Rr]eadings?|measured)\b/;

/** Names of standards with their clauses, which stay as they are printed. */
const NAMES = /\b(ASME|AWS|ISO|ASTM|API|IMO)\b[^;:]*/g;

function leftEnglish(sentences: Iterable<string>): string[] {
  return [...new Set(sentences)]
    .map((sentence) => told(sentence))
    .filter((sentence) => ENGLISH.test(sentence.replace(NAMES, '')));
}

function specimen(geometry: object) {
  const outcome = readSpecimen({ id: 'x', geometry, gaugeLength: '50 mm', parallelLength: '60 mm' });
  if (!outcome.ok) throw new Error('specimen');
  return outcome.specimen;
}

const FLAT = specimen({ kind: 'flat', width: ['12.46 mm', '12.48 mm'], thickness: '6.11 mm' });
const ROUND = specimen({ kind: 'round', diameter: '10.00 mm' });

function withForce({ stressMpa, strainRatio, ...curve }: Curve): Curve {
  return {
    ...curve,
    forceN: (stressMpa ?? new Float64Array()).map((s) => s * 25 * Math.PI),
    extensionMm: (strainRatio ?? new Float64Array()).map((e) => e * 50),
  };
}

function* saidIn(evaluation: Evaluation): Generator<string> {
  for (const { name, method, working, remarks, rounded, uncertainty } of evaluation.results) {
    yield* [name, method, working.formula, working.source, working.substituted];
    yield* working.steps ?? [];
    yield* remarks ?? [];
    for (const { from } of working.inputs) yield from;
    for (const { rule } of rounded) yield rule;
    for (const { source } of uncertainty?.budget ?? []) yield source;
  }
  for (const { name, reason } of evaluation.withheld) yield* [name, inFieldWords(reason)];
  yield* evaluation.remarks;
  for (const check of evaluation.resolution ?? []) yield* [check.sentence, check.source];
  for (const check of evaluation.speed?.checks ?? [])
    yield* [check.method, check.source, speedReason(check, 'si')];
}

it('is there for everything that an evaluation says of an ordinary record', () => {
  const evaluations = [
    record(yieldPointLaw()),
    record(voce(), { stressNoiseMpa: 1, strainNoise: 5e-6 }),
    record(rambergOsgood(), { readings: 400 }),
    record(bilinear(), { toeStrain: 5e-4, slackReadings: 50 }),
    record(voce({ end: 0.02 }), { breaks: false }),
  ].flatMap((curve) => [evaluate(withForce(curve), FLAT), evaluate(withForce(curve), ROUND)]);
  expect(leftEnglish(evaluations.flatMap((evaluation) => [...saidIn(evaluation)]))).toEqual([]);
});

it('is there for what is measured after the break, wherever the specimen broke', () => {
  const flat = { kind: 'flat', width: '12.47 mm', thickness: '6.11 mm' };
  const round = { kind: 'round', diameter: '10.00 mm' };
  const neckOfFlat = { finalWidth: '8.10 mm', finalThickness: '4.2 mm' };
  const measured: object[] = [
    { geometry: round, finalDiameter: '6.1 mm' },
    { geometry: round, finalDiameter: ['6.1 mm', '6.3 mm'] },
    { geometry: flat, ...neckOfFlat },
    { geometry: flat, finalWidth: '8.10 mm', finalThickness: ['4.2 mm', '4.0 mm', '4.1 mm'] },
    { geometry: flat, finalWidth: '13.1 mm', finalThickness: '6.3 mm' },
    { geometry: flat },
    { geometry: round, finalGaugeLength: '51 mm' },
    { geometry: flat, finalGaugeLength: '49 mm' },
    {
      geometry: flat,
      fractureIntervals: { intervals: 10, between: 4, betweenLength: '24 mm', beyondLengths: ['19 mm'] },
    },
    ...['30 mm', '15 mm', '2 mm'].map((distance) => ({
      geometry: flat,
      ...neckOfFlat,
      finalGaugeLength: '64.5 mm',
      distanceToNearestMark: distance,
    })),
  ];
  const curve = withForce(record(voce()));
  const said = measured.flatMap((one) => {
    const read = readSpecimen({ id: 'x', gaugeLength: '50 mm', ...one });
    if (!read.ok) throw new Error(JSON.stringify(read));
    return [
      {},
      { requiredElongationPercent: 20 },
      { requiredElongationPercent: 40 },
      ...(['carbon', 'austenitic'] as const).map((materialKind) => ({
        convertElongation: { materialKind, gaugeLengthMm: 80 },
      })),
      { finalSection: 'parabola' } as const,
      { finalSection: 'plain' } as const,
    ].flatMap((options) => [...saidIn(evaluate(curve, read.specimen, options))]);
  });
  expect(leftEnglish(said)).toEqual([]);
});

/** Not where a clause was seen: that is cited as it is called. */
function* saidBy(verdict: Verdict): Generator<string> {
  yield verdict.sentence;
  yield verdict.caution;
  for (const { sentence } of [...verdict.validity.reasons, ...verdict.missing]) yield sentence;
  for (const { limitFrom } of verdict.checks) if (limitFrom !== null) yield limitFrom;
  for (const { sentence } of verdict.otherPacks) yield sentence;
}

it('is there for the verdict of every pack, wherever the specimen broke and however strong it was', () => {
  const said: string[] = [];
  for (const pack of builtInPacks())
    // Base metal is not named: the doubts and what is missing are said too.
    for (const broke of [undefined, ...FRACTURE_LOCATIONS])
      for (const strength of ['300 MPa', '700 MPa', undefined])
        said.push(
          ...saidBy(
            judged(pack, {
              minima: [pack.file.unitSystem === 'SI' ? '420 MPa' : '60 ksi'],
              ...(broke === undefined ? {} : { broke }),
              ...(strength === undefined ? {} : { strength }),
            }),
          ),
        );
  expect(leftEnglish(said)).toEqual([]);
});

it.each([
  ['one run, no zeros', ['10'], [['10.01'], ['1000']]],
  [
    'figures beyond every class',
    ['1', '5', '10'],
    [
      ['1.2', '1.2', '1.2'],
      ['5.5', '5.5', '5.5'],
      ['11', '11', '11'],
    ],
  ],
  [
    'three runs of few forces, far apart',
    ['0.05', '0.1', '10'],
    [
      ['0.05', '0.05', '0.05'],
      ['0.1', '0.1', '0.1'],
      ['10', '10', '10'],
    ],
  ],
] as const)('what a verification leaves to be said is in Spanish: %s', (_what, applied, indicated) => {
  const outcome = readWorksheet({
    unit: 'kN',
    resolution: '0.01',
    steps: applied.map((force, i) => ({ applied: force, indicated: [...(indicated[i] ?? [])] })),
  });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.faults));
  const { iso, e4, remarks } = verifyForce(outcome.read);
  const said = [...iso.withheld, ...e4.withheld, ...remarks];
  expect(said.length).toBeGreaterThan(1);
  expect(leftEnglish(said)).toEqual([]);
  expect(said.filter((sentence) => told(sentence) === sentence)).toEqual([]);
});

it('clauses of our own packs are in Spanish, those of a code as they are printed', () => {
  const clauses = builtInPacks()
    .filter(({ file }) => file.id.startsWith('shop-practice'))
    .flatMap(({ file }) => file.clauses.map(({ id }) => id));
  expect(clauses.length).toBeGreaterThan(2);
  expect(clauses.filter((id) => told(id) === id)).toEqual([]);
  expect(told('QW-153.1(d)')).toBe('QW-153.1(d)');
});

it('a size that was measured several times is told as their mean', () => {
  expect(told('the width is 12.47 mm on average, at least 18 mm is asked for')).toBe(
    'el ancho es 12,47 mm de media, se pide al menos 18 mm',
  );
});

it('leaves no English in what is doubtful of a tolerance bound', () => {
  const remarks = [
    [500, 500, 500],
    [499, 500, 501],
    [1, 100],
  ].flatMap((values) => {
    const answer = lowerToleranceBound(values, { distribution: 'normal', coverage: 0.9, confidence: 0.95 });
    return answer.kind === 'bound' ? answer.remarks : [];
  });
  expect(remarks).toHaveLength(4);
  expect(leftEnglish(remarks)).toEqual([]);
});
