/** The way to what stands somewhere in the window: there, and then hold of it. */
import { drawnAtOnce } from '../design/drawn-at-once.ts';
import { say } from '../design/said.tsx';
import { whenThere } from '../design/when-there.ts';
import { type Place, goTo, place } from '../store/place.ts';
import { words } from '../words/words.ts';

/** Goes there and takes hold of what has this id; what does not come is told. */
export function reach(where: Place, id: string, hold: (element: HTMLElement) => void): void {
  drawnAtOnce(() => {
    if (place.value !== where) goTo(where);
  });
  const find = (): HTMLElement | null => document.getElementById(id);
  whenThere(
    find,
    () => place.value === where,
    (element) => {
      if (element === null) {
        say(words.value.doing.notThere(words.value.stations[where]));
        return;
      }
      element.scrollIntoView({ block: 'nearest' });
      element.focus();
      hold(element);
    },
  );
}

/** Presses a button where it stands, so that what it asks first is asked here too. */
export const press = (where: Place, id: string) => (): void => reach(where, id, (element) => element.click());

/** What lies folded is opened. */
export const open = (where: Place, id: string) => (): void =>
  reach(where, id, (element) => {
    if (element instanceof HTMLDetailsElement) element.open = true;
    // The entry itself, not the line that folds it away, which stands before it.
    const entry = element.querySelector<HTMLElement>('input, select, textarea, button');
    (entry ?? element.querySelector<HTMLElement>('summary') ?? element).focus();
  });
