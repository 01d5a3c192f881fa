/** The figures of the moment as texts: what is shown at the frame, and whether it is fresh. */
import type { LiveValue, Session } from '../../../core/contract/session.ts';
import { type UnitSymbol, convert } from '../../../core/quantity/units.ts';
import { type UnitSystem, displayUnit, loadUnit } from '../../numbers/display-unit.ts';
import { type Language, atResolution, elapsedText, fixed, placesOf } from '../../numbers/format.ts';
import type { Words } from '../../words/en.ts';

export interface FigureText {
  readonly text: string | null;
  readonly unit: string;
  readonly noneBecause?: string;
}

export interface LiveFigures {
  readonly load: FigureText;
  readonly peak: FigureText;
  /** Null where the readout has no such channel. */
  readonly extension: FigureText | null;
  readonly travel: FigureText | null;
  readonly loadRate: FigureText;
  readonly extensionRate: FigureText | null;
  readonly elapsed: FigureText;
}

/** A number by the step of its readout where that is known, else with the screen's places for the unit. */
function figureText(value: number, unit: UnitSymbol, resolution: number | null, language: Language): string {
  return resolution === null
    ? fixed(value, placesOf(unit), language)
    : atResolution(value, resolution, language);
}

/** Digit widths to keep free for a value up to `largest`, so that nothing moves while a load rises. */
export function roomFor(
  largest: number,
  unit: UnitSymbol,
  language: Language,
  resolution: number | null = null,
): number {
  const text = figureText(largest, unit, resolution, language);
  const narrow = text.replace(/\d/g, '').length;
  // Point, comma and the blank between groups are about half as wide as a digit.
  return text.length - narrow / 2;
}

export function liveFigures(
  session: Session,
  plannedForceN: number,
  system: UnitSystem,
  language: Language,
  words: Words,
  /** What the last digit of the load was worth when one was shown last, N; null where that is not known. */
  loadResolutionN: number | null = null,
): LiveFigures {
  const { pull, live } = session;
  const unit = loadUnit(Math.max(pull?.plannedForceN ?? plannedForceN, pull?.peak?.forceN ?? 0), system);
  const length = displayUnit('length', system);
  const speed = displayUnit('speed', system);
  const of = (quantity: LiveValue['quantity']) => live.find((l) => l.quantity === quantity);
  const shown = (value: number, from: UnitSymbol, to: UnitSymbol): FigureText => ({
    text: fixed(convert(value, from, to), placesOf(to), language),
    unit: to,
  });
  const loadShown = (forceN: number): FigureText => ({
    text: figureText(
      convert(forceN, 'N', unit),
      unit,
      loadResolutionN === null ? null : convert(loadResolutionN, 'N', unit),
      language,
    ),
    unit,
  });
  const channel = (found: LiveValue | undefined, from: UnitSymbol, to: UnitSymbol): FigureText => {
    if (found === undefined) return { text: null, unit: to };
    if (found.value === null || found.status !== 'ok') {
      return {
        text: null,
        unit: to,
        noneBecause: found.status === 'ok' ? words.figures.noValue : words.figures[found.status],
      };
    }
    return found.quantity === 'force' ? loadShown(found.value) : shown(found.value, from, to);
  };
  const lengthOf = (quantity: 'extension' | 'travel') => {
    const found = of(quantity);
    return found === undefined ? null : channel(found, 'mm', length);
  };
  const peak = pull?.peak ?? null;
  const rate = pull?.forceRateNPerS ?? null;
  const lengthRate = pull?.extensionRateMmPerS ?? null;
  const seconds = pull?.pullS ?? null;
  return {
    load: channel(of('force'), 'N', unit),
    peak: peak === null ? { text: null, unit } : loadShown(peak.forceN),
    extension: lengthOf('extension'),
    travel: lengthOf('travel'),
    loadRate:
      rate === null
        ? { text: null, unit: `${unit}/s` }
        : { text: fixed(convert(rate, 'N', unit), placesOf(unit), language), unit: `${unit}/s` },
    extensionRate:
      of('extension') === undefined && of('travel') === undefined
        ? null
        : lengthRate === null
          ? { text: null, unit: speed }
          : shown(lengthRate, 'mm/s', speed),
    elapsed: { text: seconds === null ? null : elapsedText(seconds, language), unit: 'min:s' },
  };
}
