/** The state of the session in a word with a shape of its own: never told by colour alone. */
import type { JSX } from 'preact';
import type { SessionState } from '../../core/contract/session.ts';
import { words } from '../words/words.ts';
import './state-word.css';

const line = { fill: 'none', stroke: 'currentColor', 'stroke-width': 2.6 } as const;

/** A gauge length between two punch marks, in what it is going through; before that, lines that come in at a mark. */
const SHAPES: Readonly<Record<SessionState, JSX.Element>> = {
  closed: <path d="M6 16h20" {...line} stroke-dasharray="2 5" />,
  listening: (
    <>
      <path d="M2 16h4M9 16h4" {...line} />
      <circle cx="22" cy="16" r="6" {...line} />
    </>
  ),
  ready: (
    <>
      <path d="M5 11h22v10H5Z" {...line} />
      <circle cx="11" cy="16" r="2.2" fill="currentColor" />
      <circle cx="21" cy="16" r="2.2" fill="currentColor" />
    </>
  ),
  pulling: (
    <>
      <path d="M11 16h10" {...line} />
      <path d="M10 8 2 16l8 8Z" fill="currentColor" />
      <path d="m22 8 8 8-8 8Z" fill="currentColor" />
    </>
  ),
  broken: (
    <>
      <path d="M2 11h11l-3 5 3 5H2Z" fill="currentColor" />
      <path d="M30 11H19l-3 5 3 5h11Z" fill="currentColor" />
    </>
  ),
  stopped: (
    <>
      <path d="M3 11h19v10H3Z" {...line} />
      <path d="M28 6v20" {...line} stroke-width="4" />
    </>
  ),
  ended: <path d="M4 8h24M4 17h24M4 22h24" {...line} />,
};

const COLOUR: Readonly<Record<SessionState, string>> = {
  closed: 'var(--pencil)',
  listening: 'var(--grey)',
  ready: 'var(--straw)',
  pulling: 'var(--blue)',
  broken: 'var(--purple)',
  stopped: 'var(--bronze)',
  ended: 'var(--ink)',
};

export function StateShape({ state }: { readonly state: SessionState }) {
  return (
    <svg viewBox="0 0 32 32" width="32" height="32" aria-hidden="true" style={{ color: COLOUR[state] }}>
      {SHAPES[state]}
    </svg>
  );
}

export function StateWord({ state }: { readonly state: SessionState }) {
  return (
    <span class="state-word">
      <StateShape state={state} />
      {words.value.states[state]}
    </span>
  );
}
