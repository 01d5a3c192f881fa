/**
 * Load and extension of a pull against the ranges of the instruments that it names: beyond them a load cell or an
 * extensometer is in danger, and what it shows is covered by nothing.
 */
import {
  type InstrumentForm,
  type InstrumentKind,
  MEASURES,
  rangeInCore,
} from '../../core/instruments/instrument.ts';
import { toNumber } from '../../core/quantity/exact.ts';

type WatchedKind = Exclude<InstrumentKind, 'calliper'>;

/** The upper end of the range of one instrument. */
export interface RangeLimit {
  readonly quantity: 'force' | 'extension';
  readonly kind: WatchedKind;
  /** In N or mm. */
  readonly upper: number;
  /** The end as it was entered, "200 kN". */
  readonly written: string;
  /** "LC-20". */
  readonly name: string;
}

/** A calliper measures nothing during a pull; an instrument without a range has no limit. */
export function rangeLimits(forms: readonly InstrumentForm[]): RangeLimit[] {
  return forms.flatMap(({ kind, name, range }): RangeLimit[] =>
    range === undefined || kind === 'calliper'
      ? []
      : [
          {
            quantity: kind === 'extensometer' ? 'extension' : 'force',
            upper: toNumber(rangeInCore(range, MEASURES[kind]).to),
            written: range.to,
            kind,
            name,
          },
        ],
  );
}

/** A single garbled reading is told by itself; this many one after the other are a load. */
const READINGS_BEYOND = 2;

export class RangeWatch {
  readonly #watched: { readonly limit: RangeLimit; inARow: number; told: boolean }[];

  constructor(limits: readonly RangeLimit[]) {
    this.#watched = limits.map((limit) => ({ limit, inARow: 0, told: false }));
  }

  /** Limits that are passed with this reading, each told once; NaN, where nothing was shown, passes none. */
  passed(forceN: number, extensionMm: number): readonly RangeLimit[] {
    const passed: RangeLimit[] = [];
    // A loop, not closures: this runs for every line of a fast readout.
    for (const one of this.#watched) {
      const value = one.limit.quantity === 'force' ? forceN : extensionMm;
      one.inARow = value > one.limit.upper ? one.inARow + 1 : 0;
      if (one.told || one.inARow < READINGS_BEYOND) continue;
      one.told = true;
      passed.push(one.limit);
    }
    return passed;
  }
}

/** Written out whole, so that the table of other languages can be held against them. */
const PASSED: Readonly<Record<WatchedKind, string>> = {
  frame: 'The load has passed the range of the frame',
  'force-channel': 'The load has passed the range of the force channel',
  extensometer: 'The extension has passed the range of the extensometer',
};

/** For the alarm and for the record. */
export const rangeSentence = ({ kind, name, written }: RangeLimit): string =>
  `${PASSED[kind]} ${name}, which ends at ${written}; see to the frame. Recording goes on, and what is shown beyond the range is covered by no calibration.`;
