/** What is typed after the break, held while other stations are visited: one draft for each record of a specimen. */
import { type Signal, signal } from '@preact/signals';
import type { SpecimenFile } from '../../../core/specimen/specimen-file.ts';
import { archiveGeneration } from '../../store/session-store.ts';
import { type AfterFractureDraft, draftOf } from './after-fracture-draft.ts';

/** More are not typed at a time; the oldest is let go of. */
const HELD_MAX = 20;

const held = new Map<string, Signal<AfterFractureDraft>>();

/** Another record of the specimen, or of another archive, begins with what that record says. */
export function heldDraft(specimenId: number, file: SpecimenFile): Signal<AfterFractureDraft> {
  const key = `${String(archiveGeneration.value)} ${String(specimenId)}`;
  const there = held.get(key);
  if (there !== undefined) return there;
  const draft = signal(draftOf(file));
  held.set(key, draft);
  const [oldest] = held.keys();
  if (held.size > HELD_MAX && oldest !== undefined) held.delete(oldest);
  return draft;
}
