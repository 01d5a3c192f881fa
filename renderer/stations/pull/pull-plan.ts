/** How the next pull is to start and end, and how far its axes reach. Typed as text, read when it is made ready. */
import { computed, effect, signal } from '@preact/signals';
import { z } from 'zod';
import type { PageRequestOf } from '../../../core/contract/bridge.ts';
import { NAME_LENGTH_MAX, RECORD_AFTER_BREAK_MS_MAX } from '../../../core/limits.ts';
import {
  exactFromTypedNumber,
  parseQuantity,
  quantityFaultSentence,
} from '../../../core/quantity/parse-quantity.ts';
import { SPEED_METHOD_IDS } from '../../../core/results/speed-methods.ts';
import { toNumber } from '../../../core/quantity/exact.ts';
import type { Dimension } from '../../../core/quantity/units.ts';
import type { UnitSystem } from '../../numbers/display-unit.ts';
import { goodEnd } from '../../plot/outward-range.ts';
import { remember, remembered } from '../../store/remembered.ts';
import { session } from '../../store/session-store.ts';
import { draftArea, readDraft } from '../../store/specimen-draft.ts';
import { changeWithoutStep } from '../../store/taken-back.ts';
import { units } from '../../store/view-settings.ts';
import type { Words } from '../../words/en.ts';
import { withDecimalComma } from '../../words/told.ts';

const planForm = z.object({
  startByHand: z.boolean(),
  threshold: z.string(),
  breakByHand: z.boolean(),
  percentOfPeak: z.string(),
  tailByHand: z.boolean(),
  tailSeconds: z.string(),
  load: z.string(),
  extension: z.string(),
  operator: z.string().max(NAME_LENGTH_MAX),
  /** Whose window of speed is shown; blank for none. */
  speedMethod: z.enum(['', ...SPEED_METHOD_IDS]).catch(''),
});
export type PullPlan = z.infer<typeof planForm>;

/** Round figures of each system, near each other. */
const THRESHOLD_PRESETS: Readonly<Record<UnitSystem, string>> = { SI: '0.5 kN', US: '100 lbf' };
const isPreset = (threshold: string): boolean =>
  Object.values(THRESHOLD_PRESETS).includes(threshold.replace(',', '.'));

const FRESH: PullPlan = {
  startByHand: false,
  threshold: THRESHOLD_PRESETS[units.peek()],
  breakByHand: false,
  percentOfPeak: '30',
  tailByHand: false,
  tailSeconds: '5',
  load: '',
  extension: '',
  operator: '',
  speedMethod: '',
};

const KEY = 'gaugemark.plan';

/** Axes belong to one specimen; the rules of start and end stay from one pull to the next. */
export const plan = signal<PullPlan>({ ...remembered(KEY, planForm, FRESH), load: '', extension: '' });
/** No pull is made ready, runs or is looked at in its place. */
export const planIsOpen = computed(() => session.value?.pull === null);
export const changePlan = (change: Partial<PullPlan>): void => {
  plan.value = { ...plan.value, ...change };
};
export function keepPlan(): void {
  remember(KEY, () => plan.value);
  thresholdOfUnits();
}

/** A threshold that nobody has changed is that of the system chosen, as numbers are written; a typed one stays as it was typed. Returns what stops it. */
export function thresholdOfUnits(): () => void {
  return effect(() => {
    const threshold = withDecimalComma(THRESHOLD_PRESETS[units.value]);
    const planned = plan.peek();
    // It goes with the units and the decimal sign, and is no choice of its own.
    if (planned.threshold !== threshold && isPreset(planned.threshold))
      changeWithoutStep(plan, { ...planned, threshold });
  });
}

/** Axes when nothing is typed: what a strong structural steel of this section would reach. */
const AXIS_STRENGTH_MPA = 600;
/** … and what a ductile one would stretch, as part of the gauge length. */
const AXIS_STRAIN = 0.35;
const LOAD_WITHOUT_SECTION_N = 100_000;
const EXTENSION_WITHOUT_GAUGE_MM = 20;
export const PLANNED_TIME_S = 60;

/** Ends of the axes for the specimen that is being entered, in N and mm. */
export const suggestedAxes = computed(() => {
  const outcome = draftArea.value;
  const read = readDraft.value;
  const gaugeMm = read.ok ? read.specimen.gaugeLength?.mean : undefined;
  return {
    forceN: outcome?.ok === true ? goodEnd(outcome.area.areaMm2 * AXIS_STRENGTH_MPA) : LOAD_WITHOUT_SECTION_N,
    extensionMm: gaugeMm === undefined ? EXTENSION_WITHOUT_GAUGE_MM : goodEnd(gaugeMm * AXIS_STRAIN),
  };
});

export type PlanField = 'threshold' | 'percentOfPeak' | 'tailSeconds' | 'load' | 'extension';

type Rules = Pick<
  PageRequestOf<'pull.ready'>,
  'trigger' | 'breakRule' | 'tailS' | 'heldOpenS' | 'plannedForceN' | 'plannedExtensionMm' | 'operator'
>;

export type PlanOutcome =
  | { readonly ok: true; readonly rules: Rules }
  | { readonly ok: false; readonly faults: ReadonlyMap<PlanField, string> };

/** In the window somebody is there to take a break back: the record is held open for it. */
export const HELD_OPEN_S = RECORD_AFTER_BREAK_MS_MAX / 1000;
/** Consecutive readings that the rules ask for, so that one stray reading neither starts nor ends a pull. */
const RULE_READINGS = 3;
/** The break rule sleeps until the peak has reached this many times the trigger's threshold. */
const PEAK_TIMES_THRESHOLD = 3;
const PEAK_MIN_N = 500;

export function readPlan(p: PullPlan, words: Words): PlanOutcome {
  const faults = new Map<PlanField, string>();
  const quantity = (field: PlanField, dimension: Dimension): number => {
    const outcome = parseQuantity(p[field], { dimension, positive: true });
    if (outcome.ok) return outcome.quantity.core;
    faults.set(field, quantityFaultSentence(outcome.fault, p[field]));
    return Number.NaN;
  };
  const between = (field: PlanField, min: number, max: number, sentence: string): number => {
    const exact = exactFromTypedNumber(p[field].trim());
    const value = exact === null ? Number.NaN : toNumber(exact);
    if (value >= min && value <= max) return value;
    faults.set(field, sentence);
    return Number.NaN;
  };
  const thresholdN = p.startByHand ? null : quantity('threshold', 'force');
  const percent = p.breakByHand ? null : between('percentOfPeak', 1, 99, words.plan.invalidPercent);
  const tail = p.tailByHand ? null : between('tailSeconds', 0.5, 600, words.plan.invalidSeconds);
  const load = p.load.trim() === '' ? suggestedAxes.value.forceN : quantity('load', 'force');
  const extension =
    p.extension.trim() === '' ? suggestedAxes.value.extensionMm : quantity('extension', 'length');
  if (faults.size > 0) return { ok: false, faults };
  return {
    ok: true,
    rules: {
      trigger:
        thresholdN === null ? { kind: 'by-hand' } : { kind: 'force', thresholdN, readings: RULE_READINGS },
      breakRule:
        percent === null
          ? { kind: 'by-hand' }
          : {
              kind: 'force-drop',
              fractionOfPeak: percent / 100,
              readings: RULE_READINGS,
              peakTimesThreshold: PEAK_TIMES_THRESHOLD,
              peakMinN: PEAK_MIN_N,
            },
      tailS: tail,
      heldOpenS: HELD_OPEN_S,
      plannedForceN: load,
      plannedExtensionMm: extension,
      ...(p.operator.trim() === '' ? {} : { operator: p.operator.trim() }),
    },
  };
}
