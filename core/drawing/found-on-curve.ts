/** What an evaluation found on a curve, as it is drawn everywhere: which readings carry which sign, and the offset lines. */
import type { Evaluation } from '../results/evaluation.ts';
import type { MarkSign } from './mark-sign.ts';
import type { PlotLine } from './plot-input.ts';

export type FoundName = 'upper-yield' | 'lower-yield' | 'proof' | 'maximum' | 'break';

export interface FoundMark {
  readonly name: FoundName;
  readonly sign: MarkSign;
  readonly reading: number;
}

const SIGNS: Readonly<Record<FoundName, MarkSign>> = {
  'upper-yield': 'yield',
  'lower-yield': 'yield',
  proof: 'yield',
  maximum: 'peak',
  break: 'break',
};

/** In the order in which their words are given room. */
export function foundMarks(marks: Evaluation['marks']): FoundMark[] {
  const { upperYield, lowerYield, proof, maximumForce, fracture } = marks;
  return (
    [
      ['maximum', maximumForce],
      ['upper-yield', upperYield],
      ['lower-yield', lowerYield === upperYield ? undefined : lowerYield],
      ['proof', proof],
      ['break', fracture],
    ] as const
  ).flatMap(([name, reading]) => (reading === undefined ? [] : [{ name, sign: SIGNS[name], reading }]));
}

/** How far an offset line is carried on beyond the strength that it gives. */
const OFFSET_LINE_BEYOND = 1.15;

/** What the axes show of strain and stress. */
export interface StrainAxes {
  /** Units of x to a strain of 1: 100 for %, the gauge length for an extension. */
  readonly xPerStrain: number;
  /** Units of y to one MPa: the section for a load in N. */
  readonly yPerMpa: number;
}

/** The offset line of each proof strength, from its foot on through the strength; none without a slope. */
export function offsetLines(
  { slope, proofs }: Pick<Evaluation, 'slope' | 'proofs'>,
  { xPerStrain, yPerMpa }: StrainAxes,
  words: (offsetPercent: number) => string,
): (PlotLine & { readonly words: string })[] {
  if (slope === undefined) return [];
  return proofs.map(({ offsetPercent, stressMpa }) => {
    const foot = slope.footStrain + offsetPercent / 100;
    const top = stressMpa * OFFSET_LINE_BEYOND;
    return {
      x1: foot * xPerStrain,
      y1: 0,
      x2: (foot + top / slope.slopeMpa) * xPerStrain,
      y2: top * yPerMpa,
      words: words(offsetPercent),
    };
  });
}
