/**
 * The evaluation of a pull that was typed from the frame's display: peak load over the measured section, and what was
 * measured after the break. There is no curve, so whatever needs one is withheld.
 */
import { type TypedValues, typedNumbers } from '../pull/typed-values.ts';
import { numberText } from '../quantity/number-text.ts';
import type { Specimen } from '../specimen/specimen.ts';
import { area, areaFacts } from './area.ts';
import { type Evaluation, type EvaluationOptions, METHOD_VERSION } from './evaluation.ts';
import { type Finding, finiteOrWithheld, given, withhold } from './finding.ts';
import { resolutionChecks } from './instrument-resolution.ts';
import { refusedEvaluation } from './refused-evaluation.ts';
import { reported } from './reported.ts';
import type { Result, WorkingInput } from './result.ts';
import { specimenFindings } from './specimen-findings.ts';

const TYPED = 'typed from the frame’s display';
const NO_CURVE = 'The pull was typed from the frame’s display and has no curve; it needs recorded readings.';

/** What a curve alone can give, and what people look for first. */
const NEEDS_CURVE = [
  ['Rp0.2', 'proof strength, 0.2 % offset'],
  ['mE', 'slope of the elastic part'],
  ['Ag', 'plastic extension at maximum force'],
] as const;

export function evaluateTyped(
  typed: TypedValues,
  specimen: Specimen,
  options: EvaluationOptions = {},
): Evaluation {
  const refused = refusedEvaluation(specimen, options);
  if (refused !== null) return refused;
  const { loadN, yieldLoadN, elongationPercent } = typedNumbers(typed);
  const section = area(specimen.geometry, options);
  const fromSpecimen = specimenFindings(specimen, section, options);
  const areaMm2 = section.ok ? section.area.areaMm2 : null;
  const measuredElongation = fromSpecimen.some((f) => f.given && f.result.symbol === 'A');
  const findings: Finding[] = [
    given(force('Fm', 'maximum force', loadN, typed.load)),
    strength(
      { symbol: 'Rm', name: 'tensile strength (ultimate tensile strength)', force: 'Fm' },
      loadN,
      areaMm2,
    ),
    ...(yieldLoadN === undefined || typed.yieldLoad === undefined
      ? []
      : [
          given(force('FeH', 'yield load', yieldLoadN, typed.yieldLoad)),
          strength(
            {
              symbol: 'ReH',
              name: 'yield strength from the load at which the display stood still',
              force: 'FeH',
            },
            yieldLoadN,
            areaMm2,
          ),
        ]),
    ...NEEDS_CURVE.map(([symbol, name]) => withhold(symbol, name, 'no-curve', NO_CURVE)),
    ...fromSpecimen.filter((f) => f.given || f.withheld.symbol !== 'A' || elongationPercent === undefined),
    ...(elongationPercent === undefined || measuredElongation
      ? []
      : [given(typedElongation(elongationPercent, typed.elongation ?? ''))]),
  ].map(finiteOrWithheld);
  return {
    results: reported({
      results: findings.flatMap((f) => (f.given ? [f.result] : [])),
      specimen,
      ...(section.ok ? { area: section.area } : {}),
      proofs: [],
      totals: [],
      ...(options.rounding === undefined ? {} : { rounding: options.rounding }),
      ...(options.measuring === undefined ? {} : { measuring: options.measuring }),
      areaOptions: options,
    }),
    withheld: findings.flatMap((f) => (f.given ? [] : [f.withheld])),
    proofs: [],
    ...(areaMm2 === null ? {} : { areaMm2 }),
    ...(section.ok ? { section: areaFacts(section.area) } : {}),
    resolution: resolutionChecks(specimen),
    marks: {},
    remarks: [
      'The loads were read from the frame’s display and typed by a person; no curve was recorded, so nothing can be checked against it.',
      ...(measuredElongation && typed.elongation !== undefined
        ? [
            `An elongation of ${typed.elongation} was typed too; A is taken from what was measured after the break.`,
          ]
        : []),
    ],
    methodVersion: METHOD_VERSION,
  };
}

function force(symbol: string, name: string, valueN: number, text: string): Result {
  return {
    symbol,
    name,
    value: valueN,
    unit: 'N',
    rounded: [],
    method: TYPED,
    working: {
      formula: `${symbol} = load shown`,
      inputs: [{ symbol, name, value: valueN, unit: 'N', from: `${TYPED} as “${text}”` }],
      substituted: `${symbol} = ${text} = ${numberText(valueN)} N`,
      source: `reading of a person, ${TYPED}`,
    },
  };
}

interface Strength {
  readonly symbol: string;
  readonly name: string;
  /** Symbol of the force that it is made of. */
  readonly force: string;
}

function strength({ symbol, name, force: of }: Strength, forceN: number, areaMm2: number | null): Finding {
  if (areaMm2 === null)
    return withhold(symbol, name, 'no-area', 'The section could not be worked out, so there is no strength.');
  const value = forceN / areaMm2;
  const inputs: WorkingInput[] = [
    { symbol: of, name: of === 'Fm' ? 'maximum force' : 'yield load', value: forceN, unit: 'N', from: TYPED },
    {
      symbol: 'S0',
      name: 'original cross-section area',
      value: areaMm2,
      unit: 'mm²',
      from: 'measured dimensions of the specimen',
    },
  ];
  return given({
    symbol,
    name,
    value,
    unit: 'MPa',
    rounded: [],
    method: `load ${TYPED}, over the measured section`,
    working: {
      formula: `${symbol} = ${of} / S0`,
      inputs,
      substituted: `${symbol} = ${numberText(forceN)} N / ${numberText(areaMm2)} mm² = ${numberText(value)} MPa`,
      source: 'force over original section, ISO 6892-1 (from memory)',
    },
    ...(of === 'Fm'
      ? {}
      : {
          remarks: [
            'The yield load was seen on the display, not found on a curve: it is as good as the eye that saw the load stand still.',
          ],
        }),
  });
}

function typedElongation(percent: number, text: string): Result {
  const name = 'percentage elongation after fracture';
  return {
    symbol: 'A',
    name,
    value: percent,
    unit: '%',
    rounded: [],
    method: TYPED,
    working: {
      formula: 'A as typed',
      inputs: [{ symbol: 'A', name, value: percent, unit: '%', from: `${TYPED} as “${text}”` }],
      substituted: `A = ${numberText(percent)} %`,
      source: `reading of a person, ${TYPED}`,
    },
    remarks: ['Typed, not worked out from the refitted halves.'],
  };
}
