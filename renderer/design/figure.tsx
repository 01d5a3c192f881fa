/** A figure to be read from two metres: tabular digits in fixed places, sign in its own column, small unit beside. */
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
  /** It is never below zero: no column for a sign is kept. */
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
      </div>
      {digits === null ? (
        <div class="figure-value">
          {unsigned ? null : <span class="figure-sign" />}
          <span class="figure-digits" style={{ minWidth: `${room}ch` }}>
            –
          </span>
          <span class="figure-unit">{noneBecause ?? unit}</span>
        </div>
      ) : (
        <div class="figure-value">
          {unsigned && !negative ? null : <span class="figure-sign">{negative ? '−' : ''}</span>}
          <span class="figure-digits" style={{ minWidth: `${room}ch` }}>
            {digits}
          </span>
          <span class="figure-unit">{unit}</span>
        </div>
      )}
    </div>
  );
}
