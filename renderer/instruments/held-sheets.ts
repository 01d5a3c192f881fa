/** Worksheets as they are being typed, one by instrument: going over to another one, and back, loses none of them. */
import { type ReadonlySignal, type Signal, computed, signal } from '@preact/signals';
import { useLayoutEffect } from 'preact/hooks';
import { type FormName, HeldTyping, useHeldTyping } from '../store/held-typing.ts';
import { type WorksheetLine, withLine } from './worksheet-line.ts';

interface Sheet {
  readonly unit: string;
  readonly lines: readonly WorksheetLine[];
}

/** One for each kind of worksheet. */
export class HeldSheets<Draft extends Sheet> {
  readonly #blank: (unit: Draft['unit']) => Draft;
  readonly #onPage: Signal<Signal<Draft>>;
  readonly held: HeldTyping<{ readonly draft: Signal<Draft> }>;
  /** The worksheet that is on the page. */
  readonly shown: ReadonlySignal<Draft>;

  /** `unit`: of what stands here before any is on the page. */
  constructor(name: FormName, blank: (unit: Draft['unit']) => Draft, unit: Draft['unit']) {
    this.#blank = blank;
    // A unit that was chosen is no figure that was typed.
    this.held = new HeldTyping(name, ({ draft: { value } }) => !isSame(value, blank(value.unit)));
    this.#onPage = signal(signal(blank(unit)));
    this.shown = computed(() => this.#onPage.value.value);
  }

  begin(unit: Draft['unit']): { readonly draft: Signal<Draft> } {
    return { draft: signal(this.#blank(unit)) };
  }

  show(draft: Signal<Draft>): void {
    this.#onPage.value = draft;
  }

  change(change: Partial<Draft>): void {
    const draft = this.#onPage.peek();
    draft.value = { ...draft.peek(), ...change };
  }

  changeLine(place: number, change: Partial<WorksheetLine>): void {
    const draft = this.#onPage.peek();
    draft.value = { ...draft.peek(), lines: withLine(draft.peek().lines, place, change) };
  }
}

const isSame = (one: unknown, other: unknown): boolean => JSON.stringify(one) === JSON.stringify(other);

/** Puts the worksheet of this instrument on the page, as it was left, else a blank one in this unit. */
export function useSheet<Draft extends Sheet>(
  sheets: HeldSheets<Draft>,
  instrumentId: number,
  unit: Draft['unit'],
): Signal<Draft> {
  const { draft } = useHeldTyping(sheets.held, instrumentId, () => sheets.begin(unit));
  // With the drawing, not a frame later: the next key may come before that.
  useLayoutEffect(() => sheets.show(draft), [draft]);
  return draft;
}
