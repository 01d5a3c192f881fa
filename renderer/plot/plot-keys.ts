/** What a key asks of the cursor of a plot: one table for every plot that is read out point by point. Pure. */

/** Points that Shift with an arrow key goes on by. */
const LONG_STEP = 10;

type Place = 'first' | 'last' | 'peak' | 'yield' | 'break';

export type CursorKey =
  | { readonly kind: 'walk'; readonly steps: number }
  | { readonly kind: 'stand'; readonly on: Place }
  | { readonly kind: 'away' };

type Pressed = Pick<KeyboardEvent, 'key' | 'shiftKey' | 'ctrlKey' | 'altKey' | 'metaKey'>;

const STEPS: ReadonlyMap<string, number> = new Map([
  ['ArrowRight', 1],
  ['ArrowUp', 1],
  ['ArrowLeft', -1],
  ['ArrowDown', -1],
]);
const LONG_STEPS: ReadonlyMap<string, number> = new Map([
  ['PageUp', LONG_STEP],
  ['PageDown', -LONG_STEP],
]);
const PLACES = new Map([
  ['home', 'first'],
  ['end', 'last'],
  ['p', 'peak'],
  ['y', 'yield'],
  ['b', 'break'],
] as const);

/** Null for a key that means nothing to a cursor; with Ctrl, Alt or Cmd a key belongs to the page, or moves the picture. */
export function cursorKey({ key, shiftKey, ctrlKey, altKey, metaKey }: Pressed): CursorKey | null {
  if (ctrlKey || altKey || metaKey) return null;
  const step = STEPS.get(key);
  if (step !== undefined) return { kind: 'walk', steps: shiftKey ? step * LONG_STEP : step };
  const far = LONG_STEPS.get(key);
  if (far !== undefined) return { kind: 'walk', steps: far };
  if (key === 'Escape') return { kind: 'away' };
  const on = (PLACES as ReadonlyMap<string, Place>).get(key.toLowerCase());
  return on === undefined ? null : { kind: 'stand', on };
}

/** The place that many steps further among so many, kept inside; from nowhere the first step stands on an end. */
export function walkedTo(here: number, steps: number, count: number): number {
  const to = here < 0 ? (steps < 0 ? count - 1 : 0) : here + steps;
  return Math.min(Math.max(to, 0), count - 1);
}
