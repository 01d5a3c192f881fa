/** Which figure a requirement is compared with in a case: the governing minimum, exactly and as printed. */
import { type Exact, exactFromDecimal } from '../quantity/exact.ts';
import { CORE_UNIT, UNITS, type UnitSymbol, convertExact } from '../quantity/units.ts';
import type { CaseMaterial, JudgeCase } from './judge-case.ts';
import { type QuantityName, QUANTITY_WORDS, materialLimit } from './material.ts';
import { type PrintedValue, type UnitSystem, readPrintedValue } from './printed-value.ts';
import type { LimitOrigin, Requirement } from './rule-pack.ts';
import type { SourceStatus } from './source-status.ts';
import type { MissingFact } from './verdict.ts';

export interface CaseLimit {
  readonly kind: 'limit';
  readonly exact: Exact;
  readonly unit: UnitSymbol;
  /** Before the factor, in `unit`. */
  readonly base: Exact;
  readonly factorText: string | null;
  /** What it is: "the specified minimum of A516-70". */
  readonly what: string;
  readonly status: SourceStatus;
  readonly source: string;
  readonly remarks: readonly string[];
}
export type LimitFinding =
  | CaseLimit
  /** The specification sets no such limit: nothing is required. */
  | { readonly kind: 'nothing-specified' }
  | { readonly kind: 'missing'; readonly missing: MissingFact };

interface MaterialMinimum extends PrintedValue {
  readonly called: string;
  readonly status: SourceStatus;
  readonly source: string;
  readonly otherSystem: boolean;
}

/** The unit system whose printed figures count for a quantity of the case. */
export function systemOfCase(judged: JudgeCase, quantity: QuantityName): UnitSystem {
  const fixed = judged.pack.file.unitSystem;
  if (fixed !== 'as-measured') return fixed;
  if (judged.system !== null) return judged.system;
  const value = judged.measured[quantity] ?? judged.measured['tensile-strength'];
  return value !== undefined && UNITS[value.unit].system === 'SI' ? 'SI' : 'US';
}

export function limitOfRequirement(judged: JudgeCase, requirement: Requirement): LimitFinding {
  if (requirement.limit !== undefined) {
    const fixed = readPrintedValue(requirement.limit);
    const { status, source } = judged.pack.file;
    return times(requirement.factor, plainLimit(fixed, 'set by the pack', { status, source }));
  }
  if (requirement.limitOf === undefined)
    throw new Error('a requirement has a limit or says where it comes from');
  const found = limitFrom(judged, requirement.limitOf, requirement.quantity);
  return found.kind === 'limit' ? times(requirement.factor, found) : found;
}

export function limitFrom(judged: JudgeCase, origin: LimitOrigin, quantity: QuantityName): LimitFinding {
  switch (origin) {
    case 'base-metal-minimum':
      return governingBaseMetalMinimum(judged, quantity);
    case 'broken-base-metal-minimum':
      return brokenBaseMetalMinimum(judged, quantity);
    case 'weld-metal-minimum':
      return judged.weldMetalMinimum === null
        ? missing('minimum', 'the minimum of the weld metal is not stated; enter it')
        : plainLimit(judged.weldMetalMinimum, 'the stated minimum of the weld metal', STATED);
    case 'filler-minimum':
      return fillerLimit(judged, quantity, 'min');
    case 'filler-maximum':
      return fillerLimit(judged, quantity, 'max');
  }
}

/** The specified minimum of every base metal, in order; null in the place of one that has none. */
export function baseMetalMinima(judged: JudgeCase, quantity: QuantityName): (MaterialMinimum | null)[] {
  const system = systemOfCase(judged, quantity);
  return judged.baseMetals.map((metal) => minimumOf(metal, quantity, system));
}

/** Whether the base metals have different minima; null while one of them is not known. */
export function haveDifferentMinima(judged: JudgeCase): boolean | null {
  const minima = baseMetalMinima(judged, 'tensile-strength');
  const [first] = minima;
  if (first === undefined) return null;
  if (minima.length === 1) return false;
  const known = minima.filter((minimum) => minimum !== null);
  if (known.length < minima.length || first === null) return null;
  return known.some((minimum) => inCoreUnit(minimum).compare(inCoreUnit(first)) !== 0);
}

function governingBaseMetalMinimum(judged: JudgeCase, quantity: QuantityName): LimitFinding {
  const minima = baseMetalMinima(judged, quantity);
  if (minima.length === 0) {
    return missing('base-metal', 'the base metal is not named; name it, or enter its specified minimum');
  }
  const unknown = judged.baseMetals.find((_, index) => minima[index] === null);
  if (unknown !== undefined) {
    return missing(
      'minimum',
      `the specified minimum ${QUANTITY_WORDS[quantity]} of ${unknown.called} is not in the tables of this pack; enter it as its specification prints it`,
    );
  }
  const highest = judged.pack.file.severalBaseMetals?.governs === 'highest';
  const [first, ...others] = minima.filter((minimum) => minimum !== null);
  if (first === undefined) throw new Error('at least one minimum is known here');
  const governing = others.reduce((best, next) => {
    const order = inCoreUnit(next).compare(inCoreUnit(best));
    return (highest ? order > 0 : order < 0) ? next : best;
  }, first);
  const which =
    others.length === 0 ? '' : highest ? 'the higher of the minima, ' : 'the lower of the minima, ';
  return limitOfMaterial(governing, `${which}the specified minimum of ${governing.called}`);
}

/** The minimum of the metal that broke; the highest one while nobody has said which of them it was. */
function brokenBaseMetalMinimum(judged: JudgeCase, quantity: QuantityName): LimitFinding {
  const known = baseMetalMinima(judged, quantity).filter((minimum) => minimum !== null);
  const named = judged.fracture.brokenBaseMetal;
  const [first, ...others] = known;
  if (first === undefined || known.length < judged.baseMetals.length) {
    return missing('minimum', 'the minimum of the base metal that broke is not known; enter it');
  }
  const chosen = named === undefined ? undefined : known[named];
  const highest = others.reduce(
    (best, next) => (inCoreUnit(next).compare(inCoreUnit(best)) > 0 ? next : best),
    first,
  );
  return chosen !== undefined
    ? limitOfMaterial(chosen, `the specified minimum of ${chosen.called}, which broke`)
    : limitOfMaterial(highest, `the specified minimum of ${highest.called}, if that is the metal that broke`);
}

function fillerLimit(judged: JudgeCase, quantity: QuantityName, end: 'min' | 'max'): LimitFinding {
  const { filler } = judged;
  if (filler === null) {
    return missing('filler', 'the filler class is not named; name it, or enter its specified minima');
  }
  const stated = end === 'min' ? filler.stated[quantity] : undefined;
  if (stated !== undefined && filler.entry === null) {
    return plainLimit(stated, `the minimum stated for ${filler.called}`, STATED);
  }
  if (filler.entry === null) {
    return Object.keys(filler.stated).length > 0
      ? { kind: 'nothing-specified' }
      : missing(
          'minimum',
          `the filler class ${filler.called} is not in the tables of this pack; correct the class, or enter its minima`,
        );
  }
  const printed = materialLimit(filler.entry, quantity, end, systemOfCase(judged, quantity));
  if (printed === null) return { kind: 'nothing-specified' };
  const word = end === 'min' ? 'minimum' : 'maximum';
  return limitOfMaterial({ ...printed, called: filler.entry.id }, `the ${word} of class ${filler.entry.id}`);
}

function minimumOf(metal: CaseMaterial, quantity: QuantityName, system: UnitSystem): MaterialMinimum | null {
  const printed = metal.entry === null ? null : materialLimit(metal.entry, quantity, 'min', system);
  if (printed !== null && metal.entry !== null) return { ...printed, called: metal.entry.id };
  const stated = metal.stated[quantity];
  if (stated === undefined) return null;
  return { ...stated, ...STATED, called: metal.called, otherSystem: false };
}

const STATED = { status: 'own', source: 'stated for this case' } as const;

function plainLimit(
  value: PrintedValue,
  what: string,
  origin: { readonly status: SourceStatus; readonly source: string },
): CaseLimit {
  const { exact, unit } = value;
  const { status, source } = origin;
  return { kind: 'limit', exact, unit, base: exact, factorText: null, what, status, source, remarks: [] };
}

function limitOfMaterial(minimum: MaterialMinimum, what: string): CaseLimit {
  return {
    ...plainLimit(minimum, what, minimum),
    remarks: minimum.otherSystem
      ? [
          `The table prints no figure for ${minimum.called} in the other unit system, so the measured value is converted to ${minimum.unit}.`,
        ]
      : [],
  };
}

function times(factorText: string | undefined, limit: CaseLimit): CaseLimit {
  if (factorText === undefined) return limit;
  const factor = exactFromDecimal(factorText);
  if (factor === null) throw new RangeError(`not a decimal: ${factorText}`);
  return { ...limit, exact: limit.base.mul(factor), factorText };
}

function missing(code: MissingFact['code'], sentence: string): LimitFinding {
  return { kind: 'missing', missing: { code, sentence } };
}

function inCoreUnit(value: PrintedValue): Exact {
  return convertExact(value.exact, value.unit, CORE_UNIT[UNITS[value.unit].dimension]);
}
