/** The window's menu: filled from the one list of what can be done, and followed when something is pressed in it. */
import { computed, effect } from '@preact/signals';
import type { Bridge } from '../../core/contract/bridge.ts';
import type { MenuEntry, MenuName } from '../../core/contract/window-requests.ts';
import { ask } from '../bridge/ask.ts';
import { say } from '../design/said.tsx';
import { PULL_ACTS } from '../stations/pull/pull-acts.ts';
import { labelOf, placeOf } from './doing-field.tsx';
import { NEXT_STEP_KEYS, THINGS, type Thing, type ThingId } from './functions.ts';

/** Where everything that can be done stands in the menu: in parts, with a line between them. */
export const MENU_PARTS: Readonly<Record<MenuName, readonly (readonly ThingId[])[]>> = {
  file: [
    ['other-archive', 'new-archive'],
    ['backup', 'backup-folder', 'restore-backup', 'check', 'split-by-year'],
    ['import-file', 'merge-archive', 'export', 'export-results'],
    ['add-instrument', 'add-person'],
  ],
  edit: [['take-back', 'bring-again']],
  set: [
    ['make-set', 'correct-set', 'set-step', 'close-set'],
    ['put-in', 'next-specimen', 'keep-specimen'],
    ['write-certificate', 'pull-certificate', 'sign', 'laboratory'],
  ],
  pull: [
    ['listen', 'learn-lines', 'channel-factors', 'save-profile', 'stop-listening'],
    [...PULL_ACTS],
    ['speed', 'sound', 'typed'],
    ['add-photo', 'take-photo', 'after-fracture'],
    ['evaluate-again', 'correct-dimensions', 'board', 'decide-otherwise', 'state-day', 'void'],
  ],
  search: [
    ['find', 'search-others'],
    ['lay-over', 'see-trend', 'evaluate-found-again'],
  ],
  go: [
    ['go-set', 'go-specimen', 'go-readout', 'go-pull', 'go-fracture', 'go-result', 'go-certificate'],
    ['go-archive', 'go-instruments', 'go-people', 'go-self-check'],
  ],
  view: [
    ['units', 'digits', 'choices'],
    ['theme-system', 'theme-chalk', 'theme-soot', 'theme-contrast'],
    ['language-en', 'language-es'],
  ],
  help: [
    ['what-to-do', 'guide', 'keys'],
    ['tour', 'leave-tour', 'run-self-check'],
    ['cautions', 'about'],
  ],
};

/** What the window's own process puts into its menu itself, with keys of its own. */
export const OF_THE_WINDOW: readonly ThingId[] = ['larger', 'smaller', 'natural-size', 'full-screen'];

const THING_OF: ReadonlyMap<string, Thing> = new Map(THINGS.map((thing) => [thing.id, thing]));
/** In a text their keys take back what was typed there. */
const NOT_IN_TEXTS = ['take-back', 'bring-again'] as const satisfies readonly ThingId[];
const OF_ONE_PLACE: ReadonlySet<string> = new Set([...PULL_ACTS, ...NOT_IN_TEXTS]);

/** Where a thing stands in the menu. */
interface Standing {
  readonly thing: Thing;
  readonly menu: MenuName;
  /** A line stands before it. */
  readonly begins: boolean;
}

const STANDING: readonly Standing[] = (
  Object.entries(MENU_PARTS) as [MenuName, readonly (readonly ThingId[])[]][]
).flatMap(([menu, parts]) =>
  parts.flatMap((ids, part) =>
    ids.flatMap((id, index) => {
      const thing = THING_OF.get(id);
      return thing === undefined ? [] : { thing, menu, begins: part > 0 && index === 0 };
    }),
  ),
);

function entryOf({ thing, menu, begins }: Standing): MenuEntry {
  return {
    id: thing.id,
    menu,
    begins,
    label: placeOf(thing.id) ?? labelOf(thing),
    keys: thing.keys ?? null,
    everywhere: !OF_ONE_PLACE.has(thing.id) && thing.keys !== NEXT_STEP_KEYS,
    enabled: thing.notNow?.() === undefined,
    chosen: thing.chosen?.() ?? null,
  };
}

/** The menu as it has to be now. */
export const menuNow = (): MenuEntry[] => STANDING.map(entryOf);

/** Does what was pressed, or says why it can't be done now: since the menu was drawn it may have changed. */
export function chosenInMenu(command: string): void {
  const thing = THING_OF.get(command);
  if (thing === undefined) return;
  const reason = thing.notNow?.();
  if (reason === undefined) void thing.run();
  else say(reason);
}

/** Tells the menu what there is, now and whenever it changes, and follows it. Returns what stops it. */
export function followMenu(bridge: Bridge): () => void {
  // A session tells of itself several times a second: only entries that rest on it are worked out anew then, and the menu
  // is told when one of them is another.
  const entries = STANDING.map((one) => computed(() => JSON.stringify(entryOf(one))));
  const told = computed(() => `[${entries.map((one) => one.value).join(',')}]`);
  const stop = [
    bridge.on('menu-command', ({ command }) => chosenInMenu(command)),
    effect(() => void ask(bridge, 'window.set-menu', { entries: JSON.parse(told.value) as MenuEntry[] })),
  ];
  return () => stop.forEach((one) => one());
}
