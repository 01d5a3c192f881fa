/** What a plot shows, as data: one curve, marks on it, gaps, and construction lines. All in display units. */
import type { MarkSign } from '../../core/drawing/mark-sign.ts';
import type { PlotGap, PlotLine, PlotRange } from '../../core/drawing/plot-input.ts';
import type { CurveInk } from '../design/palette.ts';
import type { TraceSource } from './trace.ts';

export interface PlotMark {
  readonly sign: MarkSign;
  /** Reading that it stands on; it is left out where the reading has no value on this plot. */
  readonly reading: number;
  /** Written beside it; blank marks have a sign only. */
  readonly label: string;
}

export interface PlotPicture {
  readonly source: TraceSource;
  readonly ink: CurveInk;
  readonly marks: readonly PlotMark[];
  readonly gaps: readonly PlotGap[];
  readonly lines: readonly PlotLine[];
  readonly xRange: PlotRange['x'];
  readonly yRange: PlotRange['y'];
  /** Only a part of the curve is in these ranges: it is drawn as closely as that part can be. */
  readonly isPart?: boolean;
  readonly xLabel: string;
  readonly yLabel: string;
  /** Decimal sign and groups by language. */
  readonly tickText: (value: number, places: number) => string;
}
