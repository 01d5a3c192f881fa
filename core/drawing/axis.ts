/** One axis: range from the data to whole scale lines, places on paper, texts of the scale. */
import { MAIN_LINES_MM, tickPlaces, tickStep, ticks } from './axis-ticks.ts';

export interface AxisInput {
  /** "extension", "stress", … */
  readonly title: string;
  readonly unit: string;
  /** Fixed ends; found from the data where absent. */
  readonly range?: { readonly min: number; readonly max: number };
  /** Zero is kept in the picture; default true. False for results, whose scatter would be squashed. */
  readonly fromZero?: boolean;
  /** It counts things: scale lines at whole numbers alone. */
  readonly counts?: boolean;
  /** Scale lines with texts of their own: dates, names. */
  readonly ticks?: readonly { readonly value: number; readonly text: string }[];
}

export interface Axis {
  readonly min: number;
  readonly max: number;
  readonly ticks: readonly { readonly value: number; readonly text: string }[];
  /** "extension in mm" */
  readonly title: string;
}

/** Values closer together than this are drawn as zero: no unit of ours measures so little. */
const RANGE_MIN = 1e-9;

/** `least` and `most` of the data; zero is kept in the picture where the data lie on one side of it. */
export function axisOf(
  { title, unit, range, fromZero = true, counts = false, ticks: own }: AxisInput,
  data: { readonly least: number; readonly most: number },
  { lengthMm, runs }: { readonly lengthMm: number; readonly runs: keyof typeof MAIN_LINES_MM },
  decimalSign: '.' | ',',
): Axis {
  const wanted = Math.max(2, Math.round(lengthMm / MAIN_LINES_MM[runs]));
  const { min, max } = range ?? dataRange(data, wanted, fromZero);
  const step = Math.max(tickStep(min, max, wanted), counts ? 1 : 0);
  const places = tickPlaces(step);
  return {
    min,
    max,
    ticks:
      own ?? ticks(min, max, step).map((value) => ({ value, text: scaleText(value, places, decimalSign) })),
    title: unit === '1' || unit === '' ? title : axisTitle(title, unit),
  };
}

/** "force in N", "extension in inches". */
export const axisTitle = (name: string, unit: string): string =>
  `${name} in ${unit === 'in' ? 'inches' : unit}`;

function dataRange(
  { least, most }: { least: number; most: number },
  wanted: number,
  fromZero: boolean,
): { min: number; max: number } {
  if (!Number.isFinite(least) || !Number.isFinite(most)) return { min: 0, max: 1 };
  const low = fromZero ? Math.min(0, least) : least;
  const high = fromZero ? Math.max(0, most) : most;
  // A picture of equal values lies in the middle of one step about them.
  if (high - low < RANGE_MIN)
    return fromZero || low === 0
      ? { min: 0, max: 1 }
      : dataRange({ least: Math.min(0, low * 2), most: Math.max(0, low * 2) }, wanted, true);
  const step = tickStep(low, high, wanted);
  return { min: Math.floor(low / step + 1e-9) * step, max: Math.ceil(high / step - 1e-9) * step };
}

function scaleText(value: number, places: number, decimalSign: '.' | ','): string {
  const text = (value === 0 ? 0 : value)
    .toFixed(places)
    .replace('-', '−')
    .replace(/\d{5,}/, (whole, at: number, all: string) =>
      all[at - 1] === '.' ? whole : whole.replace(/\B(?=(?:\d{3})+$)/g, ' '),
    );
  return decimalSign === ',' ? text.replace('.', ',') : text;
}
