/** What a mark on a curve says by its shape, beside its word: the same on screen and on paper. */
import type { MarkerForm } from './drawing.ts';
import { BRONZE, CALL, CHERRY, FOCUS, INK, PURPLE } from './pens.ts';

/** `yield`: any yield or proof point; `now`: the present reading of a pull; `point`: the one that is read out. */
export const MARK_SIGNS = ['start', 'yield', 'peak', 'break', 'stop', 'now', 'point'] as const;
export type MarkSign = (typeof MARK_SIGNS)[number];

interface SignLook {
  readonly form: MarkerForm;
  readonly sizeMm: number;
  readonly strokeMm: number;
  readonly colour: string;
  readonly fill: string;
  /** How far above its reading the sign stands. */
  readonly upMm: number;
}

const sign = (
  form: MarkerForm,
  sizeMm: number,
  strokeMm: number,
  colour: string,
  fill = 'none',
): SignLook => ({
  form,
  sizeMm,
  strokeMm,
  colour,
  fill,
  upMm: form === 'pointer' ? sizeMm / 2 : 0,
});

export const SIGN_LOOKS: Readonly<Record<MarkSign, SignLook>> = {
  start: sign('plus', 2.6, 0.36, INK),
  yield: sign('plus', 2.6, 0.36, INK),
  peak: sign('pointer', 2.8, 0.1, PURPLE, PURPLE),
  break: sign('cross', 2.4, 0.55, CHERRY),
  stop: sign('square', 2.4, 0.5, BRONZE),
  now: sign('circle', 2.6, 0.5, INK, CALL),
  point: sign('target', 5.6, 0.5, FOCUS),
};
