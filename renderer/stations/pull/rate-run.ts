/** Rates and stage of the pull that is being recorded, from its columns: after a reload of the page they are the same. */
import { type LiveRates, StageWatch } from '../../../core/results/live-speed.ts';
import type { SpeedStage } from '../../../core/results/speed-windows.ts';
import type { CurveColumns, Plotted } from '../../store/curve-columns.ts';

/** Rates are taken over this time. */
const WINDOW_S = 1;
/** The stage is looked at so often in the time of the record. */
const LOOK_S = 0.2;

export interface RunLengths {
  readonly areaMm2: number | null;
  /** Over which the extension is measured. */
  readonly gaugeMm: number | null;
  readonly parallelMm: number | null;
}

export class RateRun {
  readonly #columns: CurveColumns;
  readonly #lengths: RunLengths;
  readonly #watch = new StageWatch();
  /** The next reading to look at. */
  #next = 0;
  #lookedS = -Infinity;

  constructor(columns: CurveColumns, lengths: RunLengths) {
    this.#columns = columns;
    this.#lengths = lengths;
  }

  /** Goes on to the newest reading. */
  catchUp(): { readonly rates: LiveRates; readonly stage: SpeedStage } {
    const { length } = this.#columns;
    for (; this.#next < length; this.#next++) {
      const timeS = this.#columns.timeS(this.#next);
      if (!(timeS - this.#lookedS >= LOOK_S)) continue;
      this.#lookedS = timeS;
      const rates = this.#ratesAt(this.#next);
      this.#watch.push({
        stressMpa: this.#columns.value('force', this.#next) / (this.#lengths.areaMm2 ?? Number.NaN),
        strain: orNull(this.#columns.value('extension', this.#next) / (this.#lengths.gaugeMm ?? Number.NaN)),
        stressRate: rates['stress-rate'],
        strainRate: rates['strain-rate'],
      });
    }
    return { rates: this.#ratesAt(length - 1), stage: this.#watch.stage };
  }

  #ratesAt(index: number): LiveRates {
    const { areaMm2, gaugeMm, parallelMm } = this.#lengths;
    const over = (quantity: Plotted, size: number | null): number | null =>
      size === null ? null : orNull(this.#perS(quantity, index) / size);
    return {
      'stress-rate': over('force', areaMm2),
      'strain-rate': over('extension', gaugeMm),
      'crosshead-rate': over('travel', parallelMm),
    };
  }

  /** Between the reading and the earliest of the window before it; NaN without two values. */
  #perS(quantity: Plotted, index: number): number {
    const columns = this.#columns;
    const nowS = columns.timeS(index);
    let first = index;
    for (let i = index - 1; i >= 0 && nowS - columns.timeS(i) <= WINDOW_S; i--)
      if (!Number.isNaN(columns.value(quantity, i))) first = i;
    return (columns.value(quantity, index) - columns.value(quantity, first)) / (nowS - columns.timeS(first));
  }
}

const orNull = (value: number): number | null => (Number.isFinite(value) ? value : null);
