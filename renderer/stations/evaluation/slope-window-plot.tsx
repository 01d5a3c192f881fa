/**
 * The elastic part of the curve with the two ends of the fitted stretch, dragged by hand or moved by keys: each end is a
 * slider over the stress. What it sets is what the entries say, to the digit.
 */
import { type Signal, useSignal } from '@preact/signals';
import { useMemo } from 'preact/hooks';
import type { TargetedKeyboardEvent, TargetedPointerEvent } from 'preact';
import { type PlotLayout, curvePlot, plotLayout } from '../../../core/drawing/curve-plot.ts';
import { type OverlaidCurve, overlaidCurve } from '../../../core/drawing/overlay-plot.ts';
import type { PlotLine } from '../../../core/drawing/plot-input.ts';
import { convert } from '../../../core/quantity/units.ts';
import type { Evaluation } from '../../../core/results/evaluation.ts';
import { fixed, placesOf } from '../../numbers/format.ts';
import { decimalSign } from '../../numbers/number-form.ts';
import { plotUnits, plotWords } from '../../overlay/overlay-curves.ts';
import { curveFrom } from '../../overlay/read-pull.ts';
import { DrawingCanvas, cssPxPerMm } from '../../plot/drawing-canvas.tsx';
import { KeyValues } from '../../plot/key-values.tsx';
import type { OpenedPull } from '../../store/kept-pull.ts';
import { language, units } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import './slope-window-plot.css';

export interface SlopeWindowMpa {
  readonly lowerMpa: number;
  readonly upperMpa: number;
}

/** Where the axes lie on paper, and how large a millimetre of it is shown. */
interface Placed {
  readonly layout: PlotLayout;
  readonly perMm: number;
}

export interface SlopeWindowPlotProps {
  readonly opened: OpenedPull;
  readonly evaluation: Evaluation;
  /** As the entries say; null where they can't be read, and the fit of the evaluation is shown instead. */
  readonly window: SlopeWindowMpa | null;
  readonly onMove: (window: SlopeWindowMpa) => void;
  /** Let go of: now it is worth working out. */
  readonly onSettled: () => void;
}

/** Shown beyond the proof strength, as part of it. */
const ABOVE = 1.15;
const BEYOND = 1.8;
const KEY_STEP = 0.005;
const LONG_STEP = 10;
/** Of a strain in %: a ten-thousandth is 0.2 MPa of steel. */
const STRAIN_PLACES = 4;
/** Ends never meet: a fit needs a stretch. Part of the height of the picture. */
const APART = 0.01;

export function SlopeWindowPlot({ opened, evaluation, window, onMove, onSettled }: SlopeWindowPlotProps) {
  const text = words.value.evaluation;
  const placed = useSignal<Placed | null>(null);
  const system = units.value;
  const curve = useMemo(() => elasticCurve(opened, evaluation), [opened, evaluation, system, language.value]);
  const fit = evaluation.slope;
  const shownWindow = window ?? fit;
  if (curve === null || shownWindow === undefined) return null;
  const unit = plotUnits(system).stress;
  const range = elasticRange(curve, evaluation, unit);
  const drawing = (widthMm: number, heightMm: number) => {
    const input = {
      widthMm,
      heightMm,
      title: text.slopePlot,
      decimalSign: decimalSign(language.value),
      x: { ...curve.plot.x, range: range.x },
      y: { ...curve.plot.y, range: range.y },
      traces: [{ ...(curve.plot.traces[0] ?? { name: '', x: [], y: [], length: 0 }), index: curve.index }],
      lines: fit === undefined ? [] : [fittedLine(fit, range.y.max, unit)],
    };
    const made = plotLayout(input);
    const perMm = cssPxPerMm();
    // A window that is enlarged may keep the frame and change its print: the ends go with both.
    if (perMm !== placed.value?.perMm || !sameFrame(made, placed.value.layout))
      placed.value = { layout: made, perMm };
    return curvePlot(input, made);
  };
  return (
    <figure class="slope-window">
      <figcaption class="pencil small">{text.slopePlotHint}</figcaption>
      <DrawingCanvas
        class="slope-window-canvas"
        role="group"
        aria-label={text.slopePlot}
        changes={[curve, evaluation, language.value, decimalSign(language.value)]}
        drawing={drawing}
      >
        {(['upperMpa', 'lowerMpa'] as const).map((end) => (
          <End
            key={end}
            end={end}
            window={shownWindow}
            unit={unit}
            topMpa={convert(range.y.max, unit, 'MPa')}
            placed={placed}
            onMove={onMove}
            onSettled={onSettled}
          />
        ))}
      </DrawingCanvas>
      <WindowValues window={shownWindow} fit={fit} unit={unit} />
    </figure>
  );
}

/** Both ends of the stretch on the fitted line, and its foot; the slope itself stands among the results. */
function WindowValues({
  window,
  fit,
  unit,
}: {
  readonly window: SlopeWindowMpa;
  readonly fit: Evaluation['slope'];
  readonly unit: ReturnType<typeof plotUnits>['stress'];
}) {
  const text = words.value.evaluation;
  const row = (name: string, mpa: number) => ({
    name,
    cells: [
      fixed(convert(mpa, 'MPa', unit), placesOf(unit), language.value),
      fit === undefined
        ? '–'
        : fixed((fit.footStrain + mpa / fit.slopeMpa) * 100, STRAIN_PLACES, language.value),
    ],
  });
  return (
    <KeyValues
      id="slope-values"
      caption={text.slopePlot}
      columns={[`${words.value.look.axes.stress}, ${unit}`, text.slopeStrain]}
      rows={[
        row(text.slopeLower, window.lowerMpa),
        row(text.slopeUpper, window.upperMpa),
        ...(fit === undefined ? [] : [row(text.slopeFoot, 0)]),
      ]}
    />
  );
}

function End({
  end,
  window,
  unit,
  topMpa,
  placed,
  onMove,
  onSettled,
}: {
  readonly end: keyof SlopeWindowMpa;
  readonly window: SlopeWindowMpa;
  readonly unit: 'MPa' | 'ksi' | ReturnType<typeof plotUnits>['stress'];
  readonly topMpa: number;
  readonly placed: Signal<Placed | null>;
  readonly onMove: SlopeWindowPlotProps['onMove'];
  readonly onSettled: () => void;
}) {
  const text = words.value.evaluation;
  if (placed.value === null) return null;
  const { layout: made, perMm } = placed.value;
  const value = window[end];
  const shown = (mpa: number): number => convert(mpa, 'MPa', unit);
  const move = (mpa: number): void => {
    const apart = topMpa * APART;
    const held =
      end === 'lowerMpa'
        ? Math.min(Math.max(0, mpa), window.upperMpa - apart)
        : Math.min(Math.max(mpa, window.lowerMpa + apart), topMpa);
    onMove({ lowerMpa: window.lowerMpa, upperMpa: window.upperMpa, [end]: held });
  };
  const key = (event: TargetedKeyboardEvent<HTMLDivElement>): void => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const step = topMpa * KEY_STEP * (event.shiftKey ? LONG_STEP : 1);
    const to: Readonly<Record<string, number>> = {
      ArrowUp: value + step,
      ArrowRight: value + step,
      ArrowDown: value - step,
      ArrowLeft: value - step,
      PageUp: value + step * LONG_STEP,
      PageDown: value - step * LONG_STEP,
      Home: 0,
      End: topMpa,
    };
    const wanted = to[event.key];
    if (wanted === undefined) {
      if (event.key === 'Enter') onSettled();
      return;
    }
    event.preventDefault();
    move(wanted);
  };
  const drag = (event: TargetedPointerEvent<HTMLDivElement>): void => {
    if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
    const box = event.currentTarget.parentElement?.getBoundingClientRect();
    if (box === undefined) return;
    const { frame, y } = made;
    const part = 1 - ((event.clientY - box.top) / perMm - frame.y) / frame.height;
    move(convert(y.min + part * (y.max - y.min), unit, 'MPa'));
  };
  return (
    <div
      id={`slope-${end}`}
      class="slope-end"
      role="slider"
      tabIndex={0}
      aria-orientation="vertical"
      aria-label={end === 'lowerMpa' ? text.slopeLower : text.slopeUpper}
      aria-valuemin={0}
      aria-valuemax={Math.round(shown(topMpa))}
      aria-valuenow={Math.round(shown(value))}
      aria-valuetext={`${fixed(shown(value), placesOf(unit), language.value)} ${unit}`}
      style={{
        top: `${String(made.area.atY(shown(value)) * perMm)}px`,
        left: `${String(made.frame.x * perMm)}px`,
        width: `${String(made.frame.width * perMm)}px`,
      }}
      onKeyDown={key}
      onPointerDown={(event) => {
        event.preventDefault();
        event.currentTarget.focus();
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={drag}
      onPointerUp={onSettled}
    >
      <span>
        {fixed(shown(value), placesOf(unit), language.value)} {unit}
      </span>
    </div>
  );
}

/** Null where there is neither stress nor strain to draw. */
function elasticCurve(opened: OpenedPull, evaluation: Evaluation): OverlaidCurve | null {
  const kept = opened.kept.value;
  if (kept === null || opened.readings.columns.length === 0) return null;
  const outcome = overlaidCurve(
    {
      pullId: opened.pullId,
      name: kept.specimenName,
      curve: curveFrom(opened.readings.columns, kept.gaps),
      evaluation,
      from: kept.triggerSeq ?? 0,
    },
    'stress-strain',
    plotUnits(units.value),
    plotWords(words.value),
  );
  return outcome.ok ? outcome.curve : null;
}

/** From the foot of the curve to a little beyond the first yield. */
function elasticRange(
  { index, from, marks }: OverlaidCurve,
  { proofs }: Evaluation,
  unit: ReturnType<typeof plotUnits>['stress'],
) {
  const { x, y } = index.source;
  const at = marks.proof ?? marks.upperYield ?? marks.maximumForce ?? index.source.length - 1;
  const begun = Math.min(0, x[from] ?? 0);
  const span = Math.max((x[at] ?? 1) - begun, 1e-3);
  const top = Math.max(
    y[at] ?? 0,
    y[marks.upperYield ?? at] ?? 0,
    convert(proofs[0]?.stressMpa ?? 0, 'MPa', unit),
    1e-3,
  );
  return { x: { min: begun, max: begun + span * BEYOND }, y: { min: 0, max: top * ABOVE } };
}

function fittedLine(
  { footStrain, slopeMpa }: NonNullable<Evaluation['slope']>,
  top: number,
  unit: ReturnType<typeof plotUnits>['stress'],
): PlotLine {
  const foot = footStrain * 100;
  return { x1: foot, y1: 0, x2: foot + (convert(top, unit, 'MPa') / slopeMpa) * 100, y2: top };
}

function sameFrame(a: PlotLayout, b: PlotLayout): boolean {
  return (
    a.frame.x === b.frame.x &&
    a.frame.y === b.frame.y &&
    a.frame.width === b.frame.width &&
    a.frame.height === b.frame.height &&
    a.y.max === b.y.max &&
    a.x.max === b.x.max
  );
}
