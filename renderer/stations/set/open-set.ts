/** The set that lies on the sheet, with its verdict, and what the next specimen is measured for. Kept over a reload. */
import { effect, signal, untracked } from '@preact/signals';
import { z } from 'zod';
import type { Fault, ReplyOf } from '../../../core/contract/index.ts';
import type { KeptSet } from '../../../core/contract/set-requests.ts';
import { endedPull } from '../opened-pull.ts';
import { remember, remembered } from '../../store/remembered.ts';
import { archiveGeneration, recording, request, session } from '../../store/session-store.ts';

export type JudgedReply = ReplyOf<'set.judge'>;
export interface OpenedSet {
  readonly kept: KeptSet;
  readonly judged: JudgedReply;
}

export const carriedForm = z.strictObject({
  setId: z.number().int().positive(),
  setName: z.string(),
  retest: z
    .strictObject({ of: z.number().int().positive(), name: z.string(), reason: z.string() })
    .nullable(),
});
/** The set that the specimen under way will join when it is kept. */
export type Carried = z.infer<typeof carriedForm>;

const lastForm = z.strictObject({
  archive: z.string(),
  setId: z.number().int().positive().nullable(),
  carried: carriedForm.nullable(),
});

const KEY = 'gaugemark.open-set';

export const openSetId = signal<number | null>(null);
export const openedSet = signal<OpenedSet | null>(null);
export const setFault = signal<Fault | null>(null);
export const carried = signal<Carried | null>(null);
/** Member whose verdict is shown; null shows the set's only. */
export const shownMember = signal<number | null>(null);

let asking = false;
let again = false;

/** Asks for the set and judges it anew. Several calls while it is asked end in one more. */
export async function refreshSet(): Promise<void> {
  if (asking) {
    again = true;
    return;
  }
  asking = true;
  try {
    do {
      again = false;
      await readSet(openSetId.value);
    } while (wantedAgain());
  } finally {
    asking = false;
  }
}

const wantedAgain = (): boolean => again;

async function readSet(setId: number | null): Promise<void> {
  if (setId === null) {
    openedSet.value = null;
    setFault.value = null;
    return;
  }
  const kept = await request('set.get', { setId });
  if (openSetId.value !== setId) return;
  if (!kept.ok) {
    openedSet.value = null;
    setFault.value = kept.fault;
    if (kept.fault.code === 'no-such-set') closeSet();
    return;
  }
  const judged = await request('set.judge', { setId });
  if (openSetId.value !== setId) return;
  setFault.value = judged.ok ? null : judged.fault;
  if (judged.ok) openedSet.value = { kept: kept.value, judged: judged.value };
}

export function openSet(setId: number): void {
  if (openSetId.value !== setId) {
    openedSet.value = null;
    shownMember.value = null;
  }
  openSetId.value = setId;
  void refreshSet();
}

export function closeSet(): void {
  openSetId.value = null;
  openedSet.value = null;
  carried.value = null;
  shownMember.value = null;
}

/** Takes up the set of last time where the same archive is used, and follows what happens to its specimens. */
export function followOpenSet(): () => void {
  const last = remembered(KEY, lastForm.nullable(), null);
  let archive: string | null = null;
  const stop = [
    effect(() => {
      const path = session.value?.archive.path ?? null;
      if (path === null || path === archive) return;
      const first = archive === null;
      archive = path;
      untracked(() => {
        closeSet();
        if (!first || last?.archive !== path) return;
        openSetId.value = last.setId;
        carried.value = last.carried;
      });
    }),
    effect(() => {
      // Whatever may have changed what the archive says of a member.
      const followed = [
        openSetId.value,
        archiveGeneration.value,
        session.value?.state,
        endedPull.value?.kept.value,
        endedPull.value?.specimen.value,
      ];
      // While readings are kept the processor belongs to the record.
      if (
        followed.length === 0 ||
        session.value === null ||
        untracked(() => recording.value && openedSet.value !== null)
      )
        return;
      untracked(() => void refreshSet());
    }),
  ];
  remember(KEY, () =>
    session.value === null
      ? last
      : { archive: session.value.archive.path, setId: openSetId.value, carried: carried.value },
  );
  return () => {
    for (const end of stop) end();
  };
}

/** Puts the specimen just kept into the set that it was measured for. The fault where it can't be, else null. */
export async function joinCarried(specimenId: number): Promise<Fault | null> {
  const into = carried.value;
  if (into === null) return null;
  const joined = await request('set.join', {
    setId: into.setId,
    specimenId,
    ...(into.retest === null ? {} : { retestOf: into.retest.of, reason: into.retest.reason }),
  });
  if (!joined.ok) return joined.fault;
  carried.value = null;
  await refreshSet();
  return null;
}
