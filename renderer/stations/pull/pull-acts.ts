/** What can be done to the pull, from a button or from a key: when it is possible, and what it asks for. */
import { signal } from '@preact/signals';
import type { Answer } from '../../../core/contract/index.ts';
import type { SessionState } from '../../../core/contract/session.ts';
import { drawnAtOnce } from '../../design/drawn-at-once.ts';
import { say } from '../../design/said.tsx';
import { askBeforeStart, instrumentsNow } from '../../instruments/before-start.ts';
import { knownConcerns } from '../../instruments/calibration-asked.tsx';
import { errand } from '../../store/errand.ts';
import { goTo } from '../../store/place.ts';
import { heldOpen, request, session, sessionState } from '../../store/session-store.ts';
import { draft, draftIsKept, newDraft } from '../../store/specimen-draft.ts';
import { words } from '../../words/words.ts';
import { typedPullId } from '../opened-pull.ts';
import { plan, readPlan } from './pull-plan.ts';
import { told } from '../../words/told.ts';
import { takeZero } from './take-zero.ts';

export const PULL_ACTS = ['ready', 'zero', 'start', 'markBreak', 'goOn', 'stop', 'close'] as const;
export type PullAct = (typeof PULL_ACTS)[number];

/** The keys that do the same; shown on the sheet of keys. */
export const ACT_KEYS: Readonly<Record<PullAct, string>> = {
  ready: 'Control+R',
  zero: 'Control+0',
  start: 'Control+S',
  markBreak: 'Control+B',
  goOn: 'Control+G',
  stop: 'Control+Backspace',
  close: 'Control+End',
};
/**
 * Held for a second where keys do them from anywhere on the station. Buttons of stop and close have to be held too; that of
 * the break is pressed, also with Space or Enter while it has the focus: a break is a mark, the record runs on behind it,
 * and it can be taken back.
 */
export const HELD_ACTS: ReadonlySet<PullAct> = new Set<PullAct>(['markBreak', 'stop', 'close']);

/** How what has to be held by keys is held, and what it does. */
export function heldHint(act: PullAct): string {
  const text = words.value.pull;
  if (act === 'markBreak') return text.breakHint;
  return act === 'stop' ? text.stopHint : text.closeHint;
}

/** The act that is being held on the keyboard right now. */
export const heldByKeys = signal<PullAct | null>(null);

export const pullErrand = errand();

const POSSIBLE_IN: Readonly<Record<PullAct, readonly SessionState[]>> = {
  /** After an ended pull too, but by way of putting it away, so that plan and cautions are seen again. */
  ready: ['listening'],
  zero: ['listening', 'ready'],
  start: ['ready'],
  markBreak: ['pulling'],
  goOn: ['broken', 'stopped'],
  stop: ['pulling'],
  close: ['ready', 'pulling', 'broken', 'stopped'],
};

/** Why an act isn't possible now, in a sentence; undefined where it is. */
export function whyNot(act: PullAct): string | undefined {
  const text = words.value.pull.notNow;
  if (!POSSIBLE_IN[act].includes(sessionState.value)) return text[act];
  if (act === 'ready' && (!draftIsKept.value || !readPlan(plan.value, words.value).ok)) return text.ready;
  const archiveFault = session.value?.archive.fault ?? null;
  if (act === 'ready' && archiveFault !== null) return told(archiveFault.sentence);
  // Zero belongs to a record: before one is begun nothing would keep it.
  if (act === 'zero' && sessionState.value === 'listening') return text.zero;
  return undefined;
}

/** Does it, or says why not. */
export async function doAct(act: PullAct): Promise<void> {
  const reason = whyNot(act);
  if (reason !== undefined) {
    say(reason);
    return;
  }
  if (underWay.act === act) return;
  await inTurn(act, () => ask(act));
}

let underWay: { readonly act: PullAct | null; readonly over: Promise<unknown> } = {
  act: null,
  over: Promise.resolve(),
};

/** The session may tell of a step before its answer is here: an act that is pressed then waits, and is not lost. */
async function inTurn<T>(act: PullAct | null, work: () => Promise<Answer<T>>): Promise<T | null> {
  const done = underWay.over.then(() => pullErrand.run(work));
  const mine = { act, over: done.catch(() => undefined) };
  underWay = mine;
  try {
    return await done;
  } finally {
    if (underWay === mine) underWay = { act: null, over: Promise.resolve() };
  }
}

function ask(act: PullAct): Promise<Answer<unknown>> {
  switch (act) {
    case 'ready':
      return makeReady();
    case 'zero':
      return takeZero();
    case 'start':
      return request('pull.start', {});
    case 'markBreak':
      return request('pull.mark-break', {});
    case 'goOn':
      return goOn();
    case 'stop':
      return request('pull.stop', {});
    case 'close':
      return request('pull.close', {});
  }
}

/** Takes back the break or the stop. From another station it leads back to the pull, where it is seen to go on. */
async function goOn(): Promise<Answer<unknown>> {
  const done = await (sessionState.value === 'broken'
    ? request('pull.undo-break', {})
    : request('pull.continue', {}));
  if (done.ok) goTo('pull');
  return done;
}

/** What is overdue, missing or never set is asked about first; the act is done again once it is said to be known. */
async function makeReady(): Promise<Answer<unknown>> {
  const outcome = readPlan(plan.value, words.value);
  const { specimenId } = draft.value;
  if (!outcome.ok || specimenId === null) throw new Error('whyNot has let an unready plan through');
  const before = await askBeforeStart();
  if (!before.ok) return before;
  const known = knownConcerns(before.value, () => void doAct('ready'));
  if (known === null) return { ok: true, value: null };
  typedPullId.value = null;
  return request('pull.ready', { specimenId, ...outcome.rules, instruments: instrumentsNow(), known });
}

/** Puts the pull away, which closes a record that is still held open, and begins with the next specimen. */
export async function nextSpecimen(): Promise<void> {
  if (sessionState.value === 'ended' || heldOpen.value) {
    const done = await inTurn(null, () => request('pull.put-away', {}));
    if (done === null) return;
  }
  drawnAtOnce(() => {
    typedPullId.value = null;
    newDraft();
    goTo('specimen');
  });
}
