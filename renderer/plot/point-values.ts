/** Points of a pull's curve as rows of its table of key values: number, time from the start, load, extension or travel. */
import { displayUnit } from '../numbers/display-unit.ts';
import { fixed, quantityText } from '../numbers/format.ts';
import type { CurveColumns } from '../store/curve-columns.ts';
import { language, units } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { loadText } from './pull-plot.tsx';

export interface PointsOf {
  readonly columns: CurveColumns;
  /** Null where the pull has neither. */
  readonly abscissa: 'extension' | 'travel' | null;
  /** Reading at which the pull began; null: times are those of the record. */
  readonly triggerSeq: number | null;
}

/** Of the cells of `pointCells`. */
export function pointHeads(abscissa: PointsOf['abscissa']): string[] {
  const text = words.value;
  const along = abscissa === null ? [] : [`${text.figures[abscissa]}, ${displayUnit('length', units.value)}`];
  return [text.plot.reading, text.pull.timeAxis, text.figures.load, ...along];
}

export function pointCells({ columns, abscissa, triggerSeq }: PointsOf, reading: number): string[] {
  const zeroS = triggerSeq === null ? 0 : columns.timeS(triggerSeq);
  const along =
    abscissa === null
      ? []
      : [quantityText(columns.value(abscissa, reading), 'mm', units.value, language.value)];
  return [
    String(reading),
    fixed(columns.timeS(reading) - zeroS, 2, language.value),
    loadText(columns.value('force', reading), columns),
    ...along,
  ];
}
