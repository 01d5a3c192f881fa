/** From the readings of a pull to the picture of a plot: which columns, in which unit, from which reading on. */
import type { Gap } from '../../core/contract/record.ts';
import type { PlotLine } from '../../core/drawing/plot-input.ts';
import { DRAWN_BEFORE_START_S } from '../../core/curve/drawn-length.ts';
import { type UnitSymbol, factorToCore } from '../../core/quantity/units.ts';
import type { CurveInk } from '../design/palette.ts';
import { displayUnit, loadUnit } from '../numbers/display-unit.ts';
import { type Language, fixed } from '../numbers/format.ts';
import type { UnitSystem } from '../numbers/display-unit.ts';
import type { CurveColumns, Extent } from '../store/curve-columns.ts';
import type { Words } from '../words/en.ts';
import { OutwardRange } from './outward-range.ts';
import type { PlotMark, PlotPicture } from './picture.ts';

export type Abscissa = 'extension' | 'travel' | 'time';

export interface PullPictureInput {
  readonly columns: CurveColumns;
  readonly abscissa: Abscissa;
  readonly units: UnitSystem;
  readonly language: Language;
  readonly words: Words;
  readonly gaps: readonly Gap[];
  readonly triggerSeq: number | null;
  /** The break has been marked: what comes long after the last load is drawn with `whole` only. */
  readonly isBroken: boolean;
  readonly marks: readonly PlotMark[];
  readonly lines?: readonly PlotLine[];
  readonly ink: CurveInk;
  /** Ends of the axes before the first reading, in N, mm and s. */
  readonly plannedForceN: number;
  readonly plannedX: number;
  /** While waiting for the trigger time runs past a fixed zero; afterwards zero is the trigger. */
  readonly waiting: boolean;
  /** Draw from the very beginning of the record rather than from shortly before the trigger. */
  readonly whole: boolean;
}

/** Keeps the ranges of one plot, which only grow, from one picture to the next. */
export class PullPictures {
  #key = '';
  #x = new OutwardRange(1);
  #y = new OutwardRange(1);

  picture(input: PullPictureInput): PlotPicture {
    const { columns, abscissa, units, language, words, triggerSeq } = input;
    const which = input.isBroken && !input.whole ? 'drawn' : 'all';
    const length = which === 'drawn' ? columns.drawnLength : columns.length;
    const load = loadUnit(Math.max(input.plannedForceN, columns.extent('force')?.max ?? 0), units);
    const xUnit: UnitSymbol = abscissa === 'time' ? 's' : displayUnit('length', units);
    const perLoad = 1 / factorToCore(load);
    const perX = 1 / factorToCore(xUnit);
    const zeroS = this.#zeroOfTime(input);
    const from = firstShown(input, zeroS);
    const key = [abscissa, load, xUnit, input.plannedForceN, input.plannedX, input.whole].join(' ');
    if (key !== this.#key) {
      this.#key = key;
      this.#x = new OutwardRange(input.plannedX * perX);
      this.#y = new OutwardRange(input.plannedForceN * perLoad);
    }
    this.#growTo(columns.extent('force', which), this.#y, perLoad);
    if (abscissa === 'time') {
      this.#x.include((columns.timeS(length - 1) - zeroS) * perX);
      this.#x.include(Math.min(0, (columns.timeS(from) - zeroS) * perX));
    } else this.#growTo(columns.extent(abscissa, which), this.#x, perX);

    const lifts = input.gaps.map((gap) => gap.beforeSeq).sort((a, b) => a - b);
    return {
      source: {
        of: columns,
        length,
        from,
        lifts,
        x: {
          raw: columns.rawColumn(abscissa),
          factor: perX,
          shift: abscissa === 'time' ? -zeroS * perX : 0,
        },
        y: { raw: columns.rawColumn('force'), factor: perLoad, shift: 0 },
      },
      ink: input.ink,
      marks: input.marks,
      lines: input.lines ?? [],
      gaps: abscissa === 'time' ? input.gaps.map((gap) => gapBand(gap, zeroS, columns, language, words)) : [],
      xRange: { min: this.#x.min, max: this.#x.max },
      yRange: { min: this.#y.min, max: this.#y.max },
      xLabel:
        abscissa === 'time'
          ? triggerSeq === null && !input.waiting
            ? words.pull.recordTimeAxis
            : words.pull.timeAxis
          : abscissa === 'travel'
            ? words.pull.travelAxis(xUnit)
            : words.pull.extensionAxis(xUnit),
      yLabel: words.pull.loadAxis(load),
      tickText: (value, places) => fixed(value, places, language),
    };
  }

  #zeroOfTime({ columns, triggerSeq, waiting, whole }: PullPictureInput): number {
    if (triggerSeq !== null && triggerSeq < columns.length) return columns.timeS(triggerSeq);
    // Waiting: the newest reading stands at zero, so that the curve starts there when the trigger comes.
    if (waiting && !whole) return columns.timeS(columns.length - 1) || 0;
    return 0;
  }

  #growTo(extent: Extent | null, range: OutwardRange, perUnit: number): void {
    if (extent === null) return;
    range.include(extent.max * perUnit);
    range.include(extent.min * perUnit);
  }
}

function firstShown({ columns, triggerSeq, waiting, whole }: PullPictureInput, zeroS: number): number {
  if (whole || (triggerSeq === null && !waiting)) return 0;
  return firstAtOrAfter(columns, zeroS - DRAWN_BEFORE_START_S);
}

/** First reading at or after a time of the record, by halving: times never go back. */
export function firstAtOrAfter(columns: CurveColumns, timeS: number): number {
  let low = 0;
  let high = columns.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (columns.timeS(middle) < timeS) low = middle + 1;
    else high = middle;
  }
  return low;
}

function gapBand(gap: Gap, zeroS: number, columns: CurveColumns, language: Language, words: Words) {
  const fromX = gap.fromElapsedUs / 1e6 - zeroS;
  const endS = gap.toElapsedUs === null ? columns.timeS(columns.length - 1) : gap.toElapsedUs / 1e6;
  const toX = Math.max(endS - zeroS, fromX);
  return { fromX, toX, words: words.plot.gap(fixed(toX - fromX, 1, language)) };
}
