/** Pens for curves on paper: each differs from the others by dash and marker, so that a grey print tells them apart. */
import type { MarkerForm, Stroke } from './drawing.ts';

export interface Pen {
  readonly stroke: Stroke;
  readonly marker: MarkerForm;
  readonly markerFill: MarkerFill;
}

/** A marker's inside: the ground, or the pen's own colour. */
export type MarkerFill = 'ground' | 'pen';

/** Dark enough on white paper for lines (3 : 1 and more). */
const COLOURS = ['#15191c', '#8f3d12', '#1a6cc0', '#5b1f8c', '#8a6700', '#59646d'] as const;
const DASHES: readonly (readonly number[] | null)[] = [
  null,
  [3, 1],
  [0.6, 0.8],
  [4, 1, 0.6, 1],
  [1.6, 1.6],
  [5, 1.2, 0.6, 0.8, 0.6, 1.2],
];
const MARKERS: readonly MarkerForm[] = ['circle', 'square', 'triangle', 'diamond', 'plus', 'cross'];
/** Plus and cross have no inside. */
const FILLABLE: readonly MarkerForm[] = ['circle', 'square', 'triangle', 'diamond'];
const CURVE_WIDTH_MM = 0.35;
const WIDE_CURVE_MM = 0.75;

const ROUNDS = MARKERS.length + FILLABLE.length;
/** How many pens are told apart without colour: every dash with every marker, those with an inside twice, in two widths. */
export const PENS = 2 * DASHES.length * ROUNDS;

/** The pen of the curve with this number, from 0; after PENS they repeat. */
export function penOf(number: number): Pen {
  const dash = DASHES[number % DASHES.length] ?? null;
  // Shifted by one each round, so that a dash meets another marker in the next.
  const round = Math.floor(number / DASHES.length) % ROUNDS;
  const isFilled = round >= MARKERS.length;
  const forms = isFilled ? FILLABLE : MARKERS;
  const isWide = number % PENS >= PENS / 2;
  return {
    stroke: {
      colour: COLOURS[number % COLOURS.length] ?? COLOURS[0],
      widthMm: isWide ? WIDE_CURVE_MM : CURVE_WIDTH_MM,
      ...(dash === null ? {} : { dashMm: dash }),
    },
    marker: forms[(number + round) % forms.length] ?? 'circle',
    markerFill: isFilled ? 'pen' : 'ground',
  };
}

/** What is inside its marker. */
export const markerFillOf = ({ markerFill, stroke }: Pen): string =>
  markerFill === 'pen' ? stroke.colour : PAPER;

export const PAPER = '#ffffff';
export const INK = '#15191c';
export const EDGE = '#6b747b';
export const PURPLE = '#5b1f8c';
export const BRONZE = '#8f3d12';
export const CHERRY = '#b3150c';
export const CALL = '#e9b83a';
export const FOCUS = '#0a5ab4';
export const PENCIL = '#495158';
export const FRAME: Stroke = { colour: INK, widthMm: 0.3 };
export const GRID: Stroke = { colour: '#c9cec9', widthMm: 0.12 };
export const HELP_LINE: Stroke = { colour: INK, widthMm: 0.2, dashMm: [1.6, 0.8] };
export const GAP_HATCH: Stroke = { colour: EDGE, widthMm: 0.2 };
export const GAP_LINE: Stroke = { colour: PENCIL, widthMm: 0.2, dashMm: [0.4, 0.6] };
