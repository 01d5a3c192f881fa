/** A figure to be read from two metres: tabular digits in fixed places, sign in a place of its own beside them, small unit behind. */
import type { ReadingsOrigin } from '../../core/pull/readings-origin.ts';
import { ReadingsMark } from './readings-mark.tsx';
import './figure.css';

export interface FigureProps {
  readonly name: string;
  /** Text of the number without its unit, "−0.02" or "63.31"; null where there is none to show. */
  readonly text: string | null;
  readonly unit: string;
  /** Digits that room is kept for, so that the unit doesn't wander. */
  readonly room: number;
  /** CSS length of the font. */
  readonly size: string;
  readonly stale?: boolean;
  /** Why there is no number. */
  readonly noneBecause?: string | undefined;
  readonly remark?: string | undefined;
  readonly mark?: 'peak' | undefined;
  /** Where no frame sends the readings. */
  readonly readings?: ReadingsOrigin | undefined;
  /** It is never below zero: no room for a sign is kept. */
  readonly unsigned?: boolean;
}

export function Figure({
  name,
  text,
  unit,
  room,
  size,
  stale = false,
  noneBecause,
  remark,
  mark,
  readings,
  unsigned = false,
}: FigureProps) {
  const negative = text?.startsWith('−') === true;
  const digits = negative ? text.slice(1) : text;
  return (
    <div class="figure" data-stale={stale} style={{ '--figure-size': size }}>
      <div class="figure-name">
        {mark === 'peak' ? (
          <svg width="12" height="10" viewBox="0 0 12 10" aria-hidden="true">
            <path d="M0 1h12L6 10Z" fill="var(--purple)" />
          </svg>
        ) : null}
        {name}
        {remark === undefined ? null : <span class="hint">{remark}</span>}
        <ReadingsMark readings={readings} />
      </div>
      <div class="figure-value">
        <span
          class="figure-digits"
          data-signed={!unsigned || negative}
          data-known={digits !== null}
          style={{ '--room': `${String(room)}ch` }}
        >
          <span class="figure-number">
            {negative ? <span class="figure-sign">−</span> : null}
            {digits ?? '–'}
          </span>
        </span>
        <span class="figure-unit">{digits === null ? (noneBecause ?? unit) : unit}</span>
      </div>
    </div>
  );
}
