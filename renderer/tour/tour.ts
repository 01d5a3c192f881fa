/**
 * The tour: a simulated specimen goes through the real stations, in an archive of its own. What was being entered before
 * is put aside and comes back when the tour is left.
 */
import { computed, effect, signal } from '@preact/signals';
import { z } from 'zod';
import type { Bridge } from '../../core/contract/bridge.ts';
import { standingNote } from '../../core/pull/standing-note.ts';
import { ask } from '../bridge/ask.ts';
import { say } from '../design/said.tsx';
import { endedPull, typedPullId } from '../stations/opened-pull.ts';
import { readoutChoice, readoutChoiceForm } from '../stations/readout/readout-choice.ts';
import { type Picked, letGoOfPicked, pickAgain, pickedNow } from '../stations/readout/readout-form.ts';
import { scenarios } from '../stations/readout/scenarios.ts';
import { carried, carriedForm, openSet, openSetId } from '../stations/set/open-set.ts';
import { archivePullId, goTo, place } from '../store/place.ts';
import { remember, remembered } from '../store/remembered.ts';
import { recording, request, session } from '../store/session-store.ts';
import { draft, draftForm, draftFromFile, draftIsKept } from '../store/specimen-draft.ts';
import { told } from '../words/told.ts';
import { words } from '../words/words.ts';

/** The simulated frame pulls faster than a real one would, so that nobody waits two minutes. */
const PACE = 3;

export const tourOn = signal(false);

const KEY = 'gaugemark.before-tour';
const asideForm = z.object({
  archive: z.string(),
  draft: draftForm,
  readout: readoutChoiceForm,
  setId: z.number().int().positive().nullable(),
  carried: carriedForm.nullable(),
});
/** Kept over reloads, so that a window closed in the middle of a tour gives back what was there before. */
const aside = signal<z.infer<typeof asideForm> | null>(remembered(KEY, asideForm.nullable(), null));

/** What was picked at the station Readout and not listened to; a page that is loaded again has picked nothing. */
let pickedBefore: Picked | null = null;

export const TOUR_STEPS = ['specimen', 'readout', 'pull', 'fracture', 'result', 'archive'] as const;
export type TourStep = (typeof TOUR_STEPS)[number];

/** What comes next, by what is done already; the end is where somebody looks into the archive. */
export const tourStep = computed<TourStep>(() => {
  const ended = endedPull.value;
  if (ended === null) {
    const state = session.value?.state ?? 'closed';
    if (!draftIsKept.value && (state === 'closed' || state === 'listening')) return 'specimen';
    return state === 'closed' ? 'readout' : 'pull';
  }
  const notes = ended.kept.value?.fractureNotes ?? [];
  if (standingNote(notes) === null) return 'fracture';
  return place.value === 'archive' ? 'archive' : 'result';
});

/** Learns from main whether the tour is on. Returns what stops it. */
export function followTour(bridge: Bridge): () => void {
  remember(KEY, () => aside.value);
  void ask(bridge, 'window.info', {}).then((info) => {
    if (!info.ok) return;
    tourOn.value = info.value.tour;
    known.value = true;
  });
  const known = signal(false);
  const off = [
    bridge.on('archive-changed', ({ tour }) => {
      // Pulls of one archive are no pulls of another.
      archivePullId.value = null;
      typedPullId.value = null;
      tourOn.value = tour;
    }),
    effect(() => {
      const path = session.value?.archive.path ?? null;
      if (!known.value || tourOn.value || path === null || path !== aside.value?.archive) return;
      // After whatever else follows the change of archive.
      queueMicrotask(bringBack);
    }),
  ];
  return () => {
    for (const end of off) end();
  };
}

function bringBack(): void {
  const before = aside.value;
  if (before === null) return;
  aside.value = null;
  draft.value = before.draft;
  readoutChoice.value = before.readout;
  if (pickedBefore === null) letGoOfPicked();
  else pickAgain(pickedBefore);
  pickedBefore = null;
  carried.value = before.carried;
  if (before.setId !== null) openSet(before.setId);
}

/** One sentence why it can't begin now; undefined where it can. */
export function tourNotNow(): string | undefined {
  if (tourOn.value) return words.value.tour.isOn;
  return recording.value ? words.value.doing.recording : undefined;
}

export async function beginTour(): Promise<void> {
  const [scenario] = scenarios.value;
  const archive = session.value?.archive.path;
  if (tourOn.value || scenario === undefined || archive === undefined) return;
  const before = {
    archive,
    draft: draft.value,
    readout: readoutChoice.value,
    setId: openSetId.value,
    carried: carried.value,
  };
  const answer = await request('window.tour', { on: true });
  if (!answer.ok) {
    say(told(answer.fault.sentence));
    return;
  }
  // The answer may come before the word that the archive has changed.
  tourOn.value = true;
  aside.value = before;
  draft.value = draftFromFile(scenario.specimen);
  readoutChoice.value = {
    ...before.readout,
    source: { kind: 'simulated', scenario: scenario.name, pace: PACE },
    second: null,
  };
  pickedBefore = pickedNow();
  letGoOfPicked();
  goTo('specimen');
  // The button that led here may be gone, and somebody may have read further down.
  const sheet = document.querySelector<HTMLElement>('main.sheet');
  sheet?.scrollTo(0, 0);
  sheet?.focus();
}

export async function leaveTour(): Promise<void> {
  const answer = await request('window.tour', { on: false });
  if (!answer.ok) say(told(answer.fault.sentence));
  else goTo('specimen');
}
