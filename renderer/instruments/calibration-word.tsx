/** The state of a calibration in a word with a shape of its own: never told by colour alone. */
import type { JSX } from 'preact';
import type { InstrumentLine } from '../../core/contract/instrument-requests.ts';
import type { CalibrationState } from '../../core/instruments/calibration.ts';
import { fixed } from '../numbers/format.ts';
import { language } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import './calibration-word.css';

const SHAPES: Readonly<Record<CalibrationState, JSX.Element>> = {
  valid: <path d="m3 11 5 6L19 5" fill="none" stroke="currentColor" stroke-width="3" />,
  overdue: (
    <>
      <path d="M11 2 21 20H1Z" fill="none" stroke="currentColor" stroke-width="2.5" stroke-linejoin="round" />
      <path d="M11 8v5.5M11 15.6v2" stroke="currentColor" stroke-width="2.5" />
    </>
  ),
  none: (
    <path d="M4 4h14v14H4Z" fill="none" stroke="currentColor" stroke-width="2.5" stroke-dasharray="4 3" />
  ),
};

export function CalibrationWord({ state, daysLeft }: Pick<InstrumentLine, 'state' | 'daysLeft'>) {
  const text = words.value.instruments;
  const days = daysLeft === null ? null : fixed(Math.abs(daysLeft), 0, language.value);
  return (
    <span class={`calibration-word ${state}`}>
      <svg viewBox="0 0 22 22" width="18" height="18" aria-hidden="true">
        {SHAPES[state]}
      </svg>
      <span>
        {text.states[state]}
        {days === null ? null : (
          <span class="pencil small"> {state === 'valid' ? text.daysLeft(days) : text.daysOver(days)}</span>
        )}
      </span>
    </span>
  );
}
