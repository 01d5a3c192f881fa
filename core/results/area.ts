/**
 * S0, the original cross-section, for every geometry, with its working: which section counts, which formula,
 * what the spread of the measurements is, and the shop's rounded area beside the unrounded one.
 */
import { type Exact, exactRatio, toNumber } from '../quantity/exact.ts';
import { numberText } from '../quantity/number-text.ts';
import { type UnitSymbol, convert, convertExact } from '../quantity/units.ts';
import type { Geometry, MeasuredDimension } from '../specimen/specimen.ts';
import { ARC_FORMS, ARC_FORM_FACTS, type ArcForm, formAllowed, pipeStripAreaMm2 } from './pipe-strip-area.ts';
import type { Result, Withheld, WorkingInput } from './result.ts';
import { type NamedDimension, type SectionForm, sectionForm, stripOf, usedForm } from './section-form.ts';
import {
  type Section,
  SECTION_RULE_SOURCE,
  type SectionRule,
  chooseSections,
  pairedSections,
} from './section-rule.ts';
import { type ShopArea, roundedArea, shopArea } from './shop-area.ts';

export interface AreaOptions {
  /** Which of the measured sections counts; without it the mean (ISO 6892-1). */
  readonly section?: SectionRule;
  /** Form for a strip cut from pipe; without it the exact one. */
  readonly sectionForm?: ArcForm;
  /** Unit of the area where lengths were typed in both systems; without it mm². */
  readonly mixedUnit?: AreaUnit;
}

/** Reading of people who typed lengths of both systems. */
export type AreaUnit = 'mm²' | 'in²';

export interface ArcFormArea {
  readonly form: ArcForm;
  readonly name: string;
  readonly areaMm2: number;
  /** Relative difference from the exact form. */
  readonly difference: number;
  readonly allowed: boolean;
  readonly used: boolean;
}

export interface Area extends AreaFacts {
  readonly result: Result;
}

/** What is known about the section beside the value that counts. */
export interface AreaFacts {
  readonly areaMm2: number;
  readonly section: SectionRule;
  /** By the mean and by the least of what was measured, whichever of them counts. */
  readonly meanMm2: number;
  readonly leastMm2: number;
  /** Of the sections measured in full; absent where measurements don't pair up or there is only one. */
  readonly spread?: {
    readonly count: number;
    readonly minMm2: number;
    readonly maxMm2: number;
    readonly standardDeviationMm2: number;
  };
  readonly shop: ShopArea;
  /** For a strip cut from pipe: every form side by side. */
  readonly arcForms?: readonly ArcFormArea[];
}

export type AreaOutcome =
  | { readonly ok: true; readonly area: Area }
  | { readonly ok: false; readonly withheld: Withheld };

/** Everything about the section but the result, which stands with the other results. */
export function areaFacts(area: Area): AreaFacts {
  const { areaMm2, section, meanMm2, leastMm2, spread, shop, arcForms } = area;
  return {
    areaMm2,
    section,
    meanMm2,
    leastMm2,
    shop,
    ...(spread === undefined ? {} : { spread }),
    ...(arcForms === undefined ? {} : { arcForms }),
  };
}

const NAME = 'original cross-section area';
/** One more than elsewhere: whatever is divided by it shows six. */
export const AREA_DIGITS = 7;

/** Area of the original cross-section in mm², or why there is none. Never throws on a checked specimen. */
export function area(geometry: Geometry, options: AreaOptions = {}): AreaOutcome {
  if (geometry.kind === 'unmeasured') return { ok: false, withheld: notMeasured() };
  const section = options.section ?? 'mean';
  const form = sectionForm(geometry, options.sectionForm ?? 'arc');
  const dimensions = form.dimensions.map((d) => d.dimension);
  const chosen = chooseSections(dimensions, section);
  const best = leastSection(chosen.candidates, form);
  const mean = leastSection(chooseSections(dimensions, 'mean').candidates, form);
  const least = leastSection(chooseSections(dimensions, 'least').candidates, form);
  if (best === null || mean === null || least === null) return { ok: false, withheld: impossible() };

  const repeated = dimensions.some((d) => d.measurements.length > 1);
  const unit = typedAreaUnit(dimensions, options.mixedUnit ?? 'mm²');
  const shop = shopArea(best.areaMm2, unit);
  const areaMm2 = toNumber(best.areaMm2);
  const values = form.dimensions.map((d, i) => inTypedUnit(d, best.section[i]));
  const remarks = [...(chosen.remark === undefined ? [] : [chosen.remark]), ...(form.remarks ?? [])];
  const result: Result = {
    symbol: 'S0',
    name: NAME,
    value: areaMm2,
    unit: 'mm²',
    rounded: [roundedArea(shop)],
    method: repeated ? `${form.formula}; ${SECTION_WORDS[section]}` : form.formula,
    working: {
      formula: form.formula,
      inputs: form.dimensions.map((d, i): WorkingInput => ({
        symbol: d.symbol,
        name: d.name,
        value: values[i]?.value ?? Number.NaN,
        unit: values[i]?.unit ?? d.unit,
        from: `${d.name}, ${chosen.words[i] ?? ''}`,
      })),
      substituted: `S0 = ${form.substituted(values.map((v) => v.text))} = ${numberText(shop.unrounded, AREA_DIGITS)} ${unit}${unit === 'mm²' ? '' : ` = ${numberText(areaMm2, AREA_DIGITS)} mm²`}`,
      source: repeated ? `${form.source}; ${SECTION_RULE_SOURCE[section]}` : form.source,
      ...(section !== 'least' && toNumber(least.areaMm2) < areaMm2
        ? {
            steps: [
              `least section measured: ${numberText(toNumber(convertExact(least.areaMm2, 'mm²', unit)), AREA_DIGITS)} ${unit}`,
            ],
          }
        : {}),
    },
    ...(remarks.length === 0 ? {} : { remarks }),
  };
  return {
    ok: true,
    area: {
      result,
      areaMm2,
      section,
      meanMm2: toNumber(mean.areaMm2),
      leastMm2: toNumber(least.areaMm2),
      ...spreadOf(dimensions, form),
      shop,
      ...(geometry.kind === 'pipe-strip'
        ? { arcForms: allArcForms(best.section, usedForm(geometry, options.sectionForm ?? 'arc')) }
        : {}),
    },
  };
}

const SECTION_WORDS: Readonly<Record<SectionRule, string>> = {
  mean: 'mean of the measurements',
  least: 'least of the measured sections',
  centre: 'section at the centre',
};

function allArcForms(section: Section, used: ArcForm): ArcFormArea[] {
  const strip = stripOf(section);
  const exact = pipeStripAreaMm2(strip, 'arc');
  return ARC_FORMS.map((form) => {
    const areaMm2 = pipeStripAreaMm2(strip, form);
    return {
      form,
      name: ARC_FORM_FACTS[form].name,
      areaMm2,
      difference: areaMm2 / exact - 1,
      allowed: formAllowed(strip, form).allowed,
      used: form === used,
    };
  });
}

interface SectionArea {
  readonly section: Section;
  readonly areaMm2: Exact;
}

/** The candidate with the least area; null where any of them can't exist. */
function leastSection(candidates: readonly Section[], form: SectionForm): SectionArea | null {
  let least: SectionArea | null = null;
  for (const section of candidates) {
    const areaMm2 = form.areaMm2(section);
    if (areaMm2 === null || areaMm2.compare(0) <= 0) return null;
    if (least === null || areaMm2.compare(least.areaMm2) < 0) least = { section, areaMm2 };
  }
  return least;
}

function spreadOf(dimensions: readonly MeasuredDimension[], form: SectionForm): Pick<Area, 'spread'> {
  const areas = pairedSections(dimensions)
    .map((section) => form.areaMm2(section))
    .filter((a) => a !== null)
    .map(toNumber);
  if (areas.length < 2) return {};
  const mean = areas.reduce((sum, a) => sum + a, 0) / areas.length;
  const squares = areas.reduce((sum, a) => sum + (a - mean) ** 2, 0);
  return {
    spread: {
      count: areas.length,
      minMm2: Math.min(...areas),
      maxMm2: Math.max(...areas),
      standardDeviationMm2: Math.sqrt(squares / (areas.length - 1)),
    },
  };
}

/** in² where every length was typed in a US customary unit, mm² where none was. */
function typedAreaUnit(dimensions: readonly MeasuredDimension[], mixedUnit: AreaUnit): AreaUnit {
  const lengths = dimensions.flatMap((d) => d.measurements).filter((q) => q.dimension === 'length');
  const inUs = lengths.filter((q) => ['in', 'mil', 'ft'].includes(q.unit)).length;
  if (inUs === 0) return 'mm²';
  return inUs === lengths.length ? 'in²' : mixedUnit;
}

/** A dimension in the unit of its first measurement, as value and as text. */
function inTypedUnit(
  { dimension, unit }: NamedDimension,
  value: Exact | undefined,
): { value: number; unit: UnitSymbol; text: string } {
  const typed = dimension.measurements[0]?.unit ?? unit;
  const inUnit = toNumber(convertExact(value ?? exactRatio(0n, 1n), unit, typed));
  return { value: inUnit, unit: typed, text: `${numberText(inUnit)} ${typed}` };
}

function notMeasured(): Withheld {
  return {
    symbol: 'S0',
    name: NAME,
    code: 'section-not-measured',
    reason:
      'The section was not measured; correct the specimen, giving its sizes and the reason, and everything that needs them is worked out.',
  };
}

function impossible(): Withheld {
  return {
    symbol: 'S0',
    name: NAME,
    code: 'section-impossible',
    reason:
      'No cross-section with these dimensions exists (the wall leaves no bore, or the strip is wider than the bore); check them against the specimen.',
  };
}

/** Area in a unit of the reader's choice. */
export function areaIn(areaMm2: number, unit: UnitSymbol): number {
  return convert(areaMm2, 'mm²', unit);
}
