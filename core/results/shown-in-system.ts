/**
 * A result as people of the other unit system read it: value, reported value, working and uncertainty in their
 * units. Evaluations are kept in SI; this is for showing them.
 */
import { type DisplaySystem, inDisplayUnit } from '../quantity/display-unit.ts';
import { exactFromNumber } from '../quantity/exact.ts';
import { WORKING_DIGITS, numberText } from '../quantity/number-text.ts';
import { UNITS, type UnitSymbol, convert } from '../quantity/units.ts';
import { AREA_DIGITS } from './area.ts';
import type { Result, Working } from './result.ts';
import { type RoundingRuleName, type UnitSystem, roundByRule, roundedKind } from './rounding.ts';
import {
  type ShopArea,
  type ShopStrength,
  isShopLine,
  isShopRounding,
  roundedArea,
  roundedStrength,
  shopArea,
  shopStrength,
} from './shop-area.ts';

export interface ShownIn {
  readonly units: DisplaySystem;
  /** System in which the specimen was measured, and its results were rounded. */
  readonly measuredIn: UnitSystem;
  /** The rule that was asked for; without it the usual one of the system shown. */
  readonly rounding?: RoundingRuleName;
}

/** What SI shows instead of the units that American specimens are typed in. */
const SI_UNIT: Readonly<Partial<Record<UnitSymbol, UnitSymbol>>> = {
  in: 'mm',
  'in²': 'mm²',
  lbf: 'N',
  kip: 'kN',
  psi: 'MPa',
  ksi: 'MPa',
  'ft·lbf': 'J',
};
const METHOD_DIGITS = 4;

export function shownInSystem(result: Result, { units, measuredIn, rounding }: ShownIn): Result {
  const { value, unit } = inSystem(result.value, result.unit, units);
  const { uncertainty } = result;
  const system = units === 'us' ? 'US' : 'SI';
  return {
    ...result,
    value,
    unit,
    rounded:
      system === measuredIn ? result.rounded : shopAnew(roundedIn(result, system, rounding), result, units),
    method: textIn(result.method, units, () => METHOD_DIGITS),
    working: workingIn(result, units),
    ...(uncertainty === undefined
      ? {}
      : {
          uncertainty: {
            ...uncertainty,
            standard: inSystem(uncertainty.standard, result.unit, units).value,
            expanded: inSystem(uncertainty.expanded, result.unit, units).value,
            budget: uncertainty.budget.map((line) => {
              const standard = inSystem(line.standard, line.unit, units);
              const contribution = inSystem(line.contribution, result.unit, units).value;
              return {
                ...line,
                standard: standard.value,
                unit: standard.unit,
                contribution,
                sensitivity: standard.value === 0 ? line.sensitivity : contribution / standard.value,
              };
            }),
          },
        }),
  };
}

/** The rule's value first, then the shop's. */
function roundedIn(
  result: Result,
  system: UnitSystem,
  rounding: RoundingRuleName = system === 'US' ? 'e8-1' : 'iso-6892-1',
): Result['rounded'] {
  const kind = roundedKind(result.symbol);
  if (kind === null || rounding === 'none') return result.rounded;
  const own = roundByRule(result, kind, rounding, system);
  const [, ...further] = result.rounded;
  return own === null ? result.rounded : [own, ...further];
}

function workingIn(result: Result, units: DisplaySystem): Working {
  const { working, value, unit } = result;
  const known: readonly Known[] = [{ value, unit }, ...working.inputs];
  const shop = shopIn(result, units)?.strength?.substituted;
  const step = (text: string): string =>
    shop !== undefined && isShopLine(text) && !text.includes(SHOP_UNIT[units])
      ? shop
      : textIn(text, units, digitsFor, known);
  return {
    ...working,
    inputs: working.inputs.map((input) => ({
      ...input,
      ...inSystem(input.value, input.unit, units),
      from: AS_TYPED.test(input.from) ? input.from : textIn(input.from, units, digitsFor, known),
    })),
    substituted: textIn(working.substituted, units, digitsFor, known),
    ...(working.steps === undefined ? {} : { steps: working.steps.map(step) }),
  };
}

/** "measured as 2.000 in", "typed … as “17 kN”" */
const AS_TYPED = /\bas [“\d.]/;

const SHOP_UNIT = { us: 'in²', si: 'mm²' } as const;

/** The shop's arithmetic in the units shown, from the unrounded area; null where the result has none. */
function shopIn(
  { symbol, value, unit, working }: Result,
  units: DisplaySystem,
): { readonly area: ShopArea; readonly strength: ShopStrength | null } | null {
  const input = (wanted: string, of: UnitSymbol): number | undefined =>
    working.inputs.find((one) => one.symbol === wanted && one.unit === of)?.value;
  const areaMm2 = symbol === 'S0' && unit === 'mm²' ? value : input('S0', 'mm²');
  if (areaMm2 === undefined) return null;
  const area = shopArea(exactFromNumber(areaMm2), SHOP_UNIT[units]);
  const forceN = input('Fm', 'N');
  return { area, strength: forceN === undefined ? null : shopStrength(forceN, area) };
}

/** What the shop rounds is rounded anew in the units shown. */
function shopAnew(rounded: Result['rounded'], result: Result, units: DisplaySystem): Result['rounded'] {
  const shop = shopIn(result, units);
  const anew =
    shop === null
      ? null
      : result.symbol === 'S0'
        ? roundedArea(shop.area)
        : shop.strength && roundedStrength(shop.strength);
  return anew === null ? rounded : rounded.map((one) => (isShopRounding(one) ? anew : one));
}

/** A quantity whose unrounded value is known beside the text in which it stands. */
interface Known {
  readonly value: number;
  readonly unit: UnitSymbol;
}

function inSystem(
  value: number,
  unit: UnitSymbol,
  units: DisplaySystem,
): { readonly value: number; readonly unit: UnitSymbol } {
  if (units === 'us') return inDisplayUnit(value, unit, 'us');
  const target = SI_UNIT[unit] ?? unit;
  return { value: convert(value, unit, target), unit: target };
}

/** A value as workings write it. */
const isText = (number: string, value: number): boolean =>
  [WORKING_DIGITS, AREA_DIGITS].some((digits) => numberText(value, digits) === number);

/** Longer symbols first, so that "mm²" is not read as "mm". */
const SYMBOLS = Object.keys(UNITS)
  .filter((symbol) => !['1', '%', 's', 'm', 'g', 'h'].includes(symbol))
  .sort((a, b) => b.length - a.length)

  .join('|');
const NUMBER = String.raw`-?\d+(?:\.\d+)?(?:e[+-]?\d+)?`;
/** "75 mm²", "27.71 and 110.8 MPa", "20 – 40 MPa"; not the half of "1/2 in", and not "N" of "N/mm". */
const QUANTITY = new RegExp(
  String.raw`(?<![\d./,])(?:(${NUMBER})( and | to | – ))?(${NUMBER}) (${SYMBOLS})(?![\p{L}\d/²³·])`,
  'gu',
);

/**
 * A number cut to WORKING_DIGITS is converted to one less, or its last digit would be an accident. A stress with
 * decimals was computed and rounded there, so it carries no more than its own digits and one: 886.8 MPa is 128 620 psi.
 */
function digitsFor(number: string, symbol: UnitSymbol): number {
  const shown = significantDigits(number);
  if (UNITS[symbol].dimension === 'stress' && number.includes('.'))
    return Math.min(shown + 1, WORKING_DIGITS - 1);
  return shown < WORKING_DIGITS ? WORKING_DIGITS : WORKING_DIGITS - 1;
}

/** A line of a working with its quantities in the other system; what stands there in both is said once. */
function textIn(
  text: string,
  units: DisplaySystem,
  digits: (number: string, symbol: UnitSymbol) => number = digitsFor,
  known: readonly Known[] = [],
): string {
  const shown = (number: string, symbol: string): { text: string; unit: string } => {
    // 16970 N stands for 16969.97 N: converted from its text, a load of 3815 lbf would read 3815.01 lbf.
    const exact = known.find((one) => one.unit === symbol && isText(number, one.value));
    const { value, unit } = inSystem(exact?.value ?? Number(number), symbol as UnitSymbol, units);
    if (unit === symbol) return { text: number, unit };
    return {
      text: numberText(value, exact === undefined ? digits(number, symbol as UnitSymbol) : WORKING_DIGITS),
      unit,
    };
  };
  return oneOfBoth(text, units).replace(
    QUANTITY,
    (_, from: string | undefined, word: string | undefined, number: string, symbol: string) => {
      const last = shown(number, symbol);
      const first = from === undefined ? '' : `${shown(from, symbol).text}${word ?? ''}`;
      return `${first}${last.text} ${last.unit}`;
    },
  );
}

/** Three digits say enough in a sentence; what was said with more keeps them. */
const PROSE_DIGITS_MIN = 3;

/** A sentence about a record (speed, remark, reason) with its quantities in the system shown. */
export function proseInSystem(text: string, units: DisplaySystem): string {
  return textIn(text, units, (number) => Math.max(PROSE_DIGITS_MIN, significantDigits(number)));
}

const significantDigits = (number: string): number =>
  number.replace(/e.*$|[-.]/g, '').replace(/^0+/, '').length;

const IN_BOTH = new RegExp(
  String.raw`= (${NUMBER}) (${SYMBOLS}) = (${NUMBER}) (${SYMBOLS})(?![\p{L}\d/²³·])`,
  'gu',
);

/** Where a working ends in both systems ("= 0.125 in² = 80.6 mm²"), the value in the system shown. */
function oneOfBoth(text: string, units: DisplaySystem): string {
  const wanted = units === 'us' ? 'US' : 'SI';
  return text.replace(IN_BOTH, (whole, ...[first, firstUnit, second, secondUnit]: string[]) => {
    const [a, b] = [UNITS[firstUnit as UnitSymbol], UNITS[secondUnit as UnitSymbol]];
    if (a.dimension !== b.dimension || a.system === b.system) return whole;
    return b.system === wanted ? `= ${second ?? ''} ${b.symbol}` : `= ${first ?? ''} ${a.symbol}`;
  });
}
