/**
 * What is said aloud: one polite live region for the page. At most one sentence in two seconds, the newest wins,
 * so that a screen reader is never behind. Shown as a line at the foot of the page as well, for eyes.
 */
import { effect, signal } from '@preact/signals';
import { language } from '../store/view-settings.ts';
import './said.css';

const SAY_PERIOD_MS = 2_000;
/** How long the line stays on the screen; reading aloud is not cut by it. */
const SHOWN_MS = 6_000;

export const said = signal('');
const shown = signal(false);
let waiting: { readonly sentence: string; readonly onScreen: boolean } | null = null;
let timer: ReturnType<typeof setTimeout> | null = null;
let hide: ReturnType<typeof setTimeout> | null = null;

/** Says a sentence now, or as soon as the one before has had its time. */
export function say(sentence: string): void {
  speak(sentence, true);
}

/** For ears only: what it says stands on the screen already. */
export function sayAloud(sentence: string): void {
  speak(sentence, false);
}

function speak(sentence: string, onScreen: boolean): void {
  if (timer !== null) {
    waiting = { sentence, onScreen };
    return;
  }
  // The same sentence twice must still be heard twice: a live region only speaks on a change.
  said.value = sentence === said.value ? `${sentence}\u00a0` : sentence;
  shown.value = onScreen;
  if (hide !== null) clearTimeout(hide);
  hide = setTimeout(() => (shown.value = false), SHOWN_MS);
  timer = setTimeout(() => {
    timer = null;
    const next = waiting;
    waiting = null;
    if (next !== null) speak(next.sentence, next.onScreen);
  }, SAY_PERIOD_MS);
}

// What was said in the language before can't be told again in this one: it goes.
effect(() => {
  void language.value;
  waiting = null;
  said.value = '';
  shown.value = false;
});

export function Said() {
  return (
    <p class="said" data-shown={shown.value} role="status" aria-live="polite">
      <span>{said.value}</span>
    </p>
  );
}
