/** Keys that work everywhere on the page. What ends something has to be held, with two keys at once. */
import { HoldTimer } from '../design/hold-timer.ts';
import { STATIONS, archivePullId, archiveView, goTo, place } from '../store/place.ts';
import { heldOpen } from '../store/session-store.ts';
import { changeView, nextDigits, otherUnits } from '../store/view-settings.ts';
import { type PullAct, doAct, heldByKeys, whyNot } from '../stations/pull/pull-acts.ts';
import { isTextEntry, stepBack } from '../store/taken-back.ts';
import { words } from '../words/words.ts';
import { say } from '../design/said.tsx';
import { doingShown } from '../doing/doing-shown.ts';
import { guideShown } from '../guide/guide-shown.ts';
import { findPull } from './find-pull.ts';
import { keysShown } from './keys-sheet.tsx';

/** Done at once: each of these can be taken back or changes nothing recorded. */
const AT_ONCE: Readonly<Record<string, PullAct>> = { r: 'ready', s: 'start', g: 'goOn', '0': 'zero' };
/** Held for a second. A break marked by mistake can be undone, but not for ever. */
const HELD: Readonly<Record<string, PullAct>> = { Backspace: 'stop', End: 'close', b: 'markBreak' };

const TAKES: Readonly<Record<string, 'back' | 'forth'>> = { z: 'back', 'Shift+z': 'forth', y: 'forth' };

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
  const down = (event: KeyboardEvent): void => {
    // In a text, Ctrl+Backspace and Ctrl+End keep their usual meaning.
    const typing = event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement;
    const command = event.ctrlKey || event.metaKey;
    const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
    if (key === 'F1') {
      event.preventDefault();
      keysShown.value = !keysShown.value;
      return;
    }
    if (key === 'F2') {
      event.preventDefault();
      guideShown.value = !guideShown.value;
      return;
    }
    if (event.altKey && !command && goByNumber(key)) {
      event.preventDefault();
      return;
    }
    // What lies on top is closed by it first: the board, a question, the sheet of keys.
    if (key === 'Escape' && place.value === 'archive' && document.querySelector('dialog[open]') === null) {
      if (archivePullId.value === null) archiveView.value = 'table';
      archivePullId.value = null;
    }
    const takes = command && !event.altKey ? TAKES[`${event.shiftKey ? 'Shift+' : ''}${key}`] : undefined;
    if (takes !== undefined && !isTextEntry(event.target)) {
      event.preventDefault();
      const { undo } = words.value;
      if (!stepBack(takes)) say(takes === 'back' ? undo.nothing : undo.nothingAgain);
      else say(takes === 'back' ? undo.takenBack : undo.broughtAgain);
      return;
    }
    if (!command || event.altKey || event.shiftKey) return;
    const heldAct = HELD[key];
    if (heldAct !== undefined && actsHere(heldAct) && !(typing && key !== 'b')) {
      event.preventDefault();
      if (!event.repeat) hold(heldAct, event.timeStamp);
      return;
    }
    const act = AT_ONCE[key];
    if (act !== undefined && actsHere(act)) {
      event.preventDefault();
      if (!event.repeat) void doAct(act);
      return;
    }
    if (key === 'Enter' && takeNextStep()) {
      event.preventDefault();
      return;
    }
    if (showing(key)) event.preventDefault();
  };
  const up = (event: KeyboardEvent): void => {
    const isHeldKey = event.key in HELD || event.key.toLowerCase() in HELD;
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

function goByNumber(key: string): boolean {
  const number = Number(key);
  const station = STATIONS[number - 1];
  // From the rail or a field of the station before, Tab would go on from there.
  if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
  if (station !== undefined) goTo(station);
  else if (number === STATIONS.length + 1) goTo('archive');
  else if (number === STATIONS.length + 2) goTo('instruments');
  else return false;
  return true;
}

/** Presses the one marked button of the sheet that lies on top; false where there is none that can act. */
function takeNextStep(): boolean {
  const top = document.querySelector('dialog[open]') ?? document.querySelector('main.sheet');
  const button = top?.querySelector<HTMLButtonElement>('.act.call:not([aria-disabled="true"])');
  if (!button) return false;
  button.click();
  return true;
}

function showing(key: string): boolean {
  switch (key) {
    case 'u':
      changeView({ units: otherUnits() });
      return true;
    case 'd':
      changeView({ digitsMm: nextDigits() });
      return true;
    case 'f':
      findPull();
      return true;
    case 'j':
      doingShown.value = !doingShown.value;
      return true;
    default:
      return false;
  }
}
