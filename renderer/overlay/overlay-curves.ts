/** The laid pulls as curves of the picture that is asked for; made once each, aligned anew whenever that changes. */
import type { Alignment } from '../../core/curve/align.ts';
import {
  type AlignedCurve,
  type OverlaidOutcome,
  type OverlayPull,
  aligned,
  overlaidCurve,
} from '../../core/drawing/overlay-plot.ts';
import type { PlotUnits, PullPlotForm, PullPlotWords } from '../../core/drawing/pull-plot.ts';
import { SI_PLOT_UNITS, US_PLOT_UNITS } from '../../core/drawing/pull-plot.ts';
import { READINGS_ORIGINS, type ReadingsOrigin } from '../../core/pull/readings-origin.ts';
import type { UnitSystem } from '../numbers/display-unit.ts';
import { asReported } from '../numbers/format.ts';
import { decimalSign } from '../numbers/number-form.ts';
import { language } from '../store/view-settings.ts';
import type { Words } from '../words/en.ts';

export const plotUnits = (system: UnitSystem): PlotUnits => (system === 'US' ? US_PLOT_UNITS : SI_PLOT_UNITS);

/** One form of each pull is held; another takes its place. */
const made = new WeakMap<OverlayPull, { readonly key: string; readonly outcome: OverlaidOutcome }>();

export function plotWords({ look, plot }: Words): PullPlotWords {
  const digits = (text: string): string => asReported(text, language.value);
  return {
    ...look.axes,
    break: plot.fracture,
    offset: (percent) => plot.offset(digits(percent)),
    digits,
    axis: (name, unit) => `${name}, ${unit}`,
  };
}

/** "SIMULATED", in the language of the window. */
export const originMarks = ({ set }: Words): Readonly<Record<ReadingsOrigin, string>> =>
  Object.fromEntries(READINGS_ORIGINS.map((origin) => [origin, set.readings[origin].mark])) as Record<
    ReadingsOrigin,
    string
  >;

function curveOf(pull: OverlayPull, form: PullPlotForm, system: UnitSystem, words: Words): OverlaidOutcome {
  const key = [form, system, words.look.back, decimalSign(language.value)].join(' ');
  const before = made.get(pull);
  if (before?.key === key) return before.outcome;
  const outcome = overlaidCurve(pull, form, plotUnits(system), plotWords(words));
  made.set(pull, { key, outcome });
  return outcome;
}

export interface Laying {
  readonly form: PullPlotForm;
  readonly alignment: Alignment;
  readonly system: UnitSystem;
  readonly words: Words;
}

export interface LaidCurves {
  readonly curves: readonly AlignedCurve[];
  /** Why a pull is not in the picture, or not aligned. */
  readonly notes: ReadonlyMap<number, string>;
}

export function laidCurves(
  pulls: readonly OverlayPull[],
  { form, alignment, system, words }: Laying,
): LaidCurves {
  const notes = new Map<number, string>();
  const curves = pulls.flatMap((pull) => {
    const outcome = curveOf(pull, form, system, words);
    if (!outcome.ok) {
      // Until it is evaluated its area is not known; that is no lack of it.
      if (pull.isOutline === true) return [];
      notes.set(pull.pullId, words.look.reasons[outcome.code]);
      return [];
    }
    const curve = aligned(outcome.curve, alignment);
    if (curve.notAligned !== null && !curve.isOutline)
      notes.set(pull.pullId, words.look.notAligned[alignment.kind]);
    return [curve];
  });
  return { curves, notes };
}
