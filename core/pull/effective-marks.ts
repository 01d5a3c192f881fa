/** Which trigger and which break of a record count, after everything that was taken back. */
import type { Mark } from '../contract/record.ts';

export interface EffectiveMarks {
  readonly triggerSeq: number | null;
  /** First reading after the break. */
  readonly breakSeq: number | null;
}

/** A break was marked, and a person said that it was none: what a curve looks like doesn't overrule that. */
export function breakTakenBack(marks: readonly Pick<Mark, 'kind' | 'seq'>[]): boolean {
  return marks.some(({ kind }) => kind === 'break') && effectiveMarks(marks).breakSeq === null;
}

/** Marks in the order in which they were made. */
export function effectiveMarks(marks: readonly Pick<Mark, 'kind' | 'seq'>[]): EffectiveMarks {
  let triggerSeq: number | null = null;
  let breakSeq: number | null = null;
  for (const mark of marks) {
    if (mark.kind === 'trigger') triggerSeq = mark.seq;
    else if (mark.kind === 'break') breakSeq = mark.seq;
    else if (mark.kind === 'undo-break' || mark.kind === 'continue') breakSeq = null;
  }
  return { triggerSeq, breakSeq };
}
