/**
 * Choices that can be taken back: drafts of forms, what is shown of what was found, how the page shows it. One way for
 * all: Ctrl+Z takes the last one of the present view back, Ctrl+Shift+Z (or Ctrl+Y) brings it again. Nothing recorded or kept ever comes here.
 */
import { type Signal, batch, effect, signal, untracked } from '@preact/signals';
import { useLayoutEffect } from 'preact/hooks';
import type { Words } from '../words/en.ts';

/** Steps that are remembered for each view; the oldest is forgotten first. */
const STEPS_MAX = 100;
/** What is typed within this time counts as one step. */
const TYPING_MS = 800;

/** What makes up one step of a view: the values of its signals. */
type Values = readonly unknown[];

/** What a choice is called where it is offered to be taken back. */
export type ChoiceName = keyof Words['undo']['what'];
/** Choices of one view, each by its name. */
type Choices = Readonly<Partial<Record<ChoiceName, Signal<never> | Signal<unknown>>>>;
/** Names one of several choices that one signal holds, by its values before and after. */
export type NameWithin = (before: unknown, after: unknown) => ChoiceName;

export interface StepMeans {
  readonly nowMs: () => number;
  /** True while signs are typed one after the other. */
  readonly isTyping: () => boolean;
}

const OF_THE_PAGE: StepMeans = {
  nowMs: () => performance.now(),
  isTyping: () => typeof document !== 'undefined' && isTextEntry(document.activeElement),
};

interface StepOptions {
  readonly means?: StepMeans;
  /** Names the choice where one signal holds several. */
  readonly within?: NameWithin;
  /** Called when one was taken back or brought again: what was worked out from it is worked out anew. */
  readonly onTaken?: () => void;
}

/** In one, the keys take back what was typed there, as anywhere. */
export const isTextEntry = (target: EventTarget | null): boolean =>
  target instanceof HTMLTextAreaElement ||
  (target instanceof HTMLInputElement && !['radio', 'checkbox'].includes(target.type));

interface Step {
  readonly values: Values;
  /** Counts up: of two groups that are shown, the one that was changed last is first. */
  readonly at: number;
}

interface Followed {
  readonly signals: readonly Signal<unknown>[];
  /** Of each signal: its choice's name, or how the choice within it is named. */
  readonly names: readonly (ChoiceName | NameWithin)[];
  readonly isShown: () => boolean;
  readonly onTaken: (() => void) | undefined;
  back: readonly Step[];
  forth: readonly Step[];
  now: Values;
  changedMs: number;
}

const followed = signal<readonly Followed[]>([]);
/** Grows when there are other steps than before. */
const stepsStand = signal(0);
const stepsChanged = (): void => void (stepsStand.value = stepsStand.peek() + 1);
let restoring = false;
let lastStep = 0;
const withStep = (steps: readonly Step[], values: Values): readonly Step[] =>
  [...steps, { values, at: ++lastStep }].slice(-STEPS_MAX);

/**
 * Remembers what these signals held, from now on. Values must be replaced, never changed in place; what one act changes is
 * changed in one batch. `isShown` says whether they are those of the view that is seen. Returns what stops it.
 */
export function rememberSteps(
  choices: Choices,
  isShown: () => boolean,
  { means: { nowMs, isTyping } = OF_THE_PAGE, within, onTaken }: StepOptions = {},
): () => void {
  const all = Object.values(choices) as readonly Signal<unknown>[];
  const its: Followed = {
    signals: all,
    names: (Object.keys(choices) as ChoiceName[]).map((name) => within ?? name),
    isShown,
    onTaken,
    back: [],
    forth: [],
    now: all.map((one) => one.peek()),
    changedMs: Number.NEGATIVE_INFINITY,
  };
  followed.value = [...followed.peek(), its];
  const end = effect(() => {
    const values = all.map((one) => one.value);
    if (values.every((value, i) => Object.is(value, its.now[i]))) return;
    const before = its.now;
    its.now = values;
    if (restoring) return;
    const at = nowMs();
    if (!isTyping() || at - its.changedMs > TYPING_MS) {
      its.back = withStep(its.back, before);
      its.forth = [];
      stepsChanged();
    }
    its.changedMs = isTyping() ? at : Number.NEGATIVE_INFINITY;
  });
  return () => {
    end();
    followed.value = followed.peek().filter((one) => one !== its);
  };
}

/** The same for as long as the form is seen. Begins anew when `subject`, what the form is about, is another one. */
export function useSteps(choices: Choices, subject?: unknown, options?: StepOptions): void {
  // With the drawing, not a frame later: the next key may come before that.
  useLayoutEffect(() => rememberSteps(choices, () => true, options), [subject]);
}

/** What stands now is the beginning: a form that was kept, or another pull, can't be taken back to what it was before. */
export function forgetSteps(ofSignal: Signal<never> | Signal<unknown>): void {
  for (const its of followed.peek())
    if (its.signals.includes(ofSignal)) {
      its.back = [];
      its.forth = [];
      its.now = its.signals.map((one) => one.peek());
      its.changedMs = Number.NEGATIVE_INFINITY;
      stepsChanged();
    }
}

/**
 * Changes it without a step of its own: by what follows from another choice, or from what happens. What was chosen before
 * stays to be taken back.
 */
export function changeWithoutStep<T>(ofSignal: Signal<T>, value: T): void {
  for (const its of followed.peek()) {
    const at = its.signals.indexOf(ofSignal);
    if (at >= 0) its.now = its.now.map((held, i) => (i === at ? value : held));
  }
  ofSignal.value = value;
}

interface NextStep {
  readonly its: Followed;
  readonly step: Step;
}

/** Of what is seen the choice that was made last. */
function nextStep(direction: 'back' | 'forth'): NextStep | null {
  let newest: NextStep | null = null;
  for (const its of followed.value) {
    const step = its[direction].at(-1);
    if (step !== undefined && its.isShown() && step.at > (newest?.step.at ?? 0)) newest = { its, step };
  }
  return newest;
}

/** What would be taken back or brought again now; null where there is nothing. Follows what it rests on. */
export function nextTaken(direction: 'back' | 'forth'): ChoiceName | null {
  // Steps are no signals themselves; none has been yet.
  if (stepsStand.value === 0) return null;
  const next = nextStep(direction);
  return next === null ? null : nameOf(next);
}

function nameOf({ its, step }: NextStep): ChoiceName | null {
  const index = its.signals.findIndex((one, i) => !Object.is(one.peek(), step.values[i]));
  const name = its.names[index];
  return typeof name === 'function' ? name(its.now[index], step.values[index]) : (name ?? null);
}

/** What was taken back or brought again; null where the view has nothing of it. */
export function stepBack(direction: 'back' | 'forth'): ChoiceName | null {
  const next = untracked(() => nextStep(direction));
  if (next === null) return null;
  const taken = nameOf(next);
  const { its, step } = next;
  const other = direction === 'back' ? 'forth' : 'back';
  its[direction] = its[direction].slice(0, -1);
  its[other] = withStep(its[other], its.now);
  restoring = true;
  try {
    batch(() => its.signals.forEach((one, i) => (one.value = step.values[i])));
  } finally {
    restoring = false;
  }
  its.now = step.values;
  its.changedMs = Number.NEGATIVE_INFINITY;
  stepsChanged();
  its.onTaken?.();
  return taken;
}
