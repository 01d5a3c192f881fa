/** Pulls that are marked in the table, in the order of marking; kept while one looks at them, whatever is searched for. */
import { signal } from '@preact/signals';
import { OVERLAY_CURVES_MAX } from '../../core/drawing/overlay-plot.ts';
import { say } from '../design/said.tsx';
import { forgetSteps } from '../store/taken-back.ts';
import { words } from '../words/words.ts';

export const marked = signal<readonly number[]>([]);

export const isMarked = (all: readonly number[], pullId: number): boolean => all.includes(pullId);

export function toggleMark(pullId: number): void {
  const before = marked.value;
  if (before.includes(pullId)) marked.value = before.filter((one) => one !== pullId);
  else markMore([pullId]);
}

/** As many as can be looked at together; more are told. */
export function markMore(pullIds: Iterable<number>): void {
  const all = new Set(marked.value);
  for (const pullId of pullIds) {
    if (all.size >= OVERLAY_CURVES_MAX && !all.has(pullId)) {
      say(words.value.look.markedMax(String(OVERLAY_CURVES_MAX)));
      break;
    }
    all.add(pullId);
  }
  marked.value = [...all];
}

export function unmarkAll(): void {
  marked.value = [];
}

/** The same numbers mean other pulls now: of another archive, of a restored one, of one begun anew. */
export function giveUpMarks(): void {
  unmarkAll();
  forgetSteps(marked);
}
