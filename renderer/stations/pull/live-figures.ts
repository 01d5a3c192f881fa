/** The figures of the moment as texts: what is shown at the frame, and whether it is fresh. */
import type { LiveValue, Session } from '../../../core/contract/session.ts';
import { type UnitSymbol, convert } from '../../../core/quantity/units.ts';
import { type UnitSystem, displayUnit, loadUnit } from '../../numbers/display-unit.ts';
import { type Language, atResolution, fixed, placesOf } from '../../numbers/format.ts';
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

/** Three figures: a rate over about the last second bears no more, and its digits keep their number while it grows. */
const RATE_FIGURES = 3;
const RATE_PLACES_MAX = 2;
/** Digit widths of three figures with their decimal sign. */
export const RATE_ROOM = 3.5;
/** N and lbf a second come in thousands. */
export const rateRoom = (loadIn: UnitSymbol): number => (loadIn === 'kN' ? RATE_ROOM : 4.5);

function rateText(rate: number, language: Language): string {
  const whole = Math.max(1, Math.floor(Math.log10(Math.abs(rate) || 1)) + 1);
  return fixed(rate, Math.min(RATE_PLACES_MAX, Math.max(0, RATE_FIGURES - whole)), language);
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
  const isOf = (readout: Session['readout'] | undefined, quantity: LiveValue['quantity']): boolean =>
    readout?.channels.some((one) => one.quantity === quantity) === true;
  /**
   * Also while it is silent: what stands beside a figure must not change its place when readings fail to come. A second
   * instrument that has not spoken hides no travel that the frame tells.
   */
  const has = (quantity: LiveValue['quantity']): boolean =>
    of(quantity) !== undefined ||
    isOf(session.readout, quantity) ||
    (isOf(session.second?.readout, quantity) && !isOf(session.readout, 'travel'));
  const lengthOf = (quantity: 'extension' | 'travel') =>
    has(quantity) ? channel(of(quantity), 'mm', length) : null;
  const peak = pull?.peak ?? null;
  const rate = pull?.forceRateNPerS ?? null;
  const lengthRate = pull?.extensionRateMmPerS ?? null;
  return {
    load: channel(of('force'), 'N', unit),
    peak: peak === null ? { text: null, unit } : loadShown(peak.forceN),
    extension: lengthOf('extension'),
    travel: lengthOf('travel'),
    loadRate:
      rate === null
        ? { text: null, unit: `${unit}/s` }
        : { text: rateText(convert(rate, 'N', unit), language), unit: `${unit}/s` },
    extensionRate:
      !has('extension') && !has('travel')
        ? null
        : lengthRate === null
          ? { text: null, unit: speed }
          : { text: rateText(convert(lengthRate, 'mm/s', speed), language), unit: speed },
  };
}
