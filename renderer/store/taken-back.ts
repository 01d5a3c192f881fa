/**
 * Choices that can be taken back: drafts of forms, what is shown of what was found, how the page shows it. One way for
 * all: Ctrl+Z takes the last one of the present view back, Ctrl+Shift+Z (or Ctrl+Y) brings it again. Nothing recorded or kept ever comes here.
 */
import { type Signal, effect, signal } from '@preact/signals';

/** Steps that are remembered for each view; the oldest is forgotten first. */
const STEPS_MAX = 100;
/** What is typed within this time counts as one step. */
const TYPING_MS = 800;

/** What makes up one step of a view: the values of its signals. */
type Values = readonly unknown[];

export interface StepMeans {
  readonly nowMs: () => number;
  /** True while signs are typed one after the other. */
  readonly isTyping: () => boolean;
}

const OF_THE_PAGE: StepMeans = {
  nowMs: () => performance.now(),
  isTyping: () => isTextEntry(document.activeElement),
};

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
  readonly isShown: () => boolean;
  back: readonly Step[];
  forth: readonly Step[];
  now: Values;
  changedMs: number;
}

const followed = signal<readonly Followed[]>([]);
let restoring = false;
let lastStep = 0;
const withStep = (steps: readonly Step[], values: Values): readonly Step[] =>
  [...steps, { values, at: ++lastStep }].slice(-STEPS_MAX);

/**
 * Remembers what these signals held, from now on. Values must be replaced, never changed in place. `isShown` says whether
 * they are those of the view that is seen. Returns what stops it.
 */
export function rememberSteps(
  signals: readonly Signal<never>[] | readonly Signal<unknown>[],
  isShown: () => boolean,
  { nowMs, isTyping }: StepMeans = OF_THE_PAGE,
): () => void {
  const all = signals as readonly Signal<unknown>[];
  const its: Followed = {
    signals: all,
    isShown,
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
    }
    its.changedMs = isTyping() ? at : Number.NEGATIVE_INFINITY;
  });
  return () => {
    end();
    followed.value = followed.peek().filter((one) => one !== its);
  };
}

/** What stands now is the beginning: a form that was kept, or another pull, can't be taken back to what it was before. */
export function forgetSteps(ofSignal: Signal<never> | Signal<unknown>): void {
  for (const its of followed.peek())
    if (its.signals.includes(ofSignal)) {
      its.back = [];
      its.forth = [];
      its.now = its.signals.map((one) => one.peek());
      its.changedMs = Number.NEGATIVE_INFINITY;
    }
}

/** False where the view has nothing to take back, or to bring again. */
export function stepBack(direction: 'back' | 'forth'): boolean {
  let newest: { readonly its: Followed; readonly step: Step } | null = null;
  for (const its of followed.peek()) {
    const step = its[direction].at(-1);
    if (step !== undefined && its.isShown() && step.at > (newest?.step.at ?? 0)) newest = { its, step };
  }
  if (newest === null) return false;
  const { its, step } = newest;
  const other = direction === 'back' ? 'forth' : 'back';
  its[direction] = its[direction].slice(0, -1);
  its[other] = withStep(its[other], its.now);
  restoring = true;
  try {
    its.signals.forEach((one, i) => (one.value = step.values[i]));
  } finally {
    restoring = false;
  }
  its.now = step.values;
  its.changedMs = Number.NEGATIVE_INFINITY;
  return true;
}
