/** Everything that can be done in the window, each with its words, its keys and the way to it. */
import type { PageSize } from '../../core/contract/looks.ts';
import { drawnAtOnce } from '../design/drawn-at-once.ts';
import { say } from '../design/said.tsx';
import { changeSound, cue, sound } from '../design/sound-cue.ts';
import { closeExchange, goToArchive, openExchange } from '../exchange/exchange-view.ts';
import { backUp } from '../archive/archive-care.tsx';
import { backUpByAge } from '../exchange/backup-reminder.tsx';
import { openPullExport } from '../exchange/pull-export.ts';
import { guideShown } from '../guide/guide-shown.ts';
import { changeArchive } from '../keys/change-archive.ts';
import { keysShown } from '../keys/keys-shown.ts';
import { menuSheet } from '../keys/menu-sheets.tsx';
import { certifiedPull } from '../stations/certificate/certificate-choice.ts';
import { endedPull } from '../stations/opened-pull.ts';
import {
  ACT_KEYS,
  HELD_ACTS,
  PULL_ACTS,
  type PullAct,
  doAct,
  nextSpecimen,
  whyNot,
} from '../stations/pull/pull-acts.ts';
import { factorsNotNow, setFactors, stopsForFactors } from '../stations/readout/set-factors.ts';
import { closeSet, openedSet } from '../stations/set/open-set.ts';
import { inOpenSet } from '../stations/set/pull-verdict.tsx';
import { type Place, PLACES, STATIONS, archivePullId, archiveView, goTo, place } from '../store/place.ts';
import { recording, request, session } from '../store/session-store.ts';
import { nextTaken, stepBack } from '../store/taken-back.ts';
import { chooseTheme } from '../store/theme-choice.ts';
import {
  type ViewSettings,
  changeView,
  nextDigits,
  otherUnits,
  viewSettings,
} from '../store/view-settings.ts';
import type { Words } from '../words/en.ts';
import { beginTour, leaveTour, tourNotNow, tourOn } from '../tour/tour.ts';
import { words } from '../words/words.ts';
import { findPull } from '../keys/find-pull.ts';
import { doingShown } from './doing-shown.ts';
import { open, press, reach } from './reach.ts';

export type ThingId = keyof Words['doing']['things'];

export interface Thing {
  readonly id: ThingId;
  /** As `aria-keyshortcuts` has them; absent where there are none. They count wherever one is, but for acts of the pull. */
  readonly keys?: string;
  /** That do the same and are not shown beside it. */
  readonly otherKeys?: string;
  /** Where it belongs: things of the present place are offered first. */
  readonly at?: Place;
  /** One sentence why it can't be done now; absent or undefined where it can. */
  readonly notNow?: () => string | undefined;
  /** What it would act on now, said behind its name. */
  readonly about?: () => string | undefined;
  /** Keys that the window's own menu listens to, each as it is shown. */
  readonly keysOfWindow?: readonly string[];
  /** One of several that exclude each other: whether it is the chosen one. */
  readonly chosen?: () => boolean;
  readonly run: () => void | Promise<void>;
}

const noPull = (): string | undefined => (pullPlace() === null ? words.value.doing.noPull : undefined);
const noSet = (): string | undefined => (openedSet.value === null ? words.value.doing.noSet : undefined);
const noneOpen = (): string | undefined =>
  (session.value?.readout ?? null) === null ? undefined : words.value.doing.readoutIsOpen;
const whileRecording = (): string | undefined => (recording.value ? words.value.doing.recording : undefined);

/** Where the pull stands that is looked at: opened in the archive, or the session's. */
function pullPlace(): Place | null {
  if (place.value === 'archive' && archivePullId.value !== null) return 'archive';
  return endedPull.value === null ? null : 'result';
}
const fracturePlace = (): Place => (pullPlace() === 'archive' ? 'archive' : 'fracture');
const ofPull = (id: string, keys?: string): Omit<Thing, 'id'> => ({
  ...(keys === undefined ? {} : { keys }),
  at: 'result',
  notNow: noPull,
  run: () => press(pullPlace() ?? 'result', id)(),
});

/** The pull that is looked at; null where there is none. */
const lookedAtPull = (): number | null =>
  place.value === 'archive' ? archivePullId.value : (endedPull.value?.pullId ?? null);

async function exportLookedAt(): Promise<void> {
  const pullId = lookedAtPull() ?? endedPull.value?.pullId ?? null;
  if (pullId !== null) await openPullExport(pullId);
}

/** The archive's table, whatever it showed, and what stands below it. */
function atTable(): void {
  drawnAtOnce(() => {
    archivePullId.value = null;
    archiveView.value = 'table';
    closeExchange();
    goTo('archive');
  });
}

/** The table of what was found, whatever the archive shows, and then the button above it. */
const ofFound = (id: string) => (): void => {
  atTable();
  press('archive', id)();
};

/** The pull that is looked at, opened in the archive, and then the button there. */
const ofPullInArchive = (id: string) => (): void => {
  const pullId = lookedAtPull() ?? endedPull.value?.pullId ?? null;
  drawnAtOnce(() => {
    goTo('archive');
    archivePullId.value = pullId;
  });
  press('archive', id)();
};

type Keys = Pick<Thing, 'keys' | 'otherKeys'>;
const KEYS_OF_PLACE: Readonly<Partial<Record<Place, Keys>>> = {
  ...Object.fromEntries(STATIONS.map((station, index) => [station, { keys: `Alt+${String(index + 1)}` }])),
  archive: { keys: 'Alt+8', otherKeys: 'Control+O' },
  instruments: { keys: 'Alt+9', otherKeys: 'Control+I' },
  people: { keys: 'Control+Shift+P' },
};

/** Pressed where it stands, by the page's own rule for the one marked button. */
export const NEXT_STEP_KEYS = 'Control+Enter';

const theme = (id: ThingId, value: ViewSettings['theme']): Thing => ({
  id,
  chosen: () => viewSettings.value.theme === value,
  run: () => chooseTheme(value),
});
const speaks = (id: ThingId, value: ViewSettings['language']): Thing => ({
  id,
  chosen: () => viewSettings.value.language === value,
  run: () => changeView({ language: value }),
});
/** Takes the last choice back, or brings it again, and says which it was. */
export function takeStep(direction: 'back' | 'forth'): void {
  const { undo } = words.value;
  const taken = stepBack(direction);
  // In the language that it left.
  const now = words.value.undo;
  if (taken === null) say(direction === 'back' ? undo.nothing : undo.nothingAgain);
  else say((direction === 'back' ? now.takenBack : now.broughtAgain)(now.what[taken]));
}
function takes(id: 'take-back' | 'bring-again', direction: 'back' | 'forth', keys: Keys): Thing {
  return {
    id,
    ...keys,
    about: () => {
      const choice = nextTaken(direction);
      return choice === null ? undefined : words.value.undo.what[choice];
    },
    notNow: () => {
      if (nextTaken(direction) !== null) return undefined;
      return direction === 'back' ? words.value.undo.nothing : words.value.undo.nothingAgain;
    },
    run: () => takeStep(direction),
  };
}
const sized = (id: ThingId & PageSize, keysOfWindow: readonly string[]): Thing => ({
  id,
  keysOfWindow,
  run: () => void request('window.set-size', { size: id }),
});
const turns = (shown: { value: boolean }) => (): void => {
  shown.value = !shown.value;
};

function pullAct(act: PullAct): Thing {
  const isHeld = HELD_ACTS.has(act);
  return {
    id: act,
    keys: ACT_KEYS[act],
    at: 'pull',
    notNow: () => whyNot(act),
    run: () => {
      drawnAtOnce(() => goTo('pull'));
      if (!isHeld) return doAct(act);
      // What ends something is never done by one press: it is only led to.
      document.getElementById(`act-${act}`)?.focus();
      say(words.value.doing.holdThere);
    },
  };
}

export const THINGS: readonly Thing[] = [
  ...PLACES.map((where): Thing => ({
    id: `go-${where}`,
    ...KEYS_OF_PLACE[where],
    run: where === 'archive' ? goToArchive : () => goTo(where),
  })),
  {
    id: 'make-set',
    at: 'set',
    notNow: () => (openedSet.value === null ? undefined : words.value.doing.setIsOpen),
    run: press('set', 'make-set'),
  },
  { id: 'correct-set', at: 'set', notNow: noSet, run: press('set', 'correct-set') },
  { id: 'set-step', keys: NEXT_STEP_KEYS, at: 'set', notNow: noSet, run: press('set', 'set-step') },
  {
    id: 'close-set',
    at: 'set',
    notNow: noSet,
    run: () => {
      closeSet();
      goTo('set');
    },
  },
  { id: 'put-in', at: 'set', notNow: noSet, run: open('set', 'put-in') },
  { id: 'next-specimen', keys: 'Control+N', at: 'specimen', notNow: whileRecording, run: nextSpecimen },
  { id: 'keep-specimen', keys: NEXT_STEP_KEYS, at: 'specimen', run: press('specimen', 'keep-specimen') },
  {
    id: 'listen',
    at: 'readout',
    notNow: noneOpen,
    run: press('readout', 'listen'),
  },
  {
    id: 'learn-lines',
    at: 'readout',
    notNow: noneOpen,
    run: press('readout', 'learn-lines'),
  },
  {
    id: 'channel-factors',
    at: 'readout',
    about: () => (stopsForFactors() ? words.value.learn.factors.stopsFirst : undefined),
    notNow: factorsNotNow,
    run: setFactors,
  },
  { id: 'save-profile', at: 'readout', notNow: noneOpen, run: press('readout', 'save-profile') },
  {
    id: 'stop-listening',
    at: 'readout',
    notNow: () =>
      (session.value?.readout ?? null) === null ? words.value.doing.noReadout : whileRecording(),
    run: press('readout', 'stop-listening'),
  },
  ...PULL_ACTS.map(pullAct),
  {
    id: 'typed',
    at: 'pull',
    notNow: whileRecording,
    run: open('pull', 'typed-pull'),
  },
  { id: 'add-photo', at: 'fracture', notNow: noPull, run: () => press(fracturePlace(), 'add-photo')() },
  { id: 'take-photo', at: 'fracture', notNow: noPull, run: () => press(fracturePlace(), 'take-photo')() },
  {
    id: 'after-fracture',
    at: 'fracture',
    notNow: noPull,
    run: () => open(fracturePlace(), 'after-fracture')(),
  },
  { id: 'evaluate-again', ...ofPull('evaluate-again') },
  { id: 'correct-dimensions', ...ofPull('correct-dimensions') },
  { id: 'board', ...ofPull('to-board') },
  {
    id: 'decide-otherwise',
    at: 'result',
    notNow: () => {
      const pull = endedPull.value;
      if (pull === null) return words.value.doing.noPull;
      return inOpenSet(pull.pullId) ? undefined : words.value.doing.noVerdict;
    },
    run: press('result', 'acts-on-verdict'),
  },
  { id: 'write-certificate', at: 'certificate', run: press('certificate', 'write-pdf') },
  {
    id: 'pull-certificate',
    at: 'certificate',
    notNow: noPull,
    run: () => {
      certifiedPull.value = lookedAtPull() ?? endedPull.value?.pullId ?? null;
      goTo('certificate');
    },
  },
  { id: 'sign', at: 'certificate', run: open('certificate', 'sign-block') },
  { id: 'laboratory', at: 'certificate', run: open('certificate', 'laboratory') },
  { id: 'find', keys: 'Control+F', at: 'archive', run: findPull },
  { id: 'lay-over', at: 'archive', run: ofFound('lay-over') },
  { id: 'see-trend', at: 'archive', run: ofFound('see-trend') },
  { id: 'evaluate-found-again', at: 'archive', run: ofFound('evaluate-found-again') },
  { id: 'split-by-year', at: 'archive', notNow: whileRecording, run: () => openExchange('split') },
  { id: 'search-others', at: 'archive', run: () => openExchange('elsewhere') },
  { id: 'export', keys: 'Control+E', at: 'archive', notNow: noPull, run: exportLookedAt },
  {
    id: 'check',
    at: 'archive',
    run: () => {
      atTable();
      document.getElementById('check-archive')?.click();
    },
  },
  {
    id: 'backup',
    at: 'archive',
    run: async () => {
      atTable();
      await backUp();
    },
  },
  {
    id: 'backup-folder',
    at: 'archive',
    run: async () => {
      atTable();
      await backUpByAge('same');
    },
  },
  { id: 'import-file', at: 'archive', run: () => openExchange('import') },
  { id: 'merge-archive', at: 'archive', run: () => openExchange('merge') },
  { id: 'restore-backup', at: 'archive', run: () => openExchange('restore') },
  { id: 'export-results', at: 'archive', run: () => openExchange('results') },
  { id: 'other-archive', at: 'archive', notNow: whileRecording, run: () => changeArchive('open') },
  { id: 'new-archive', at: 'archive', notNow: whileRecording, run: () => changeArchive('new') },
  { id: 'state-day', at: 'archive', notNow: noPull, run: ofPullInArchive('state-day') },
  { id: 'void', at: 'archive', notNow: noPull, run: ofPullInArchive('void-pull') },
  { id: 'add-instrument', at: 'instruments', run: press('instruments', 'add-instrument') },
  { id: 'add-person', at: 'people', run: press('people', 'add-person') },
  { id: 'run-self-check', at: 'self-check', run: press('self-check', 'run-self-check') },
  {
    id: 'sound',
    at: 'pull',
    run: () => {
      changeSound({ on: !sound.value.on });
      cue('started');
      say(sound.value.on ? words.value.sound.on : words.value.sound.off);
    },
  },
  {
    id: 'speed',
    at: 'pull',
    notNow: whileRecording,
    run: () => reach('pull', 'speed-method', () => undefined),
  },
  { id: 'choices', run: () => press(place.value, 'view')() },
  takes('take-back', 'back', { keys: 'Control+Z' }),
  takes('bring-again', 'forth', { keys: 'Control+Shift+Z', otherKeys: 'Control+Y' }),
  { id: 'units', keys: 'Control+U', run: () => changeView({ units: otherUnits() }) },
  { id: 'digits', keys: 'Control+D', run: () => changeView({ digitsMm: nextDigits() }) },
  sized('larger', ['Ctrl', '+']),
  sized('smaller', ['Ctrl', '−']),
  sized('natural-size', []),
  sized('full-screen', ['F11']),
  theme('theme-system', 'system'),
  theme('theme-chalk', 'chalk'),
  theme('theme-soot', 'soot'),
  theme('theme-contrast', 'contrast'),
  speaks('language-en', 'en'),
  speaks('language-es', 'es'),
  { id: 'what-to-do', keys: 'Control+J', run: turns(doingShown) },
  { id: 'tour', notNow: tourNotNow, run: beginTour },
  { id: 'leave-tour', notNow: () => (tourOn.value ? undefined : words.value.tour.isOff), run: leaveTour },
  { id: 'guide', keys: 'F2', run: turns(guideShown) },
  { id: 'keys', keys: 'F1', run: turns(keysShown) },
  { id: 'cautions', run: () => void (menuSheet.value = 'cautions') },
  { id: 'about', run: () => void (menuSheet.value = 'about') },
];

/** The keys of a thing, each as it is shown; empty where there are none. */
export const shownKeys = ({ keys, keysOfWindow }: Thing): readonly string[] =>
  keysOfWindow ?? keys?.split('+').map((key) => (key === 'Control' ? 'Ctrl' : key)) ?? [];
