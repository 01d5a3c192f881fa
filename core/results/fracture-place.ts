/** Where it broke, and whether an elongation from there counts: ISO's third from a mark, ASTM's middle half. */
import { numberText } from '../quantity/number-text.ts';

export interface FracturePlace {
  readonly gaugeLengthMm: number;
  readonly finalGaugeLengthMm: number;
  /** From the fracture to the nearer gauge mark, on the refitted halves. */
  readonly distanceToNearestMarkMm?: number;
  readonly elongationPercent: number;
  /** Minimum that the product or code demands. */
  readonly requiredPercent?: number;
}

export const PLACE_STANDARDS = ['iso-6892-1', 'astm-e8'] as const;
export type PlaceStandard = (typeof PLACE_STANDARDS)[number];

export interface PlaceVerdict {
  readonly standard: PlaceStandard;
  /** "meets-minimum": it broke outside, but the value reaches the minimum and so counts. */
  readonly verdict: 'valid' | 'meets-minimum' | 'not-valid' | 'not-known';
  readonly sentence: string;
  readonly source: string;
}

const SOURCE: Readonly<Record<PlaceStandard, string>> = {
  'iso-6892-1': 'ISO 6892 family, IS 1608:2005 clause 11.1',
  'astm-e8': 'ASTM B557-02a 7.8 and E8/E8M in the same terms',
};

/** The verdict of each standard on the place of the fracture. */
export function placeVerdicts(place: FracturePlace): PlaceVerdict[] {
  const { distanceToNearestMarkMm: distance } = place;
  if (distance === undefined)
    return PLACE_STANDARDS.map((standard) => ({
      standard,
      verdict: 'not-known',
      sentence:
        "Where it broke between the marks is not recorded, so it can't be said whether the elongation counts; measure from the fracture to the nearer mark.",
      source: SOURCE[standard],
    }));
  const third = place.gaugeLengthMm / 3;
  // The halves are measured fitted together, so the middle half is that of the length as it is now.
  const quarter = place.finalGaugeLengthMm / 4;
  return [
    judge(
      place,
      'iso-6892-1',
      distance >= third,
      `${mm(distance)} from the nearer mark, a third of the gauge length is ${mm(third)}`,
    ),
    judge(
      place,
      'astm-e8',
      distance >= quarter,
      `${mm(distance)} from the nearer mark, the middle half begins at ${mm(quarter)}`,
    ),
  ];
}

function judge(place: FracturePlace, standard: PlaceStandard, inside: boolean, where: string): PlaceVerdict {
  const source = SOURCE[standard];
  if (inside)
    return { standard, verdict: 'valid', sentence: `It broke ${where}: the elongation counts.`, source };
  const { requiredPercent: required } = place;
  if (required !== undefined && place.elongationPercent >= required)
    return {
      standard,
      verdict: 'meets-minimum',
      sentence: `It broke ${where}; outside, but ${numberText(place.elongationPercent, 4)} % meets the minimum of ${numberText(required)} %, so the elongation counts.`,
      source,
    };
  return {
    standard,
    verdict: 'not-valid',
    sentence: `It broke ${where}: ${required === undefined ? 'the elongation counts only if it still meets the minimum' : `too near, and the minimum of ${numberText(required)} % is not met; the elongation does not count`}.`,
    source,
  };
}

/** The verdicts as remarks beside A; one sentence where the place is not recorded. */
export function placeRemarks(place: FracturePlace): string[] {
  const verdicts = placeVerdicts(place);
  if (verdicts.every((v) => v.verdict === 'not-known')) return verdicts.slice(0, 1).map((v) => v.sentence);
  return verdicts.map((v) => `${v.source}: ${v.sentence}`);
}

const mm = (value: number): string => `${numberText(value, 4)} mm`;
