/**
 * What metals have such a slope. A scale of the extension that is wrong by a factor, a wrong unit or gauge length gives
 * a curve that looks like any other; only the slope gives it away.
 */
import { numberText } from '../quantity/number-text.ts';
import type { ElasticLine } from './elastic-line.ts';

interface Metals {
  readonly name: string;
  /** Modulus of elasticity at room temperature, GPa. */
  readonly from: number;
  readonly to: number;
}

/** Ranges of Young's modulus at room temperature as handbooks of materials print them (from memory). */
const METALS: readonly Metals[] = [
  { name: 'magnesium alloys', from: 42, to: 47 },
  { name: 'aluminium alloys', from: 66, to: 80 },
  { name: 'titanium alloys', from: 100, to: 120 },
  { name: 'copper alloys', from: 96, to: 155 },
  { name: 'cast iron', from: 90, to: 175 },
  { name: 'nickel alloys', from: 175, to: 225 },
  { name: 'steel', from: 185, to: 220 },
];
/** The slope of a tension test is no modulus test: it may lie this part beside the range. */
const BESIDE_PART = 0.1;
/** Beside that, this many standard uncertainties of the fit. */
const UNCERTAINTIES = 2;

export interface SlopeDoubt {
  /** True where no metal has it, false where it would be one of few. */
  readonly none: boolean;
  readonly sentence: string;
}

/** Null for a slope as steel, nickel or aluminium alloys have it, or one too uncertain to tell. */
export function slopeOfMetals({ fit, bend }: ElasticLine): SlopeDoubt | null {
  const gpa = fit.slope / 1_000;
  const part = BESIDE_PART + (UNCERTAINTIES * fit.slopeUncertainty) / fit.slope + Math.abs(bend ?? 0);
  const fits = METALS.filter(({ from, to }) => gpa > (1 - part) * from && gpa < (1 + part) * to);
  const text = `${numberText(gpa, 3)} GPa`;
  if (fits.length === 0)
    return {
      none: true,
      sentence: `The slope of the elastic part, ${text}, is no modulus of any metal that shops weld (${METALS.map((m) => `${m.name} ${String(m.from)} – ${String(m.to)} GPa`).join(', ')}; handbook values, from memory): a scale, a unit or the gauge length may be wrong by a factor, and with it every value that rests on the extension.`,
    };
  if (fits.some(({ name }) => EVERYDAY.has(name))) return null;
  return {
    none: false,
    sentence: `The slope of the elastic part, ${text}, is at room temperature one of ${fits.map((m) => m.name).join(' or ')}, of no steel (185 to 220 GPa) and no aluminium alloy (66 to 80 GPa; handbook values, from memory): if the specimen is one of these, a scale, a unit or the gauge length is wrong.`,
  };
}

/** What nearly every specimen is made of; told about nothing else would be a word too many. */
const EVERYDAY: ReadonlySet<string> = new Set(['steel', 'nickel alloys', 'aluminium alloys']);
