/** The sheet of keys. */
import { signal } from '@preact/signals';
import { words } from '../words/words.ts';
import { SheetDialog } from './sheet-dialog.tsx';

export const keysShown = signal(false);

export function KeysSheet() {
  if (!keysShown.value) return null;
  const text = words.value.keys;
  const groups: readonly (readonly [string, readonly (readonly [readonly string[], string])[]])[] = [
    [
      text.groups.move,
      [
        [['Alt', '1…7'], text.stationsKey],
        [['Alt', '8'], text.archiveKey],
        [['Alt', '9'], words.value.instruments.key],
        [['Ctrl', 'Shift', 'P'], words.value.people.key],
        [['Ctrl', 'Enter'], words.value.set.keys.stepKey],
        [['Ctrl', 'F'], text.findKey],
        [['Ctrl', 'J'], words.value.doing.title],
        [['Tab', 'Shift Tab'], text.tabKey],
        [['Esc'], text.escKey],
        [['F1'], text.keysKey],
        [['F2'], words.value.guide.title],
      ],
    ],
    [
      text.groups.pull,
      [
        [['Ctrl', 'R'], text.readyKey],
        [['Ctrl', 'S'], text.startKey],
        [['Ctrl', 'B'], text.markKey],
        [['Ctrl', 'G'], text.goOnKey],
        [['Ctrl', '0'], text.zeroKey],
        [['Ctrl', 'Backspace'], text.stopKey],
        [['Ctrl', 'End'], text.closeKey],
      ],
    ],
    [
      text.groups.plot,
      [
        [['←', '→'], text.walkKey],
        [['Shift', '← →'], text.jumpKey],
        [['Home', 'End'], text.endsKey],
        [['P', 'B'], text.peakKey],
      ],
    ],
    [
      text.groups.show,
      [
        [['Ctrl', 'U'], text.unitsKey],
        [['Ctrl', 'D'], text.digitsKey],
        [['Ctrl', 'C'], words.value.copy.key],
        [['Ctrl', 'Z'], words.value.undo.key],
        [['Ctrl', 'Shift', 'Z'], words.value.undo.againKey],
      ],
    ],
  ];
  return (
    <SheetDialog title={text.title} onClose={() => (keysShown.value = false)}>
      <div class="key-groups">
        {groups.map(([title, rows]) => (
          <section key={title}>
            <h3>{title}</h3>
            <dl>
              {rows.map(([keys, what]) => (
                <>
                  <dt>
                    {keys.map((k, i) => (
                      <>
                        {i > 0 ? ' ' : ''}
                        <kbd>{k}</kbd>
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
