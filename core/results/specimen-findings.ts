/** What comes from the specimen's own measurements: S0, L0, and after the break Z and A of the refitted halves. */
import { numberText } from '../quantity/number-text.ts';
import type { Specimen } from '../specimen/specimen.ts';
import type { AreaOutcome } from './area.ts';
import { elongationAfterFracture } from './elongation-after-fracture.ts';
import { type Finding, given, withhold } from './finding.ts';
import { reductionOfArea } from './reduction-of-area.ts';

export function specimenFindings(specimen: Specimen | null, section: AreaOutcome | null): Finding[] {
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
    reductionOfArea(specimen, areaMm2) ??
    withhold(
      'Z',
      'percentage reduction of area',
      'final-section-not-measured',
      'The smallest section after the break was not measured; enter finalDiameter, or finalWidth and finalThickness.',
    );
  const elongation = elongationAfterFracture(specimen);
  return [
    section.ok ? given(section.area.result) : { given: false, withheld: section.withheld },
    gaugeLength(specimen),
    reduction,
    ...(elongation === null ? [] : [elongation]),
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
  const lengths = Object.values(geometry)
    .flatMap((d) => (typeof d === 'string' ? [] : d.measurements))
    .filter((q) => q.dimension === 'length');
  return lengths.length > 0 && lengths.every((q) => ['in', 'mil', 'ft'].includes(q.unit));
}
