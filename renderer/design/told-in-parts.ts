/**
 * What changes many times a second is no live region: long work is told when it begins, at each quarter and when it ends,
 * what follows the keys once they rest, both by way of `said.tsx`, whose rate they keep.
 */
import { useEffect, useRef } from 'preact/hooks';
import { sayAloud } from './said.tsx';

const PARTS = 4;

/** Which of the many steps of a work are worth a sentence. */
export class WorkInParts {
  #told: number | null = null;

  /** @param part done so far, 0 to 1; null where nobody knows */
  isNews(isUnderWay: boolean, part: number | null): boolean {
    const before = this.#told;
    if (!isUnderWay) {
      this.#told = null;
      return before !== null;
    }
    const now = Math.min(PARTS - 1, Math.floor((part ?? 0) * PARTS));
    if (before !== null && now <= before) return false;
    this.#told = now;
    return true;
  }
}

export interface WorkSaid {
  readonly isUnderWay: boolean;
  readonly part: number | null;
  readonly sentence: string;
  /** False where whoever began it tells what came of it; default: true. */
  readonly saysEnd?: boolean;
}

/** Says how far a work is; called at each drawing. */
export function useWorkSaid({ isUnderWay, part, sentence, saysEnd = true }: WorkSaid): void {
  const steps = useRef(new WorkInParts()).current;
  useEffect(() => {
    if (steps.isNews(isUnderWay, part) && (isUnderWay || saysEnd)) sayAloud(sentence);
  });
}

/** Longer than between two keys of somebody who types figures from a sheet of paper. */
export const REST_MS = 1_500;

/** What stands when nothing has changed for a while, each sentence once. */
export class SaidAtRest {
  #timer: ReturnType<typeof setTimeout> | null = null;
  #last = '';
  readonly #speak: (sentence: string) => void;

  constructor(speak: (sentence: string) => void = sayAloud) {
    this.#speak = speak;
  }

  /** Called with what stands now, as often as one likes. */
  stands(sentence: string): void {
    if (sentence === this.#last) return;
    this.#last = sentence;
    this.end();
    if (sentence !== '') this.#timer = setTimeout(() => this.#speak(sentence), REST_MS);
  }

  end(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
  }
}

/** Says what a sheet comes to once the keys rest; called at each drawing. */
export function useSaidAtRest(sentence: string): void {
  const rest = useRef(new SaidAtRest()).current;
  useEffect(() => rest.stands(sentence), [sentence]);
  useEffect(() => () => rest.end(), []);
}
