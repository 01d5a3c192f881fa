/** How the way back from a break or a stop is named, and how long it stays open. */
import { sessionState } from '../../store/session-store.ts';
import { words } from '../../words/words.ts';

/** By what would be taken back; where nothing can be, by the act in general. */
export function goOnWords(): string {
  const { heldOpen, pull } = words.value;
  if (sessionState.value === 'broken') return heldOpen.notBroken;
  return sessionState.value === 'stopped' ? heldOpen.continue : pull.goOn;
}

/** "9:41": minutes and seconds, never less than there are. */
export function closesInText(seconds: number): string {
  const whole = Math.ceil(seconds);
  return `${String(Math.floor(whole / 60))}:${String(whole % 60).padStart(2, '0')}`;
}
