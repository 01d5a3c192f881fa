/**
 * Rounding of reported values by a named rule: always last, in one step, on exact decimals, both numbers kept.
 * The steps of ASTM E8/E8M and A370 for strength are from memory; every laboratory checks its own copy.
 */
import { type Exact, exactFromNumber, toNumber } from '../quantity/exact.ts';
import { type TieRule, roundExact, roundSignificant, stepFromText } from '../quantity/round-exact.ts';
import { type UnitSymbol, convertExact } from '../quantity/units.ts';
import type { Result, Rounded } from './result.ts';

export const ROUNDING_RULES = ['iso-6892-1', 'e8-1', 'e8-2', 'e8-3', 'a370', 'aws-a5.1', 'none'] as const;
export type RoundingRuleName = (typeof ROUNDING_RULES)[number];

/** Inch-pound and SI values are separate systems in the standards, so a rule is applied in one of them. */
export type UnitSystem = 'SI' | 'US';

/** What a value is to the rules; other results (forces, energies, slopes) are not covered by any of them. */
export type RoundedKind = 'strength' | 'yield-point-extension' | 'elongation' | 'reduction-of-area';

/** One step of a rule: it holds for magnitudes below `below` (in `unit`), the first that fits. */
interface Band {
  readonly below?: string;
  /** The limit itself belongs to this band. */
  readonly including?: boolean;
  readonly step: string;
}

interface RuleFacts {
  readonly title: string;
  readonly source: string;
  readonly ties: TieRule;
  readonly strength: Readonly<
    Record<UnitSystem, { readonly unit: UnitSymbol; readonly bands: readonly Band[] }>
  >;
  readonly percent: Readonly<Record<Exclude<RoundedKind, 'strength'>, readonly Band[]>>;
}

const E8_PERCENT: RuleFacts['percent'] = {
  'yield-point-extension': [{ below: '3', including: true, step: '0.2' }, { step: '0.5' }],
  elongation: [{ below: '3', including: true, step: '0.2' }, { step: '0.5' }],
  'reduction-of-area': [{ below: '10', step: '0.5' }, { step: '1' }],
};
const E8_SOURCE =
  'ASTM E8/E8M, rounding of reported test data, ties by ASTM E29 (strength from memory; elongation and reduction of area from a published comparison)';
const STEPPED: RuleFacts['strength'] = {
  US: {
    unit: 'psi',
    bands: [{ below: '50000', step: '100' }, { below: '100000', step: '500' }, { step: '1000' }],
  },
  SI: { unit: 'MPa', bands: [{ below: '500', step: '1' }, { below: '1000', step: '5' }, { step: '10' }] },
};

const strengthStep = (psi: string, mpa: string): RuleFacts['strength'] => ({
  US: { unit: 'psi', bands: [{ step: psi }] },
  SI: { unit: 'MPa', bands: [{ step: mpa }] },
});

const A370_PERCENT: readonly Band[] = [{ below: '10', step: '0.5' }, { step: '1' }];

const RULES: Readonly<Record<Exclude<RoundingRuleName, 'none'>, RuleFacts>> = {
  'iso-6892-1': {
    title: 'ISO 6892-1',
    source:
      'ISO 6892-1:2009 and later: strength 1 MPa, elongation 0.5 %, Z 1 % (published comparison), yield point extension 0.1 % (from memory)',
    ties: 'half-even',
    // The standard knows SI only; 100 psi is the step of the same fineness for those who read psi beside it.
    strength: strengthStep('100', '1'),
    percent: {
      'yield-point-extension': [{ step: '0.1' }],
      elongation: [{ step: '0.5' }],
      'reduction-of-area': [{ step: '1' }],
    },
  },
  'e8-1': {
    title: 'ASTM E8/E8M (1)',
    source: E8_SOURCE,
    ties: 'half-even',
    strength: STEPPED,
    percent: E8_PERCENT,
  },
  'e8-2': {
    title: 'ASTM E8/E8M (2)',
    source: E8_SOURCE,
    ties: 'half-even',
    strength: strengthStep('100', '1'),
    percent: E8_PERCENT,
  },
  'e8-3': {
    title: 'ASTM E8/E8M (3)',
    source: E8_SOURCE,
    ties: 'half-even',
    strength: strengthStep('500', '5'),
    percent: E8_PERCENT,
  },
  a370: {
    title: 'ASTM A370',
    source: 'ASTM A370, rounding annex, ties by ASTM E29 (from memory; differs from E8/E8M on elongation)',
    ties: 'half-even',
    strength: STEPPED,
    percent: {
      'yield-point-extension': A370_PERCENT,
      elongation: A370_PERCENT,
      'reduction-of-area': A370_PERCENT,
    },
  },
  'aws-a5.1': {
    title: 'AWS A5.1/A5.1M',
    source:
      'AWS A5.1/A5.1M:2012 clause 6: strength to 1 ksi or 10 MPa, other values to the last figure of the limit (whole percent), ties by ASTM E29',
    ties: 'half-even',
    strength: {
      US: { unit: 'ksi', bands: [{ step: '1' }] },
      SI: { unit: 'MPa', bands: [{ step: '10' }] },
    },
    percent: {
      'yield-point-extension': [{ step: '1' }],
      elongation: [{ step: '1' }],
      'reduction-of-area': [{ step: '1' }],
    },
  },
};

/**
 * Digits that a binary double is taken to before it is rounded. Conversion leaves noise in the 16th digit, which
 * would turn a true tie (69 500 psi) into a near miss; no instrument reaches the 12th.
 */
export const NOISE_FREE_DIGITS = 12;

/** What a symbol is to the rules; null for symbols that no rule covers (forces, ratios, energies, slopes). */
export function roundedKind(symbol: string): RoundedKind | null {
  if (symbol.includes('/')) return null;
  if (/^(?:Rm|Rmax|ReH|ReL|R[prt][\d.]*)$/.test(symbol)) return 'strength';
  if (symbol === 'Ae') return 'yield-point-extension';
  if (/^A(?:t|g|gt)?(?:[\d.]+(?:mm|in)?)?(?: ?\(.*\))?$/.test(symbol)) return 'elongation';
  return symbol === 'Z' ? 'reduction-of-area' : null;
}

/**
 * Rounds a value by a rule. Percent kinds are rounded in percent whatever unit they are handed in.
 * Null where the rule is "none".
 */
export function roundByRule(
  value: { readonly value: number; readonly unit: UnitSymbol },
  kind: RoundedKind,
  rule: RoundingRuleName,
  system: UnitSystem,
): Rounded | null {
  if (rule === 'none') return null;
  const facts = RULES[rule];
  const { unit, bands } =
    kind === 'strength' ? facts.strength[system] : { unit: '%' as const, bands: facts.percent[kind] };
  const exact = inUnit(value, unit);
  const band = bands.find((b) => fits(exact, b)) ?? bands.at(-1);
  if (band === undefined) return null;
  const rounded = roundExact(exact, stepFromText(band.step), facts.ties);
  return {
    value: toNumber(rounded.value),
    text: rounded.text,
    unit,
    step: Number(band.step),
    rule: `${facts.title}: to ${band.step} ${unit}`,
  };
}

/** Which rule a rounded value came from; null for one that is no rule's, as the shop's arithmetic. */
export function ruleOf({ rule }: Rounded): RoundingRuleName | null {
  const found = ROUNDING_RULES.find((name) => name !== 'none' && rule.startsWith(`${RULES[name].title}: `));
  return found ?? null;
}

/** The result with its reported value added; what no rule covers comes back unchanged. */
export function withRounding(result: Result, rule: RoundingRuleName, system: UnitSystem): Result {
  const kind = roundedKind(result.symbol);
  if (kind === null) return result;
  const rounded = roundByRule(result, kind, rule, system);
  return rounded === null ? result : { ...result, rounded: [rounded, ...result.rounded] };
}

function inUnit(
  { value, unit }: { readonly value: number; readonly unit: UnitSymbol },
  target: UnitSymbol,
): Exact {
  const exact = convertExact(exactFromNumber(value), unit, target);
  return roundSignificant(exact, NOISE_FREE_DIGITS, 'half-even').value;
}

function fits(value: Exact, band: Band): boolean {
  if (band.below === undefined) return true;
  const order = value.abs().compare(stepFromText(band.below));
  return band.including === true ? order <= 0 : order < 0;
}
