/** The sheet of keys: those of everything that can be done, from the one list of it, and those that move about. */
import type { PullAct } from '../stations/pull/pull-acts.ts';
import { HELD_ACTS, PULL_ACTS } from '../stations/pull/pull-acts.ts';
import { STATIONS } from '../store/place.ts';
import { namedThing } from '../doing/doing-field.tsx';
import { NEXT_STEP_KEYS, THINGS, type Thing, shownKeys } from '../doing/functions.ts';
import { words } from '../words/words.ts';
import { capOf } from './key-caps.ts';
import { keysShown } from './keys-shown.ts';
import { SheetDialog } from './sheet-dialog.tsx';

/** Keys that are pressed together, and what they do. */
type Row = readonly [keys: readonly string[], what: string];

const isPullAct = (id: string): id is PullAct => (PULL_ACTS as readonly string[]).includes(id);
const SHOWS: ReadonlySet<Thing['id']> = new Set<Thing['id']>([
  'units',
  'digits',
  'larger',
  'smaller',
  'full-screen',
  'take-back',
  'bring-again',
]);
/** In one line, since they are counted through. */
const IN_ONE_LINE: ReadonlySet<string> = new Set(STATIONS.map((station) => `go-${station}`));

function rowOf(thing: Thing): Row {
  const text = words.value.keys;
  const { name } = namedThing(thing);
  const { undo } = words.value;
  if (thing.id === 'take-back') return [shownKeys(thing), undo.key];
  if (thing.id === 'bring-again') return [shownKeys(thing), undo.againKey];
  const what = isPullAct(thing.id) && HELD_ACTS.has(thing.id) ? text.held(name) : name;
  return [shownKeys(thing), thing.id === 'stop' ? `${what}; ${text.atTheFrame}` : what];
}

export function rowsOfKeys(): Readonly<Record<'move' | 'pull' | 'plot' | 'show', readonly Row[]>> {
  const text = words.value.keys;
  const withKeys = THINGS.filter(
    (thing) => shownKeys(thing).length > 0 && thing.keys !== NEXT_STEP_KEYS && !IN_ONE_LINE.has(thing.id),
  );
  const rows = (belongs: (thing: Thing) => boolean): Row[] => withKeys.filter(belongs).map(rowOf);
  return {
    move: [
      [['Alt', `1…${String(STATIONS.length)}`], text.stationsKey],
      ...rows(({ id }) => !isPullAct(id) && !SHOWS.has(id)),
      [NEXT_STEP_KEYS.replace('Control', 'Ctrl').split('+'), words.value.set.keys.stepKey],
      [['Tab', 'Shift Tab'], text.tabKey],
      [['Esc'], text.escKey],
    ],
    pull: rows(({ id }) => isPullAct(id)),
    plot: [
      [['←', '→'], text.walkKey],
      [['Shift', '← →'], text.jumpKey],
      [['Home', 'End'], text.endsKey],
      [['P', 'Y', 'B'], text.peakKey],
      [['+', '−', '0'], text.zoomKey],
      [['Ctrl', '← → ↑ ↓'], text.moveKey],
    ],
    show: [...rows(({ id }) => SHOWS.has(id)), [['Ctrl', 'C'], words.value.copy.key]],
  };
}

export function KeysSheet() {
  if (!keysShown.value) return null;
  const text = words.value.keys;
  const groups = rowsOfKeys();
  return (
    <SheetDialog title={text.title} onClose={() => (keysShown.value = false)}>
      <div class="key-groups">
        {(['move', 'pull', 'plot', 'show'] as const).map((group) => (
          <section key={group}>
            <h3>{text.groups[group]}</h3>
            <dl>
              {groups[group].map(([keys, what]) => (
                <>
                  <dt>
                    {keys.map((k, i) => (
                      <>
                        {i > 0 ? ' ' : ''}
                        <kbd>{capOf(k)}</kbd>
                      </>
                    ))}
                  </dt>
                  <dd>{what}</dd>
                </>
              ))}
            </dl>
          </section>
        ))}
      </div>
    </SheetDialog>
  );
}
