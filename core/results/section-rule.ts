/** Which of the measured sections counts as S0, and whose rule that is. */
import { type Exact, exactRatio } from '../quantity/exact.ts';
import { CORE_UNIT, convertExact } from '../quantity/units.ts';
import type { MeasuredDimension } from '../specimen/specimen.ts';

export const SECTION_RULES = ['mean', 'least', 'centre'] as const;
export type SectionRule = (typeof SECTION_RULES)[number];

/** Where each rule comes from; the figures and clauses are to be checked against one's own copy. */
export const SECTION_RULE_SOURCE: Readonly<Record<SectionRule, string>> = {
  mean: 'ISO 6892-1, clause 7 (mean of the measured sections; from memory)',
  least: 'ASME IX QW-152 and API 1104 5.6.2 (least section measured before loading)',
  centre: 'ASTM E8/E8M 7.2.1 (centre of the reduced section; from memory)',
};

/** One section: a value of each dimension that the formula of the area needs, exact, in the core's units. */
export type Section = readonly Exact[];

export interface ChosenSections {
  /** The sections whose area counts. Several only where the measurements pair up and the least is looked for. */
  readonly candidates: readonly Section[];
  /** "mean of 3", "smallest of 3", … for each dimension. */
  readonly words: readonly string[];
  readonly remark?: string;
}

const coreValues = (dimension: MeasuredDimension): Exact[] =>
  dimension.measurements.map((q) => convertExact(q.exact, q.unit, CORE_UNIT[q.dimension]));

const meanOf = (values: readonly Exact[]): Exact =>
  values.reduce((sum, v) => sum.add(v), exactRatio(0n, 1n)).div(values.length);

const smallest = (values: readonly Exact[]): Exact => values.reduce((a, b) => (b.compare(a) < 0 ? b : a));

/** True where the n-th measurement of each dimension can be taken at the n-th section. */
export function measurementsPairUp(dimensions: readonly MeasuredDimension[]): boolean {
  const count = dimensions[0]?.measurements.length ?? 0;
  return count > 1 && dimensions.every((d) => d.measurements.length === count);
}

/** Every section that was measured in full, in order; empty where the measurements don't pair up. */
export function pairedSections(dimensions: readonly MeasuredDimension[]): Section[] {
  if (!measurementsPairUp(dimensions)) return [];
  const columns = dimensions.map(coreValues);
  const count = columns[0]?.length ?? 0;
  return Array.from({ length: count }, (_, i) =>
    columns.map((column) => column[i]).filter((v) => v !== undefined),
  );
}

/** Picks the section by the rule. Dimensions stand in the order in which the formula takes them. */
export function chooseSections(dimensions: readonly MeasuredDimension[], rule: SectionRule): ChosenSections {
  const columns = dimensions.map(coreValues);
  const counted = (word: string): string[] =>
    columns.map((c) => (c.length === 1 ? 'measured once' : `${word} of ${String(c.length)}`));
  switch (rule) {
    case 'mean':
      return { candidates: [columns.map(meanOf)], words: counted('mean') };
    case 'least': {
      const paired = pairedSections(dimensions);
      if (paired.length > 0) return { candidates: paired, words: counted('at the least section') };
      const several = columns.some((c) => c.length > 1) && columns.length > 1;
      return {
        candidates: [columns.map(smallest)],
        words: counted('smallest'),
        ...(several && !measurementsPairUp(dimensions)
          ? {
              remark:
                'The dimensions were not measured equally often, so the smallest of each stands for the least section; that can make the area too small and the strength too high.',
            }
          : {}),
      };
    }
    case 'centre': {
      const even = columns.some((c) => c.length % 2 === 0);
      return {
        candidates: [columns.map(middle)],
        words: counted('middle one'),
        ...(even
          ? {
              remark:
                'A dimension was measured an even number of times, so the mean of its two middle measurements stands for the centre.',
            }
          : {}),
      };
    }
  }
}

/** The measurement in the middle of the list as entered along the specimen (mean of two where the count is even). */
function middle(values: readonly Exact[]): Exact {
  const half = Math.floor(values.length / 2);
  return meanOf(values.length % 2 === 1 ? values.slice(half, half + 1) : values.slice(half - 1, half + 1));
}
