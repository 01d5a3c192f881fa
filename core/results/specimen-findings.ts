/** What comes from the specimen's own measurements: S0, L0, and after the break Z and A of the refitted halves. */
import { measuredDimensions } from '../specimen/measured-dimensions.ts';
import { numberText } from '../quantity/number-text.ts';
import type { Specimen } from '../specimen/specimen.ts';
import type { AreaOutcome } from './area.ts';
import { elongationAfterFracture } from './elongation-after-fracture.ts';
import { elongationOnOtherLength } from './elongation-conversion.ts';
import type { EvaluationOptions } from './evaluation.ts';
import { type Finding, given, withhold } from './finding.ts';
import { resolutionChecks } from './instrument-resolution.ts';
import { reductionOfArea } from './reduction-of-area.ts';
import type { Result } from './result.ts';

export function specimenFindings(
  specimen: Specimen | null,
  section: AreaOutcome | null,
  options: EvaluationOptions = {},
): Finding[] {
  if (specimen === null || section === null)
    return [
      withhold(
        'S0',
        'original cross-section area',
        'no-specimen',
        'The curve was given without a specimen, so there are no dimensions; give the specimen file.',
      ),
      withhold('Z', 'percentage reduction of area', 'no-specimen', 'It needs the specimen’s dimensions.'),
    ];
  const areaMm2 = section.ok ? section.area.areaMm2 : undefined;
  const reduction =
    reductionOfArea(specimen, areaMm2, options) ??
    withhold(
      'Z',
      'percentage reduction of area',
      'final-section-not-measured',
      'The smallest section after the break was not measured; enter finalDiameter, or finalWidth and finalThickness.',
    );
  const { requiredElongationPercent: requiredPercent } = options;
  const elongation = elongationAfterFracture(
    specimen,
    requiredPercent === undefined ? {} : { requiredPercent },
  );
  return [
    section.ok
      ? given(withResolution(section.area.result, specimen))
      : { given: false, withheld: section.withheld },
    gaugeLength(specimen),
    reduction,
    ...(elongation === null ? [] : [elongation, ...converted(elongation, specimen, areaMm2, options)]),
  ];
}

/** S0 with a remark for each dimension that was measured too coarsely. */
function withResolution(result: Result, specimen: Specimen): Result {
  const coarse = resolutionChecks(specimen).filter((check) => check.verdict === 'too-coarse');
  return coarse.length === 0
    ? result
    : { ...result, remarks: [...(result.remarks ?? []), ...coarse.map((check) => check.sentence)] };
}

/** A on another gauge length, where somebody asked for it and A is there to be converted. */
function converted(
  elongation: Finding,
  { gaugeLength: measured }: Specimen,
  areaMm2: number | undefined,
  { convertElongation }: EvaluationOptions,
): Finding[] {
  if (convertElongation === undefined || !elongation.given || measured === undefined || areaMm2 === undefined)
    return [];
  return [
    given(
      elongationOnOtherLength(
        {
          percent: elongation.result.value,
          from: { gaugeLengthMm: measured.mean, areaMm2 },
          to: { gaugeLengthMm: convertElongation.gaugeLengthMm, areaMm2 },
        },
        convertElongation.materialKind,
      ),
    ),
  ];
}

function gaugeLength({ gaugeLength: measured }: Specimen): Finding {
  const name = 'original gauge length';
  if (measured === undefined)
    return withhold(
      'L0',
      name,
      'no-gauge-length',
      'No gauge length was given; enter the length between the marks.',
    );
  const count = measured.measurements.length;
  return given({
    symbol: 'L0',
    name,
    value: measured.mean,
    unit: 'mm',
    rounded: [],
    method: count === 1 ? 'as measured' : `mean of ${String(count)} measurements`,
    working: {
      formula: 'L0',
      inputs: [
        {
          symbol: 'L0',
          name,
          value: measured.mean,
          unit: 'mm',
          from: count === 1 ? 'measured gauge length' : `measured gauge length, mean of ${String(count)}`,
        },
      ],
      substituted: `L0 = ${numberText(measured.mean)} mm`,
      source: 'measurement before the test',
    },
  });
}

/** True where every length of the section was typed in a US customary unit: reports are then rounded in that system. */
export function measuredInInches({ geometry }: Specimen): boolean {
  const lengths = measuredDimensions(geometry)
    .flatMap(([, { measurements }]) => measurements)
    .filter((q) => q.dimension === 'length');
  return lengths.length > 0 && lengths.every((q) => ['in', 'mil', 'ft'].includes(q.unit));
}
