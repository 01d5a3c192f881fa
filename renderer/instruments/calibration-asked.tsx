/** Asks once before a pull is made ready on what is overdue, missing or was never set. */
import { signal } from '@preact/signals';
import type { Concern, InstrumentsBeforeStart } from '../../core/instruments/pull-instruments.ts';
import { type AskedButton, AskedButtons, WhatButtonsDo } from '../design/asked-buttons.tsx';
import { SheetDialog } from '../keys/sheet-dialog.tsx';
import { goTo } from '../store/place.ts';
import { words } from '../words/words.ts';
import { allConcernWords } from './concern-words.ts';

interface Asked {
  readonly before: InstrumentsBeforeStart;
  readonly onKnown: () => void;
}

const asked = signal<Asked | null>(null);
/** What was said to be known: it is asked again when anything of it changes, and after the window was opened anew. */
const known = new Set<string>();

const keyOf = ({ concerns, used }: InstrumentsBeforeStart): string =>
  JSON.stringify([
    concerns,
    used.map(({ instrumentId, calibrationId, state }) => [instrumentId, calibrationId, state]),
  ]);

/** Concerns that a person knows; null while they are asked about, and `onKnown` goes on afterwards. */
export function knownConcerns(before: InstrumentsBeforeStart, onKnown: () => void): Concern[] | null {
  if (before.concerns.length === 0 || known.has(keyOf(before))) return before.concerns;
  asked.value = { before, onKnown };
  return null;
}

export function CalibrationAsked() {
  const text = words.value.instruments.ask;
  const now = asked.value;
  if (now === null) return null;
  const close = () => (asked.value = null);
  const buttons: readonly AskedButton[] = [
    {
      ...text.buttons.known,
      kind: 'call',
      id: 'calibration-known',
      onPress: () => {
        known.add(keyOf(now.before));
        close();
        now.onKnown();
      },
    },
    {
      ...text.buttons.elsewhere,
      onPress: () => {
        close();
        goTo('readout');
      },
    },
    { ...text.buttons.cancel, onPress: close },
  ];
  return (
    <SheetDialog title={text.title} onClose={close}>
      <p>{text.lead}</p>
      <ul class="calibration-concerns asked">
        {allConcernWords(now.before, words.value).map((sentence) => (
          <li key={sentence}>
            <span aria-hidden="true">▲</span> {sentence}
          </li>
        ))}
      </ul>
      <WhatButtonsDo buttons={buttons} />
      <AskedButtons buttons={buttons} />
    </SheetDialog>
  );
}
