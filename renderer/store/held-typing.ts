/**
 * What is typed into a form and not kept yet. It outlives the form, so that Escape, Alt with a digit or a press beside it
 * loses nothing: the form that is opened again for the same subject begins with it. Let go of when it is kept or given up
 * by its own button. In memory only, and never a PIN.
 */
import { useMemo } from 'preact/hooks';
import { archiveGeneration } from './session-store.ts';

/** Of each form; more are not left half done at a time, the one that was opened longest ago is let go of. */
export const HELD_MAX = 20;

/** One for each kind of form. `T` is what is typed there, as signals. */
export class HeldTyping<T extends object> {
  readonly #held = new Map<string, T>();

  /** What is held for this subject of this archive, else `begin()`, which is held from now on. */
  of(subject: string | number, begin: () => T): T {
    const key = keyOf(subject);
    const typed = this.#held.get(key) ?? begin();
    this.#held.delete(key);
    this.#held.set(key, typed);
    const [oldest] = this.#held.keys();
    if (this.#held.size > HELD_MAX && oldest !== undefined) this.#held.delete(oldest);
    return typed;
  }

  /** It was kept, or given up. A form that still shows it goes on with it; the next one begins anew. */
  letGo(subject: string | number): void {
    this.#held.delete(keyOf(subject));
  }
}

/** The same number means another pull in another archive. */
const keyOf = (subject: string | number): string => `${String(archiveGeneration.peek())} ${String(subject)}`;

/** For as long as the form is about this subject. */
export function useHeldTyping<T extends object>(
  held: HeldTyping<T>,
  subject: string | number,
  begin: () => T,
): T {
  return useMemo(() => held.of(subject, begin), [held, subject, archiveGeneration.value]);
}
