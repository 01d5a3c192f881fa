/** What a column is, from its name, its unit and the values in it, with the evidence for it. */
import { readCsvHeader } from '../../curve/csv-header.ts';
import { type UnitSymbol, UNITS, unitFromText } from '../../quantity/units.ts';
import { shown } from './import-fault.ts';
import { IMPORT_DIMENSION, type ImportQuantity } from './import-plan.ts';
import { OTHER_WORDS, TRUE_WORDS, WORD_RULES, type WordRule, wordsOf } from './name-words.ts';

/** `sure`: name and unit say so. `likely`: one doubt is left. `guess`: must be confirmed. `none`: not a column of the curve. */
export const CONFIDENCES = ['sure', 'likely', 'guess', 'none'] as const;
export type Confidence = (typeof CONFIDENCES)[number];

export interface NamedColumn {
  readonly quantity: ImportQuantity | null;
  readonly unit: UnitSymbol | null;
  readonly confidence: Confidence;
  /** Why, in a few words. */
  readonly evidence: string;
}

export interface ColumnClues {
  readonly name: string;
  /** From a line of units, or from the cells themselves; empty where there is none. */
  readonly unitText: string;
  /** Numbers of the first rows, for telling percent from plain ratio. */
  readonly largest: number;
}

const NOTHING: NamedColumn = {
  quantity: null,
  unit: null,
  confidence: 'none',
  evidence: 'no known quantity',
};

/** Never throws; a name that says nothing gives no quantity. */
export function nameColumn(clues: ColumnClues): NamedColumn {
  const { word, unitText } = partsOfName(clues.name);
  if (clues.unitText !== '' && unitText !== '' && contradict(clues.unitText, unitText))
    return {
      ...NOTHING,
      evidence: `the name says ${shown(unitText)} and the line of units ${shown(clues.unitText)}`,
    };
  const own = ownForm(clues.name);
  if (own !== null) return own;
  const text = bareUnit(clues.unitText === '' ? unitText : clues.unitText);
  const unit = unitFromText(text);
  const words = wordsOf(word);
  const other = words.find((w) => OTHER_WORDS.includes(w));
  if (other !== undefined) return { ...NOTHING, evidence: `"${other}" is no quantity of the curve` };
  const rule = ruleFor(words);
  if (rule === undefined) return fromUnitAlone(words.length === 0, unit?.symbol as UnitSymbol | undefined);
  const isTrue = words.some((w) => TRUE_WORDS.includes(w));
  return withUnit(rule, isTrue, unit?.symbol as UnitSymbol | undefined, text, clues.largest);
}

/** The strict form of our own curve files, "force_kN": whoever writes it knows what it means. */
function ownForm(name: string): NamedColumn | null {
  if (!/^[a-z]+(?:_[a-z]+)*_[^\s,;"]+$/.test(name)) return null;
  const outcome = readCsvHeader(name, 1);
  const column = outcome.ok ? outcome.header.columns[0] : undefined;
  if (column === undefined) return null;
  return {
    quantity: column.quantity,
    unit: column.unit,
    confidence: 'sure',
    evidence: 'named with its unit',
  };
}

/** The word and the unit of "Force [kN]", "Force / kN", "Standard force;N", "F in kN", "Stress_MPa", "Load kN". */
function partsOfName(name: string): { word: string; unitText: string } {
  const bracketed = /^(.*?)[[({]([^\])}]*)[\])}]\s*$/.exec(name);
  if (bracketed !== null) return { word: bracketed[1] ?? '', unitText: bracketed[2] ?? '' };
  for (const cut of name.matchAll(/\s+(?:in|en|em)\s+|[\s]*[;|/,:]\s*|[\s_]+/g)) {
    const unitText = name.slice(cut.index + cut[0].length);
    // "Strain" is a spelling of the plain ratio, but behind a blank it is the word.
    if (cut.index > 0 && unitFromText(unitText) !== null && !isQuantityWord(unitText))
      return { word: name.slice(0, cut.index), unitText };
  }
  return { word: name, unitText: '' };
}

function isQuantityWord(text: string): boolean {
  return WORD_RULES.some((rule) => rule.words.includes(text.toLowerCase()));
}

function bareUnit(text: string): string {
  const bare = text.trim().replace(/^[[({]\s*|\s*[\])}]$/g, '');
  return /^[-–]$/.test(bare) ? '1' : bare;
}

function contradict(a: string, b: string): boolean {
  const first = unitFromText(bareUnit(a));
  const second = unitFromText(bareUnit(b));
  return first !== null && second !== null && first.symbol !== second.symbol;
}

function ruleFor(words: readonly string[]): WordRule | undefined {
  const exact = WORD_RULES.find((rule) => rule.words.some((word) => words.includes(word)));
  // Compounds of one word ("Standardkraft", "Prüfzeit"): only by their longer parts.
  return (
    exact ??
    WORD_RULES.find((rule) =>
      rule.words.some((part) => part.length >= 4 && words.some((word) => word.includes(part))),
    )
  );
}

function fromUnitAlone(nameless: boolean, unit: UnitSymbol | undefined): NamedColumn {
  if (unit === undefined) return NOTHING;
  const dimension = UNITS[unit].dimension;
  const quantity = dimension === 'force' || dimension === 'time' || dimension === 'stress' ? dimension : null;
  if (quantity === null)
    return {
      ...NOTHING,
      unit,
      evidence: `${unit} alone doesn't tell extension from travel, or what is measured`,
    };
  return {
    quantity,
    unit,
    confidence: nameless ? 'likely' : 'guess',
    evidence: `by its unit ${unit} only`,
  };
}

function withUnit(
  rule: WordRule,
  isTrue: boolean,
  unit: UnitSymbol | undefined,
  unitText: string,
  largest: number,
): NamedColumn {
  const quantity = byDimension(rule.quantity, unit);
  if (quantity === null) return { ...NOTHING, evidence: `${String(unit)} is no unit of ${rule.quantity}` };
  const named = trueOr(quantity, isTrue);
  if (unit !== undefined) {
    const changed = quantity !== rule.quantity;
    const doubt = changed ? `named like ${rule.quantity}, but in ${unit}` : rule.doubt;
    return {
      quantity: named,
      unit,
      confidence: changed ? 'likely' : rule.certainty,
      evidence: `name and unit${doubt === undefined ? '' : `; ${doubt}`}`,
    };
  }
  const assumed = unitByHabit(quantity, largest);
  const why = unitText === '' ? 'no unit is given' : `the unit ${shown(unitText)} is not known`;
  return {
    quantity: named,
    unit: assumed?.unit ?? null,
    confidence: 'guess',
    evidence: assumed === null ? why : `${why}; ${assumed.why}`,
  };
}

/** "Dehnung [mm]" is an extension and "elongation %" a strain: the unit decides between length and ratio. */
function byDimension(quantity: ImportQuantity, unit: UnitSymbol | undefined): ImportQuantity | null {
  if (unit === undefined) return quantity;
  const dimension = UNITS[unit].dimension;
  if (dimension === IMPORT_DIMENSION[quantity]) return quantity;
  if (quantity === 'strain' && dimension === 'length') return 'extension';
  if (quantity === 'extension' && dimension === 'strain') return 'strain';
  if (quantity === 'force' && dimension === 'stress') return 'stress';
  if (quantity === 'stress' && dimension === 'force') return 'force';
  return null;
}

function trueOr(quantity: ImportQuantity, isTrue: boolean): ImportQuantity {
  if (!isTrue) return quantity;
  return quantity === 'stress' ? 'true-stress' : quantity === 'strain' ? 'true-strain' : quantity;
}

/** A strain above this is given in percent: no metal specimen reaches 150 % over its gauge length. */
const RATIO_MAX = 1.5;

function unitByHabit(quantity: ImportQuantity, largest: number): { unit: UnitSymbol; why: string } | null {
  if (quantity === 'time') return { unit: 's', why: 'seconds are usual' };
  if (quantity !== 'strain') return null;
  return largest <= RATIO_MAX
    ? { unit: '1', why: `values up to ${String(Number(largest.toPrecision(3)))} look like a plain ratio` }
    : { unit: '%', why: `values up to ${String(Number(largest.toPrecision(3)))} look like percent` };
}
