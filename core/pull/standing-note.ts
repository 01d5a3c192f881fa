/** Which of the notes on a fracture counts. */
import type { KeptFractureNote } from '../contract/record.ts';

/** The newest note that no other supersedes; null where there is none. */
export function standingNote(notes: readonly KeptFractureNote[]): KeptFractureNote | null {
  const superseded = new Set(notes.map((note) => note.supersedes));
  return notes.findLast((note) => !superseded.has(note.fractureNoteId)) ?? null;
}
