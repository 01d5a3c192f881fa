/** The people of this machine, as the archive knows them. */
import { effect, signal, untracked } from '@preact/signals';
import type { Person } from '../../core/contract/people-requests.ts';
import { archiveGeneration, request, session } from './session-store.ts';

/** In the order in which they were entered, with those who are here no more. */
export const people = signal<readonly Person[]>([]);

export async function readPeople(): Promise<void> {
  const read = await request('people.list', {});
  if (read.ok) people.value = read.value.people;
}

/** Reads them when a recorder answers and when another archive is used. Returns what stops it. */
export function followPeople(): () => void {
  return effect(() => {
    // Both are looked at, so that a change of either reads them anew.
    const [generation, pid] = [archiveGeneration.value, session.value?.recorder.pid];
    if (pid !== undefined && generation >= 0) untracked(() => void readPeople());
  });
}
