/**
 * What is typed into a form and not kept yet. It outlives the form, so that Escape, Alt with a digit or a press beside it
 * loses nothing: the form that is opened again for the same subject begins with it. Let go of when it is kept or given up
 * by its own button. In memory only, and never a PIN: closing the window and going over to another archive ask while there
 * is any. It belongs to its archive: what was typed before the tour is found again behind it.
 */
import { type ReadonlySignal, computed, effect, signal, untracked } from '@preact/signals';
import { useMemo } from 'preact/hooks';
import type { Bridge } from '../../core/contract/bridge.ts';
import { ask } from '../bridge/ask.ts';
import type { Words } from '../words/en.ts';
import { words } from '../words/words.ts';
import { archivePath } from './session-store.ts';

/** Of each form; more are not left half done at a time, of those in which nothing was typed the oldest is let go of first. */
export const HELD_MAX = 20;

/** A form by the name that the question before closing has for it. */
export type FormName = keyof Words['notKept'];
interface Form {
  readonly name: FormName;
  /** Follows what it rests on. */
  readonly isTyped: () => boolean;
  /** Of all archives but this one. Null: of every archive. */
  readonly giveUp: (butOf: string | null) => void;
}
const forms = signal<readonly Form[]>([]);

/** From now on closing asks while this form holds something. `giveUp`: what is typed there is lost, as it was said. */
export function holdsTyping(name: FormName, isTyped: () => boolean, giveUp: Form['giveUp']): void {
  forms.value = [...forms.peek(), { name, isTyped, giveUp }];
}

/** Rows of a restored archive, or of one that was begun anew, are others under the same numbers. */
export function giveUpTyping(): void {
  for (const form of forms.peek()) form.giveUp(null);
}

/** Forms in which something is typed that closing would lose. */
export const typedNotKept: ReadonlySignal<readonly FormName[]> = computed(() => [
  ...new Set(forms.value.filter(({ isTyped }) => isTyped()).map(({ name }) => name)),
]);

/**
 * Tells the window, which asks before it closes or goes over to another archive, now and whenever it changes. Returns what
 * stops it.
 */
export function tellTyping(bridge: Bridge): () => void {
  const off = bridge.on('archive-changed', ({ path, tour }) => {
    // The tour is come back from.
    if (!tour) for (const form of forms.peek()) form.giveUp(path);
  });
  const told = computed(() => typedNotKept.value.map((name) => words.value.notKept[name]).join('\n'));
  const end = effect(() => {
    const names = told.value === '' ? [] : told.value.split('\n');
    void ask(bridge, 'window.typed-not-kept', { forms: names });
  });
  return () => {
    off();
    end();
  };
}

/** What is typed, as signals. */
type Typed = object;
const asText = (typed: Typed): string =>
  JSON.stringify(Object.values(typed as Record<string, ReadonlySignal<unknown>>).map((one) => one.value));

interface Held<T> {
  readonly typed: T;
  /** As it was when the form was opened first. */
  readonly begun: string;
}

/** One for each kind of form. `T` is what is typed there, as signals. */
export class HeldTyping<T extends Typed> {
  readonly #held = new Map<string, Held<T>>();
  /** Grows when another form is held. */
  readonly #stands = signal(0);
  readonly #isTyped: (held: Held<T>) => boolean;

  /** `isTyped`: where a form is filled by something else than typing, too. */
  constructor(name: FormName, isTyped?: (typed: T) => boolean) {
    this.#isTyped =
      isTyped === undefined ? ({ typed, begun }) => asText(typed) !== begun : ({ typed }) => isTyped(typed);
    holdsTyping(
      name,
      () => this.#any,
      (butOf) => this.#giveUp(butOf),
    );
  }

  /** What is held for this subject of this archive, else `begin()`, which is held from now on. */
  of(subject: string | number, begin: () => T): T {
    const key = keyOf(subject);
    const held = this.#held.get(key) ?? heldOf(begin());
    this.#held.delete(key);
    this.#held.set(key, held);
    if (this.#held.size > HELD_MAX) this.#held.delete(this.#leastMissed(key));
    this.#stands.value = this.#stands.peek() + 1;
    return held.typed;
  }

  /** It was kept, or given up. A form that still shows it goes on with it; the next one begins anew. */
  letGo(subject: string | number): void {
    this.#held.delete(keyOf(subject));
    this.#stands.value = this.#stands.peek() + 1;
  }

  /** Whether anything is typed for this subject that letting go would lose; follows what it rests on. */
  isTyped(subject: string | number): boolean {
    // Forms that are held are no signals themselves; none has been yet.
    if (this.#stands.value === 0) return false;
    const held = this.#held.get(keyOf(subject));
    return held !== undefined && this.#isTyped(held);
  }

  /** Whether anything is typed, of this archive or of the one before the tour. */
  get #any(): boolean {
    if (this.#stands.value === 0) return false;
    return [...this.#held.values()].some((held) => this.#isTyped(held));
  }

  #giveUp(butOf: string | null): void {
    for (const key of this.#held.keys())
      if (butOf === null || !key.startsWith(ofArchive(butOf))) this.#held.delete(key);
    this.#stands.value = this.#stands.peek() + 1;
  }

  #leastMissed(butNot: string): string {
    const others = [...this.#held.keys()].filter((key) => key !== butNot);
    const blank = others.find((key) => {
      const held = this.#held.get(key);
      return held !== undefined && !untracked(() => this.#isTyped(held));
    });
    return blank ?? others[0] ?? butNot;
  }
}

const heldOf = <T extends Typed>(typed: T): Held<T> => ({ typed, begun: untracked(() => asText(typed)) });

/** The same number means another pull in another archive. */
const keyOf = (subject: string | number): string => `${ofArchive(archivePath.peek())}${String(subject)}`;
const ofArchive = (path: string): string => `${JSON.stringify(path)} `;

/** For as long as the form is about this subject. */
export function useHeldTyping<T extends Typed>(
  held: HeldTyping<T>,
  subject: string | number,
  begin: () => T,
): T {
  return useMemo(() => held.of(subject, begin), [held, subject, archivePath.value]);
}
