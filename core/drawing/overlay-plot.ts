/** Curves of several pulls in one picture: aligned as asked, each with its marks, the chosen one above the others. */
import { type Alignment, alignmentShift } from '../curve/align.ts';
import { CORNERS_OF_ONE_MAX, CurveIndex, type Extent } from '../curve/curve-index.ts';
import type { Curve } from '../curve/curve.ts';
import { type DifferenceOutcome, differenceOf } from '../curve/difference.ts';
import { factorToCore } from '../quantity/units.ts';
import type { Evaluation } from '../results/evaluation.ts';
import type { ReadingsOrigin } from '../pull/readings-origin.ts';
import { PENS, type Pen, penOf } from './pens.ts';
import type { CurvePlotInput, PlotLine, PlotMark, PlotRange } from './plot-input.ts';
import {
  type PlotUnits,
  type PullPlot,
  type PullPlotForm,
  type PullPlotLack,
  type PullPlotWords,
  channelAlong,
  pullPlot,
} from './pull-plot.ts';

/** Curves laid over each other at most: as many as pens tell apart, in a grey print too. */
export const OVERLAY_CURVES_MAX = PENS;
/** Readings of all curves together: some 30 bytes each are held, and twice that while a picture is made. */
export const OVERLAY_READINGS_MAX = 8_000_000;
/** Corner points of all curves together on a screen; each has its share, extremes kept. */
const SCREEN_CORNERS_MAX = 48_000;
const CORNERS_MIN = 400;
/** Times as wide as the others' pens. */
const ABOVE_WIDTH = 2.2;
/** From so many on the others are thinner, and only the chosen one has its offset line: theirs would be a hatching. */
export const CROWD_CURVES_MIN = 13;
const CROWD_WIDTH = 0.65;
/** Words at the marks of several curves say not whose they are: with more than this only the chosen one has any. */
const WORDED_CURVES_MAX = 1;

export interface OverlayPull {
  readonly pullId: number;
  readonly name: string;
  readonly curve: Curve;
  /** Null where it could not be evaluated. */
  readonly evaluation: Evaluation | null;
  /** Reading at which the pull began. */
  readonly from: number;
  /** Absent where a specimen gave the readings. */
  readonly origin?: ReadingsOrigin | undefined;
  /** Its extremes only, while its readings are still read: for a picture on a screen, and for no figure. */
  readonly isOutline?: boolean;
}

/** A pull in the form of the picture. */
export interface OverlaidCurve {
  readonly pullId: number;
  readonly name: string;
  readonly plot: PullPlot;
  readonly index: CurveIndex;
  readonly length: number;
  readonly from: number;
  readonly origin: ReadingsOrigin | undefined;
  readonly isOutline: boolean;
  readonly gaps: readonly number[];
  readonly marks: Evaluation['marks'];
  /** In the unit of x. */
  readonly elasticZeroX: number | undefined;
}

export type OverlaidOutcome =
  | { readonly ok: true; readonly curve: OverlaidCurve }
  | { readonly ok: false; readonly code: PullPlotLack | 'no-readings'; readonly reason: string };

const NOT_EVALUATED: Evaluation = {
  results: [],
  withheld: [],
  proofs: [],
  marks: {},
  remarks: [],
  methodVersion: '',
};

/** Where the pull can't give the picture asked for, what it lacks is handed back. */
export function overlaidCurve(
  { pullId, name, curve, evaluation, from, origin, isOutline = false }: OverlayPull,
  form: PullPlotForm,
  units: PlotUnits,
  words?: PullPlotWords,
): OverlaidOutcome {
  const outcome = pullPlot({
    name,
    curve,
    evaluation: evaluation ?? NOT_EVALUATED,
    form,
    units,
    ...(words === undefined ? {} : { words }),
  });
  if (!outcome.ok) return outcome;
  const [trace] = outcome.plot.traces;
  if (trace === undefined || trace.length <= from)
    return { ok: false, code: 'no-readings', reason: 'The pull has no readings to draw.' };
  const gaps = (trace.gaps ?? []).filter((at) => at > from);
  const index = new CurveIndex({ length: trace.length, x: trace.x, y: trace.y, from, lifts: gaps });
  return {
    ok: true,
    curve: {
      pullId,
      name,
      plot: outcome.plot,
      index,
      length: trace.length,
      from,
      origin,
      isOutline,
      gaps,
      marks: evaluation?.marks ?? {},
      elasticZeroX: evaluation === null ? undefined : elasticZero(curve, evaluation, form, units, from),
    },
  };
}

/** Where the elastic line meets zero; over time, when the strain first passed that place. */
function elasticZero(
  curve: Curve,
  { slope, strain }: Evaluation,
  form: PullPlotForm,
  units: PlotUnits,
  from: number,
): number | undefined {
  if (slope === undefined || strain === undefined) return undefined;
  if (form === 'stress-strain') return slope.footStrain * 100;
  const footMm = slope.footStrain * strain.lengthMm;
  const along = { extension: curve.extensionMm, strain: curve.strainRatio, travel: curve.travelMm }[
    strain.channel
  ];
  if (form === 'load-extension')
    // A picture over the extension has no place for a foot that was found on the travel.
    return strain.channel === channelAlong(curve) ? footMm / factorToCore(units.length) : undefined;
  if (along === undefined || curve.timeS === undefined) return undefined;
  const passed = alignmentShift(
    { length: slope.fromIndex + 1, x: curve.timeS, y: along, from },
    { kind: 'load', load: footMm },
  );
  return passed.ok ? -passed.shift : undefined;
}

export interface AlignedCurve extends OverlaidCurve {
  readonly shift: number;
  /** Why it stands as recorded although another alignment was asked for. */
  readonly notAligned: string | null;
}

export function aligned(curve: OverlaidCurve, alignment: Alignment): AlignedCurve {
  const { x, y } = curve.index.source;
  const outcome = alignmentShift(
    { length: curve.length, x, y, from: curve.from, elasticZeroX: curve.elasticZeroX },
    alignment,
  );
  return outcome.ok
    ? { ...curve, shift: outcome.shift, notAligned: null }
    : { ...curve, shift: 0, notAligned: outcome.reason };
}

const ROOM = 0.04;
const BARE: PlotRange = { x: { min: 0, max: 1 }, y: { min: 0, max: 1 } };

/** Everything of these curves, with a little room about it. */
export function wholeRange(curves: readonly AlignedCurve[]): PlotRange {
  const x = { least: 0, most: -Infinity };
  const y = { least: 0, most: -Infinity };
  for (const { index, shift } of curves) {
    const extent = index.extent;
    if (extent === null) continue;
    widen(x, { least: extent.x.least + shift, most: extent.x.most + shift });
    widen(y, extent.y);
  }
  if (x.most === -Infinity) return BARE;
  return { x: withRoom(x), y: withRoom(y) };
}

function widen(range: { least: number; most: number }, by: Extent): void {
  range.least = Math.min(range.least, by.least);
  range.most = Math.max(range.most, by.most);
}

function withRoom({ least, most }: Extent): { min: number; max: number } {
  const span = most - least || 1;
  return { min: least < 0 ? least - ROOM * span : 0, max: most + ROOM * span };
}

export interface OverlayPictureInput {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly title: string;
  readonly curves: readonly AlignedCurve[];
  /** Beside every curve that no specimen gave. */
  readonly originMarks: Readonly<Record<ReadingsOrigin, string>>;
  /** Number of each curve's pen, by pull: it keeps its pen when another is hidden. */
  readonly penOf: (pullId: number) => number;
  /** The pull that is drawn above the others, with words at its marks. */
  readonly chosen: number | null;
  readonly range: PlotRange;
  readonly decimalSign: '.' | ',';
  /** Names beside the picture rather than in it, and no more corner points than a screen shows. */
  readonly onScreen: boolean;
}

/** The chosen one comes last, and so above the others. */
export function overlayPlot({
  curves,
  chosen,
  range,
  onScreen,
  originMarks,
  ...paper
}: OverlayPictureInput): CurvePlotInput {
  const order = [...curves].sort((a, b) => Number(a.pullId === chosen) - Number(b.pullId === chosen));
  const first = order[0]?.plot;
  const isCrowd = curves.length >= CROWD_CURVES_MIN;
  const pens = order.map(({ pullId }) =>
    penFor(
      paper.penOf(pullId),
      pullId === chosen && curves.length > 1 ? ABOVE_WIDTH : isCrowd ? CROWD_WIDTH : 1,
    ),
  );
  const isWorded = (pullId: number): boolean => pullId === chosen || curves.length <= WORDED_CURVES_MAX;
  return {
    widthMm: paper.widthMm,
    heightMm: paper.heightMm,
    title: paper.title,
    decimalSign: paper.decimalSign,
    x: { title: first?.x.title ?? '', unit: first?.x.unit ?? '', range: range.x },
    y: { title: first?.y.title ?? '', unit: first?.y.unit ?? '', range: range.y },
    ...(onScreen
      ? {
          legend: false,
          cornersMax: Math.min(
            CORNERS_OF_ONE_MAX,
            Math.max(CORNERS_MIN, Math.floor(SCREEN_CORNERS_MAX / Math.max(1, order.length))),
          ),
        }
      : { legend: true }),
    traces: order.map(({ name, index, length, gaps, shift, origin }, i) => ({
      name,
      ...(origin === undefined ? {} : { mark: originMarks[origin] }),
      x: index.source.x,
      y: index.source.y,
      length,
      gaps,
      shift,
      index,
      ...(pens[i] === undefined ? {} : { pen: pens[i] }),
    })),
    lines: order.flatMap(({ plot, shift, pullId }) =>
      (isCrowd && pullId !== chosen ? [] : (plot.lines ?? [])).map(({ words, ...line }): PlotLine => ({
        ...line,
        x1: line.x1 + shift,
        x2: line.x2 + shift,
        ...(words === undefined || !isWorded(pullId) ? {} : { words }),
      })),
    ),
    marks: order.flatMap(({ plot, shift, pullId }, i) =>
      (plot.marks ?? []).map((mark): PlotMark => ({
        ...mark,
        x: mark.x + shift,
        colour: pens[i]?.stroke.colour ?? '#15191c',
        words: isWorded(pullId) ? mark.words : '',
      })),
    ),
  };
}

function penFor(number: number, times: number): Pen {
  const pen = penOf(number);
  return { ...pen, stroke: { ...pen.stroke, widthMm: pen.stroke.widthMm * times } };
}

/** y of the first less y of the second, as they are aligned. */
export function overlayDifference(first: AlignedCurve, second: AlignedCurve): DifferenceOutcome {
  const source = ({ index, length, from, shift, gaps }: AlignedCurve) => ({
    length: length - from,
    x: Float64Array.from(index.source.x).subarray(from),
    y: Float64Array.from(index.source.y).subarray(from),
    shift,
    lifts: gaps.map((at) => at - from),
  });
  return differenceOf(source(first), source(second));
}
