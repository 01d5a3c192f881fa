/** A plot of one pull against one abscissa, live or kept, with its marks. */
import type { ReadonlySignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useRef } from 'preact/hooks';
import type { Gap } from '../../core/contract/record.ts';
import type { PlotLine } from '../../core/drawing/plot-input.ts';
import type { CurveInk } from '../design/palette.ts';
import { quantityText } from '../numbers/format.ts';
import { displayUnit } from '../numbers/display-unit.ts';
import { fixed, placesOf } from '../numbers/format.ts';
import { convert } from '../../core/quantity/units.ts';
import { loadUnit } from '../numbers/display-unit.ts';
import { decimalSign } from '../numbers/number-form.ts';
import type { CurveColumns } from '../store/curve-columns.ts';
import { language, units } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { CurvePlot } from './curve-plot.tsx';
import type { PlotMark } from './picture.ts';
import { type Abscissa, PullPictures } from './pull-picture.ts';

export interface PullPlotProps {
  readonly columns: CurveColumns;
  readonly abscissa: Abscissa;
  readonly gaps: readonly Gap[];
  readonly triggerSeq: number | null;
  readonly breakSeq: number | null;
  /** Asked for at each drawing: the present point moves with every reading. */
  readonly marks: () => readonly PlotMark[];
  readonly lines?: readonly PlotLine[];
  readonly ink: CurveInk;
  readonly plannedForceN: number;
  readonly plannedX: number;
  readonly waiting: boolean;
  readonly whole: boolean;
  readonly changes: readonly unknown[];
  readonly arrivals?: ReadonlySignal<unknown>;
  /** Only the outline is there yet: its readings have other numbers, so none is read out. */
  readonly isOutline?: boolean;
  readonly yieldSeq?: number | null;
  /** Zoomed and moved by wheel, drag and keys. While a pull is recorded its axes stand. */
  readonly zooms?: boolean;
  readonly id?: string;
  readonly aside?: ComponentChildren;
}

export function PullPlot(props: PullPlotProps) {
  const { columns, abscissa, gaps, triggerSeq, breakSeq, waiting, whole } = props;
  const pictures = useRef({ of: columns, made: new PullPictures() });
  if (pictures.current.of !== columns) pictures.current = { of: columns, made: new PullPictures() };
  const text = words.value;
  const name =
    abscissa === 'time'
      ? text.pull.loadTime
      : abscissa === 'travel'
        ? text.pull.loadTravel
        : text.pull.loadExtension;

  const picture = () =>
    pictures.current.made.picture({
      columns,
      abscissa,
      units: units.value,
      language: language.value,
      words: text,
      gaps,
      triggerSeq,
      isBroken: breakSeq !== null,
      marks: props.marks(),
      lines: props.lines ?? [],
      ink: props.ink,
      plannedForceN: props.plannedForceN,
      plannedX: props.plannedX,
      waiting,
      whole,
    });
  const pointText = (reading: number): string => {
    const zeroS = triggerSeq === null ? 0 : columns.timeS(triggerSeq);
    const x =
      abscissa === 'time'
        ? `${fixed(columns.timeS(reading) - zeroS, 2, language.value)} s`
        : quantityText(columns.value(abscissa, reading), 'mm', units.value, language.value);
    return text.plot.pointSaid(String(reading), x, loadText(columns.value('force', reading), columns));
  };
  return (
    <CurvePlot
      {...(props.id === undefined ? {} : { id: props.id })}
      aside={props.aside}
      name={name}
      picture={picture}
      pointText={pointText}
      peakReading={() => columns.peakIndex}
      arrivals={props.arrivals}
      breakReading={() => props.marks().find(({ sign }) => sign === 'break')?.reading ?? null}
      yieldReading={props.yieldSeq ?? null}
      zooms={
        props.zooms === true
          ? [abscissa, String(whole), loadUnit(props.plannedForceN, units.value), units.value].join(' ')
          : false
      }
      readsOut={props.isOutline !== true}
      changes={[
        columns,
        units.value,
        language.value,
        decimalSign(language.value),
        waiting,
        whole,
        gaps.length,
        triggerSeq,
        breakSeq,
        displayUnit('force', units.value),
        ...props.changes,
      ]}
    />
  );
}

/** A load in the unit that the pull is shown in. */
export function loadText(forceN: number, columns: CurveColumns): string {
  if (Number.isNaN(forceN)) return words.value.figures.noValue;
  const unit = loadUnit(columns.extent('force')?.max ?? 0, units.value);
  return `${fixed(convert(forceN, 'N', unit), placesOf(unit), language.value)} ${unit}`;
}
