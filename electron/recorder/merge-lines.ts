/** What a merge tells pull by pull: as many lines as fit, conflicts before everything else, in the order of the pulls. */
import { MERGE_LINES_MAX, type MergeLine } from '../../core/contract/exchange-requests.ts';

export class MergeLines {
  readonly #max: number;
  readonly #conflicts: { readonly at: number; readonly line: MergeLine }[] = [];
  readonly #others: { readonly at: number; readonly line: MergeLine }[] = [];
  #seen = 0;

  constructor(max = MERGE_LINES_MAX) {
    this.#max = max;
  }

  add(line: MergeLine): void {
    const at = this.#seen++;
    const isFull = this.#conflicts.length + this.#others.length >= this.#max;
    if (line.fate !== 'conflict') {
      if (!isFull) this.#others.push({ at, line });
      return;
    }
    // A person has to decide about it: the last of what needs nobody makes room.
    if (isFull && this.#others.pop() === undefined) return;
    this.#conflicts.push({ at, line });
  }

  get all(): MergeLine[] {
    return [...this.#conflicts, ...this.#others].sort((a, b) => a.at - b.at).map(({ line }) => line);
  }
}
