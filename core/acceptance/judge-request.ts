/**
 * A judgement asked for in text, as the command line, the window and a set ask for it:
 * `{"strength":"66 500 psi","broke":"base-metal","baseMetals":["SA-516-70"]}`.
 */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { exactFromDecimal, exactRatio, toNumber } from '../quantity/exact.ts';
import { NAME_LENGTH_MAX, STRENGTH_MPA_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import {
  QUANTITY_TEXT_LENGTH_MAX,
  parseQuantity,
  quantityFaultSentence,
} from '../quantity/parse-quantity.ts';
import { UNITS } from '../quantity/units.ts';
import { type ShapeFault, shapeFaults } from '../shape-faults.ts';
import { COVERAGE_FACTOR_USUAL, DECISION_RULES, type DecisionRule } from './decision-rule.ts';
import { designationKey, fillerDesignationKey, findByDesignation } from './designation.ts';
import { DOUBT_CODES, type DoubtCode } from './doubts.ts';
import {
  APPEARANCES,
  FRACTURE_LOCATIONS,
  type FractureNote,
  SOUNDNESS,
  fractureLocationFromText,
} from './fracture.ts';
import { FRACTURE_MARKS, doubtsOfMark } from './fracture-details.ts';
import type { CaseMaterial, JudgeCase } from './judge-case.ts';
import { judgeSpecimen } from './judge-specimen.ts';
import type { MaterialFile, QuantityName } from './material.ts';
import { answersOfOtherPacks } from './other-packs.ts';
import { type PrintedValue, printedValueFault, readPrintedValue } from './printed-value.ts';
import type { RulePack } from './read-rule-pack.ts';
import type { Verdict } from './verdict.ts';

/** Two base metals are joined at most; a few more may be named for a branch. */
const BASE_METALS_MAX = 10;

const quantityText = z.string().min(1).max(QUANTITY_TEXT_LENGTH_MAX);
const nameText = z.string().trim().min(1).max(NAME_LENGTH_MAX);

/** A base metal by name alone, or with the minimum that is stated for this very metal. */
const askedBaseMetal = z.union([
  nameText,
  z.strictObject({ name: nameText, minimum: quantityText.optional() }).readonly(),
]);

export const judgeRequest = atFirstUse(() =>
  z.strictObject({
    strength: quantityText.optional(),
    yield: quantityText.optional(),
    elongation: quantityText.optional(),
    broke: z.string().max(60).optional(),
    fracture: z.enum(SOUNDNESS).optional(),
    appearance: z.enum(APPEARANCES).optional(),
    /** A mark at which it broke. */
    mark: z.enum(FRACTURE_MARKS).optional(),
    /** Which base metal broke: its name as in `baseMetals`, or its number from 1. */
    brokenBaseMetal: nameText.optional(),
    baseMetals: z.array(askedBaseMetal).max(BASE_METALS_MAX).readonly().optional(),
    filler: nameText.optional(),
    /** Stated minima: of the base metals named without one of their own, in order, or of the filler for an all-weld-metal pack. */
    minima: z.array(quantityText).max(BASE_METALS_MAX).readonly().optional(),
    yieldMinimum: quantityText.optional(),
    elongationMinimum: quantityText.optional(),
    weldMetalMinimum: quantityText.optional(),
    system: z.enum(['US', 'SI']).optional(),
    doubts: z
      .array(
        z.strictObject({
          code: z.enum(DOUBT_CODES as [DoubtCode, ...DoubtCode[]]),
          detail: z.string().max(TEXT_LENGTH_MAX).optional(),
        }),
      )
      .max(DOUBT_CODES.length)
      .readonly()
      .optional(),
    uncertainty: quantityText.optional(),
    coverageFactor: z.string().max(20).optional(),
    decisionRule: z.enum(DECISION_RULES).optional(),
    guardFactor: z.string().max(20).optional(),
  }),
);
export type JudgeRequest = z.input<typeof judgeRequest>;

export type JudgeOutcome =
  | { readonly ok: true; readonly verdict: Verdict }
  | { readonly ok: false; readonly faults: readonly ShapeFault[] };
export type CaseOutcome =
  | { readonly ok: true; readonly judged: JudgeCase }
  | { readonly ok: false; readonly faults: readonly ShapeFault[] };

/**
 * Judges what is asked for in text, and asks the pack's other packs too. Values of an evaluation, where they are handed
 * in, take the place of those of the text. Never throws on bad input.
 */
export function judgeAsked(
  pack: RulePack,
  input: unknown,
  packs: readonly RulePack[],
  evaluated: JudgeCase['measured'] = {},
): JudgeOutcome {
  const read = readJudgeRequest(pack, input);
  if (!read.ok) return read;
  const judged = { ...read.judged, measured: { ...read.judged.measured, ...evaluated } };
  const verdict = judgeSpecimen(judged);
  return { ok: true, verdict: { ...verdict, otherPacks: answersOfOtherPacks(judged, verdict, packs) } };
}

/** Reads the request for one pack: quantities, materials, fracture, decision rule. */
export function readJudgeRequest(pack: RulePack, input: unknown): CaseOutcome {
  const checked = judgeRequest.safeParse(input);
  if (!checked.success)
    return {
      ok: false,
      faults: shapeFaults(checked.error.issues, input, { whole: 'The request', schema: judgeRequest }),
    };
  const reader = new RequestReader(pack, checked.data);
  const judged = reader.read();
  return reader.faults.length > 0 ? { ok: false, faults: reader.faults } : { ok: true, judged };
}

const TWO_SYSTEMS =
  'the minima are in two unit systems; US customary and SI figures of a specification are not to be mixed, so give all of them in one';

class RequestReader {
  readonly faults: ShapeFault[] = [];
  readonly #pack: RulePack;
  readonly #request: z.output<typeof judgeRequest>;

  constructor(pack: RulePack, request: z.output<typeof judgeRequest>) {
    this.#pack = pack;
    this.#request = request;
  }

  read(): JudgeCase {
    const request = this.#request;
    const allWeldMetal = this.#pack.file.test === 'all-weld-metal';
    const minima = this.#minima();
    return {
      pack: this.#pack,
      measured: this.#measured(),
      fracture: this.#fracture(),
      baseMetals: this.#baseMetals(allWeldMetal ? [] : minima),
      filler: this.#filler(allWeldMetal ? minima : []),
      weldMetalMinimum: this.#stated('weldMetalMinimum', request.weldMetalMinimum, 'stress'),
      system: request.system ?? null,
      doubts: [
        ...doubtsOfMark(request.mark),
        ...(request.doubts ?? []).map((doubt) => ({
          code: doubt.code,
          ...(doubt.detail === undefined ? {} : { detail: doubt.detail }),
        })),
      ],
      decision: this.#decision(),
    };
  }

  #fault(field: string, sentence: string): null {
    this.faults.push({ field, sentence: `${field}: ${sentence.replace(/\.$/, '')}.` });
    return null;
  }

  #measured(): JudgeCase['measured'] {
    const { strength, yield: yieldStrength, elongation } = this.#request;
    return compact({
      'tensile-strength': this.#value('strength', strength, 'stress'),
      'yield-strength': this.#value('yield', yieldStrength, 'stress'),
      elongation: this.#value('elongation', elongation, 'strain'),
    });
  }

  /** A measured value: an elongation can be zero; a specimen that bore nothing has no strength to be judged. */
  #value(field: string, text: string | undefined, dimension: 'stress' | 'strain'): PrintedValue | null {
    if (text === undefined) return null;
    const read = parseQuantity(text, { dimension });
    if (!read.ok) return this.#fault(field, quantityFaultSentence(read.fault, text, dimension));
    if (read.quantity.exact.compare(0) < 0) {
      return this.#fault(field, `"${text}" is below zero; check what was measured`);
    }
    const { exact, unit, core } = read.quantity;
    if (dimension === 'stress' && core === 0) {
      return this.#fault(
        field,
        `"${text}" is zero, and a specimen that was pulled bore something; check what was measured, or leave it out`,
      );
    }
    if (dimension === 'stress' && core > STRENGTH_MPA_MAX) {
      return this.#fault(field, `"${text}" is more than any metal bears; check number and unit`);
    }
    if (dimension === 'stress' || unit === '%') return { text: read.quantity.text, exact, unit };
    const percent = exact.mul(UNITS[unit].toCore).mul(100);
    return { text: read.quantity.text, exact: percent, unit: '%' };
  }

  #stated(field: string, text: string | undefined, dimension: 'stress' | 'strain'): PrintedValue | null {
    if (text === undefined) return null;
    const fault = printedValueFault(text, dimension);
    return fault === null ? readPrintedValue(text) : this.#fault(field, fault);
  }

  #minima(): PrintedValue[] {
    const texts = this.#request.minima ?? [];
    const read = texts.map((text, index) =>
      this.#stated(texts.length === 1 ? 'minima' : `minima[${String(index)}]`, text, 'stress'),
    );
    const minima = read.filter((value) => value !== null);
    const fixed = this.#pack.file.unitSystem;
    const systems = new Set(minima.map((value) => UNITS[value.unit].system));
    if (systems.size > 1) {
      this.#fault('minima', TWO_SYSTEMS);
    }
    if (
      fixed !== 'as-measured' &&
      this.#pack.file.rounding !== undefined &&
      systems.size === 1 &&
      !systems.has(fixed)
    ) {
      this.#fault(
        'minima',
        `${this.#pack.file.name} judges in ${fixed === 'US' ? 'psi or ksi' : 'MPa'}; give the minimum so, or choose the pack of the other unit system`,
      );
    }
    return minima;
  }

  #fracture(): FractureNote {
    const { broke, fracture, appearance, mark, brokenBaseMetal, minima = [] } = this.#request;
    const baseMetals = this.#namedBaseMetals();
    const note: { -readonly [K in keyof FractureNote]: FractureNote[K] } = {};
    if (broke !== undefined) {
      const location = fractureLocationFromText(broke);
      if (location === null) {
        this.#fault(
          'broke',
          `"${broke}" is no place where a specimen breaks here; use ${FRACTURE_LOCATIONS.join(', ')}`,
        );
      } else note.broke = location;
    }
    if (fracture !== undefined) note.soundness = fracture;
    if (appearance !== undefined) note.appearance = appearance;
    if (mark === 'gauge-mark') note.atGaugeMark = true;
    if (brokenBaseMetal !== undefined) {
      const count = Math.max(baseMetals.length, minima.length);
      const byName = baseMetals.findIndex(
        ({ name }) => designationKey(name) === designationKey(brokenBaseMetal),
      );
      const index = byName >= 0 ? byName : Number(brokenBaseMetal) - 1;
      if (Number.isInteger(index) && index >= 0 && index < count) note.brokenBaseMetal = index;
      else {
        this.#fault(
          'brokenBaseMetal',
          `"${brokenBaseMetal}" is none of the base metals named; give its name as entered, or its number from 1 to ${String(count)}`,
        );
      }
    }
    return note;
  }

  #baseMetals(minima: readonly PrintedValue[]): CaseMaterial[] {
    const asked = this.#namedBaseMetals();
    if (asked.length === 0) {
      return minima.map((minimum, index) => ({
        called: minima.length === 1 ? 'the base metal' : `base metal ${String(index + 1)}`,
        entry: null,
        stated: { 'tensile-strength': minimum },
      }));
    }
    const entries = asked.map(({ name }, index) =>
      this.#find(`baseMetals[${String(index)}]`, name, this.#pack.baseMetals, designationKey),
    );
    const own = asked.map(({ minimum }, index) =>
      this.#stated(`baseMetals[${String(index)}].minimum`, minimum, 'stress'),
    );
    const systems = new Set(own.flatMap((value) => (value === null ? [] : [UNITS[value.unit].system])));
    if (systems.size > 1) this.#fault('baseMetals', TWO_SYSTEMS);
    const stated = this.#assigned(minima, entries, own);
    return asked.map(({ name }, index) => {
      const minimum = stated[index] ?? null;
      return {
        called: name,
        entry: entries[index] ?? null,
        stated: minimum === null ? {} : { 'tensile-strength': minimum },
      };
    });
  }

  #namedBaseMetals(): { readonly name: string; readonly minimum?: string | undefined }[] {
    return (this.#request.baseMetals ?? []).map((asked) =>
      typeof asked === 'string' ? { name: asked } : asked,
    );
  }

  /** Loose minima go to the metals in order: to all of them, or to those that nothing else is known of. */
  #assigned(
    minima: readonly PrintedValue[],
    entries: readonly (MaterialFile | null)[],
    own: readonly (PrintedValue | null)[],
  ): (PrintedValue | null)[] {
    if (minima.length === 0) return [...own];
    const withoutOwn = own.flatMap((value, index) => (value === null ? [index] : []));
    const unknown = withoutOwn.filter((index) => entries[index] === null);
    const takers = [withoutOwn, unknown].find((indexes) => indexes.length === minima.length);
    if (takers === undefined) {
      this.#fault(
        'minima',
        `there are ${String(entries.length)} base metals and ${String(minima.length)} minima, and it is not clear which belongs to which; give one for each base metal, or only for those that are not in the tables`,
      );
      return [...own];
    }
    return own.map((value, index) => value ?? minima[takers.indexOf(index)] ?? null);
  }

  #filler(minima: readonly PrintedValue[]): CaseMaterial | null {
    const { filler, yieldMinimum, elongationMinimum } = this.#request;
    if (minima.length > 1) {
      return this.#fault(
        'minima',
        'one tensile minimum is compared for an all-weld-metal specimen; give one',
      );
    }
    const stated = compact({
      'tensile-strength': minima[0] ?? null,
      'yield-strength': this.#stated('yieldMinimum', yieldMinimum, 'stress'),
      elongation: this.#stated('elongationMinimum', elongationMinimum, 'strain'),
    });
    if (filler === undefined) {
      return Object.keys(stated).length === 0 ? null : { called: 'the filler metal', entry: null, stated };
    }
    const entry = this.#find('filler', filler, this.#pack.fillers, fillerDesignationKey);
    return { called: filler, entry, stated };
  }

  #find(
    field: string,
    name: string,
    materials: readonly MaterialFile[],
    keyOf: (text: string) => string,
  ): MaterialFile | null {
    const found = findByDesignation(materials, name, keyOf);
    if (found.kind === 'found') return found.item;
    if (found.kind === 'ambiguous') {
      return this.#fault(
        field,
        `"${name}" could be ${found.candidates.map((candidate) => candidate.id).join(' or ')}; name one of them`,
      );
    }
    return null;
  }

  #decision(): DecisionRule | null {
    const { uncertainty, decisionRule, coverageFactor, guardFactor } = this.#request;
    if (uncertainty === undefined) {
      return decisionRule === undefined || decisionRule === 'simple-acceptance'
        ? null
        : this.#fault(
            'uncertainty',
            `the decision rule ${decisionRule} needs the expanded uncertainty of the strength; give it, for example "1.8 %"`,
          );
    }
    const relative = parseQuantity(uncertainty, { dimension: 'strain' });
    const read = relative.ok ? relative : parseQuantity(uncertainty, { dimension: 'stress' });
    if (!read.ok) return this.#fault('uncertainty', quantityFaultSentence(read.fault, uncertainty, 'strain'));
    if (read.quantity.exact.compare(0) < 0) {
      return this.#fault('uncertainty', `"${uncertainty}" is below zero; an uncertainty is not`);
    }
    const k = this.#factor('coverageFactor', coverageFactor, COVERAGE_FACTOR_USUAL, 10);
    const r = this.#factor('guardFactor', guardFactor, 1, 10);
    if (k === null || r === null) return null;
    const { exact, unit } = read.quantity;
    return {
      name: decisionRule ?? 'simple-acceptance',
      expanded:
        read.quantity.dimension === 'strain'
          ? { exact: exact.mul(UNITS[unit].toCore).mul(100), unit: '%' }
          : { exact, unit },
      coverageFactor: toNumber(k),
      guardFactor: r,
    };
  }

  #factor(field: string, text: string | undefined, usual: number, max: number) {
    if (text === undefined) return exactRatio(BigInt(usual), 1n);
    const value = exactFromDecimal(text.trim());
    return value !== null && value.compare(0) > 0 && value.compare(max) <= 0
      ? value
      : this.#fault(
          field,
          `"${text}" is no factor above 0 and at most ${String(max)}; give one, for example "2"`,
        );
  }
}

function compact(
  values: Readonly<Record<QuantityName, PrintedValue | null>>,
): Partial<Record<QuantityName, PrintedValue>> {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== null));
}
