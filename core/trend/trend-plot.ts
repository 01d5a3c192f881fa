/** Results of many pulls as a picture: points over date or group, or one after the other with the lines of the chart. */
import type { AxisInput } from '../drawing/axis.ts';
import type { CurvePlotInput, PlotLine } from '../drawing/plot-input.ts';
import { READINGS_ORIGINS, type ReadingsOrigin } from '../pull/readings-origin.ts';
import { type IndividualsWords, individualsPlot, scatterPlot } from '../drawing/scatter-plot.ts';
import type { IndividualsChart } from '../statistics/individuals-chart.ts';
import { meanOf } from '../statistics/summary.ts';
import {
  NOT_JUDGED,
  type NotJudged,
  type TrendGrouping,
  type TrendPull,
  type TrendQuantity,
  type TrendRules,
} from './trend-pull.ts';

/** Groups beside each other; more names can't be read. */
export const TREND_GROUPS_MAX = 30;
/** Values outside the lines that have their name in the picture, the furthest of them; the figures count all. */
const OUTSIDE_MARKED_MAX = 40;
const DAY_MS = 86_400_000;
/** Dates written at the axis at most. */
const DATES_MAX = 7;
/** Points of a group are spread over this part of its place, so that equal values don't lie on each other. */
const SPREAD = 0.5;

export interface TrendWords extends IndividualsWords {
  readonly date: string;
  readonly group: Readonly<Record<Exclude<TrendGrouping, 'date'>, string>>;
  /** In place of a group's name where nothing is written. */
  readonly notWritten: string;
}

export interface TrendPicture {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly title: string;
  /** Name and unit. */
  readonly axis: string;
  readonly decimalSign: '.' | ',';
  /** Of MPa or % into what is shown. */
  readonly shown: (value: number) => number;
  /** Null where the rules ask for nothing. */
  readonly minimum: { readonly value: number; readonly words: string } | null;
  readonly words: TrendWords;
}

export interface TrendPoint {
  readonly pull: TrendPull;
  readonly value: number;
}

/** As ISO 8601 writes it, by the clock of the place, like the axis and the filter by date. */
export const dayOf = ({ clockMs }: Pick<TrendPull, 'clockMs'>): string =>
  new Date(clockMs).toISOString().slice(0, 10);

/** Those that give the quantity, in the order of pulling. */
export function trendPoints(pulls: readonly TrendPull[], quantity: TrendQuantity): TrendPoint[] {
  return pulls
    .flatMap((pull) => {
      const value = pull.values[quantity];
      return value === undefined ? [] : [{ pull, value }];
    })
    .sort((a, b) => a.pull.clockMs - b.pull.clockMs || a.pull.pullId - b.pull.pullId);
}

/** Places of the points that the rules found short. */
export const belowMinimum = (points: readonly TrendPoint[], { isShort }: TrendRules): number[] =>
  points.flatMap(({ pull }, place) => (isShort.get(pull) === true ? [place] : []));

/** Those that were compared with nothing, by the reason, in the order of the reasons. */
export const notJudgedBy = (
  points: readonly TrendPoint[],
  { whyNot }: TrendRules,
): { readonly why: NotJudged; readonly places: readonly number[] }[] =>
  NOT_JUDGED.map((why) => ({
    why,
    places: points.flatMap(({ pull }, place) => (whyNot.get(pull) === why ? [place] : [])),
  })).filter(({ places }) => places.length > 0);

/** The least of what is asked for, as the one line of a picture; where others ask for more the words say so. */
export function minimumLine(
  { minima: [least, ...others] }: TrendRules,
  words: { readonly alone: (value: number) => string; readonly leastOf: (value: number) => string },
): { readonly value: number; readonly words: string } | null {
  if (least === undefined) return null;
  const { value } = least;
  return { value, words: (others.length === 0 ? words.alone : words.leastOf)(value) };
}

export interface TrendGroup {
  readonly name: string;
  readonly points: readonly TrendPoint[];
  readonly mean: number;
}

/** The largest first; at most TREND_GROUPS_MAX. */
export function trendGroups(
  points: readonly TrendPoint[],
  by: Exclude<TrendGrouping, 'date'>,
): { readonly groups: readonly TrendGroup[]; readonly leftOut: number } {
  const found = new Map<string, TrendPoint[]>();
  for (const point of points) {
    const its = found.get(point.pull[by]);
    if (its === undefined) found.set(point.pull[by], [point]);
    else its.push(point);
  }
  const groups = [...found]
    .map(([name, its]) => ({ name, points: its, mean: meanOf(its.map(({ value }) => value)) }))
    .sort((a, b) => b.points.length - a.points.length || (a.name < b.name ? -1 : 1));
  return {
    groups: groups.slice(0, TREND_GROUPS_MAX),
    leftOut: Math.max(0, groups.length - TREND_GROUPS_MAX),
  };
}

/** Points whose readings no frame gave, by where they came from, as places: such values are told wherever they are. */
export const placesByOrigin = (
  points: readonly TrendPoint[],
): { readonly origin: ReadingsOrigin; readonly places: readonly number[] }[] =>
  READINGS_ORIGINS.flatMap((origin) => {
    const places = points.flatMap(({ pull }, place) => (pull.readings === origin ? [place] : []));
    return places.length === 0 ? [] : [{ origin, places }];
  });

/** The name of an axis with the marks of what is drawn on it: "Rm in MPa · SIMULATED". */
export const markedAxis = (
  axis: string,
  points: readonly TrendPoint[],
  markOf: (origin: ReadingsOrigin) => string,
): string => [axis, ...placesByOrigin(points).map(({ origin }) => markOf(origin))].join(' · ');

/** Points over the day, or over the name of their group with its mean. */
export function trendPlot(
  points: readonly TrendPoint[],
  by: TrendGrouping,
  picture: TrendPicture,
): CurvePlotInput {
  const { shown, words, axis, widthMm, heightMm, title, decimalSign } = picture;
  const base = { widthMm, heightMm, title, decimalSign, y: { title: axis, unit: '' } };
  if (by === 'date') {
    const days = points.map(({ pull }) => pull.clockMs / DAY_MS);
    const x = dateAxis(words.date, days);
    return scatterPlot(
      { ...base, x },
      [
        {
          name: picture.title,
          x: days,
          y: points.map(({ value }) => shown(value)),
        },
      ],
      acrossMinimum(picture, x.range.min, x.range.max),
    );
  }
  const { groups } = trendGroups(points, by);
  const range = { min: 0.4, max: groups.length + 0.6 };
  return scatterPlot(
    {
      ...base,
      legend: false,
      x: {
        title: words.group[by],
        unit: '',
        range,
        ticks: groups.map(({ name, points: its }, i) => ({
          value: i + 1,
          text: `${shortened(name === '' ? words.notWritten : name)} (${String(its.length)})`,
        })),
      },
    },
    groups.map(({ name, points: its }, i) => ({
      name: name === '' ? words.notWritten : name,
      x: its.map((_, k) => i + 1 + SPREAD * ((k + 0.5) / its.length - 0.5)),
      y: its.map(({ value }) => shown(value)),
    })),
    [
      ...acrossMinimum(picture, range.min, range.max),
      ...groups.map(({ mean }, i): PlotLine => ({
        x1: i + 0.7,
        y1: shown(mean),
        x2: i + 1.3,
        y2: shown(mean),
      })),
    ],
  );
}

/** One value after the other with mean, three-sigma lines and minimum. */
export function trendChart(
  points: readonly TrendPoint[],
  chart: IndividualsChart,
  { shown, words, axis, minimum, widthMm, heightMm, title, decimalSign }: TrendPicture,
): CurvePlotInput {
  const plot = individualsPlot(
    { widthMm, heightMm, title, decimalSign, y: { title: axis, unit: '' } },
    {
      name: title,
      values: points.map(({ value }) => shown(value)),
      // The lines of the chart are straight through: shown values have shown lines.
      chart: {
        ...chart,
        mean: shown(chart.mean),
        upperLine: shown(chart.upperLine),
        lowerLine: shown(chart.lowerLine),
      },
      minima: minimum === null ? [] : [{ ...minimum, value: shown(minimum.value) }],
      words,
    },
  );
  const away = (place: number): number => Math.abs((points[place]?.value ?? Number.NaN) - chart.mean);
  const furthest = chart.outside.toSorted((a, b) => away(b) - away(a)).slice(0, OUTSIDE_MARKED_MAX);
  return {
    ...plot,
    marks: furthest
      .toSorted((a, b) => a - b)
      .map((place) => ({
        x: place + 1,
        y: shown(points[place]?.value ?? Number.NaN),
        words: points[place]?.pull.name ?? '',
      })),
  };
}

function acrossMinimum({ minimum, shown }: TrendPicture, from: number, to: number): PlotLine[] {
  if (minimum === null) return [];
  const y = shown(minimum.value);
  return [{ x1: from, y1: y, x2: to, y2: y, words: minimum.words }];
}

const NAME_LENGTH_AT_AXIS = 14;
const shortened = (name: string): string =>
  name.length > NAME_LENGTH_AT_AXIS ? `${name.slice(0, NAME_LENGTH_AT_AXIS - 1)}…` : name;

/** Part of the stretch of days left at either end, so that the date written under the last day is not cut. */
const DATE_ROOM = 0.06;

/** Whole days, as ISO 8601 writes them. */
function dateAxis(
  title: string,
  days: readonly number[],
): AxisInput & { readonly range: { min: number; max: number } } {
  const first = Math.floor(days.reduce((a, b) => Math.min(a, b), Infinity));
  const last = Math.ceil(days.reduce((a, b) => Math.max(a, b), -Infinity));
  if (!Number.isFinite(first)) return { title, unit: '', range: { min: 0, max: 1 }, ticks: [] };
  const end = Math.max(last, first + 1);
  const step = Math.max(1, Math.ceil((end - first) / DATES_MAX));
  const room = (end - first) * DATE_ROOM;
  return {
    title,
    unit: '',
    range: { min: first - room, max: end + room },
    ticks: Array.from({ length: Math.floor((end - first) / step) + 1 }, (_, i) => ({
      value: first + i * step,
      text: dayOf({ clockMs: (first + i * step) * DAY_MS }),
    })),
  };
}
