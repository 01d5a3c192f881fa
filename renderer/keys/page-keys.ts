/**
 * Keys that work everywhere on the page: those of the one list of what can be done. What ends something has to be held,
 * with two keys at once.
 */
import { HoldTimer } from '../design/hold-timer.ts';
import { archivePullId, archiveView, place } from '../store/place.ts';
import { heldOpen, session } from '../store/session-store.ts';
import {
  ACT_KEYS,
  HELD_ACTS,
  PULL_ACTS,
  type PullAct,
  doAct,
  heldByKeys,
  heldHint,
  whyNot,
} from '../stations/pull/pull-acts.ts';
import { meaning } from '../stations/pull/pull-state.tsx';
import { isTextEntry } from '../store/taken-back.ts';
import { say } from '../design/said.tsx';
import { NEXT_STEP_KEYS, THINGS, type Thing } from '../doing/functions.ts';

const isPullAct = (id: string): id is PullAct => (PULL_ACTS as readonly string[]).includes(id);
const THING_BY_KEYS: ReadonlyMap<string, Thing> = new Map(
  THINGS.flatMap((thing) =>
    [thing.keys, thing.otherKeys]
      .filter((keys) => keys !== undefined && keys !== NEXT_STEP_KEYS)
      .map((keys) => [keys ?? '', thing] as const),
  ),
);

/** As the list has them: "Control+Shift+P". The command key of a Mac counts as Control. */
export function keysOf(
  event: Pick<KeyboardEvent, 'key' | 'code' | 'ctrlKey' | 'metaKey' | 'altKey' | 'shiftKey'>,
): string {
  // With Alt some keyboards write another sign in the place of a digit.
  const digit = event.altKey ? /^Digit(\d)$/.exec(event.code)?.[1] : undefined;
  const key = digit ?? (event.key.length === 1 ? event.key.toUpperCase() : event.key);
  return [
    ...(event.ctrlKey || event.metaKey ? ['Control'] : []),
    ...(event.altKey ? ['Alt'] : []),
    ...(event.shiftKey ? ['Shift'] : []),
    key,
  ].join('+');
}

/** Held down they go on from step to step; in a text the same keys take back what was typed there. */
const TAKES: ReadonlySet<string> = new Set<Thing['id']>(['take-back', 'bring-again']);

/** The last of the keys that are held together. */
const HELD_KEYS: ReadonlySet<string> = new Set(
  [...HELD_ACTS].map((act) => ACT_KEYS[act].split('+').at(-1) ?? ''),
);

/** Takes keys from now on. Returns what stops it. */
export function listenToKeys(): () => void {
  const timer = new HoldTimer();
  const letGo = (): void => {
    timer.cancel();
    heldByKeys.value = null;
  };
  const hold = (act: PullAct, sinceMs: number): void => {
    if (timer.isHeld) return;
    const reason = whyNot(act);
    if (reason !== undefined) {
      say(reason);
      return;
    }
    heldByKeys.value = act;
    timer.begin(sinceMs, () => {
      heldByKeys.value = null;
      void doAct(act);
    });
  };
  /** A held act is begun, others are done at once: each of those can be taken back or changes nothing recorded. */
  const act = (which: PullAct, event: KeyboardEvent): void => {
    // In a text, Ctrl+Backspace and Ctrl+End keep their usual meaning.
    const typing = event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement;
    if (!actsHere(which) || (typing && event.key.length > 1)) return;
    event.preventDefault();
    if (event.repeat) return;
    if (HELD_ACTS.has(which)) hold(which, event.timeStamp);
    else void doAct(which);
  };
  const down = (event: KeyboardEvent): void => {
    const keys = keysOf(event);
    // What lies on top is closed by it first: the board, a question, the sheet of keys.
    if (
      event.key === 'Escape' &&
      place.value === 'archive' &&
      document.querySelector('dialog[open]') === null
    ) {
      if (archivePullId.value === null) archiveView.value = 'table';
      archivePullId.value = null;
      return;
    }
    if (keys === NEXT_STEP_KEYS) {
      if (takeNextStep()) event.preventDefault();
      return;
    }
    const thing = THING_BY_KEYS.get(keys);
    if (thing === undefined) return;
    if (isPullAct(thing.id)) {
      act(thing.id, event);
      return;
    }
    const takes = TAKES.has(thing.id);
    if (takes && isTextEntry(event.target)) return;
    event.preventDefault();
    if (event.repeat && !takes) return;
    // From the rail or a field of the station before, Tab would go on from there.
    if (thing.id.startsWith('go-') && document.activeElement instanceof HTMLElement)
      document.activeElement.blur();
    const reason = thing.notNow?.();
    if (reason === undefined) void thing.run();
    else say(reason);
  };
  const up = (event: KeyboardEvent): void => {
    const isHeldKey = HELD_KEYS.has(event.key.length === 1 ? event.key.toUpperCase() : event.key);
    if (!isHeldKey && event.key !== 'Control' && event.key !== 'Meta') return;
    timer.end(event.timeStamp);
    heldByKeys.value = null;
  };
  window.addEventListener('keydown', down);
  window.addEventListener('keyup', up);
  window.addEventListener('blur', letGo);
  return () => {
    letGo();
    window.removeEventListener('keydown', down);
    window.removeEventListener('keyup', up);
    window.removeEventListener('blur', letGo);
  };
}

/** A record that is held open can be taken up again, or closed, wherever it is assessed. */
function actsHere(act: PullAct): boolean {
  if (place.value === 'pull') return true;
  const assesses = place.value === 'fracture' || place.value === 'result';
  return assesses && heldOpen.value && (act === 'goOn' || act === 'close');
}

/**
 * Presses the one marked button of the sheet that lies on top, which says why it can't act where it can't. What ends
 * something is never done by one press: how it is held is said, and so is what a pull waits for that goes on by itself.
 * False where there is no next step.
 */
function takeNextStep(): boolean {
  const sheet = document.querySelector('dialog[open]');
  const top = sheet ?? document.querySelector('main.sheet');
  const [can, marked] = ['.act.call:not([aria-disabled="true"])', '.act.call'].map((which) =>
    top?.querySelector<HTMLButtonElement>(which),
  );
  const button = can ?? marked;
  const held = PULL_ACTS.find((one) => HELD_ACTS.has(one) && button?.id === `act-${one}`);
  if (held !== undefined) say(heldHint(held));
  else if (button) button.click();
  else if (sheet !== null || place.value !== 'pull' || session.value === null) return false;
  else say(meaning(session.value));
  return true;
}
