/** Buttons. One that can't act now keeps its place and says why when pressed; none is dead. */
import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';
import { pressThatMayMoveAway } from './moved-away-press.ts';
import { say } from './said.tsx';
import './button.css';

export interface ButtonProps {
  readonly children: ComponentChildren;
  readonly onPress: () => void;
  /** `call` stands for the one next step; `quiet` for a side way. */
  readonly kind?: 'plain' | 'call' | 'quiet' | 'compact';
  /** One sentence why it can't act now; absent where it can. */
  readonly notNow?: string | undefined;
  readonly name?: string;
  readonly keys?: string;
  readonly id?: string;
  readonly pressed?: boolean;
  readonly expanded?: boolean;
}

export function Button(props: ButtonProps) {
  const { children, onPress, kind = 'plain', notNow, name, keys, id, pressed, expanded } = props;
  const reasonId = useId();
  return (
    <button
      type="button"
      id={id}
      class={`act ${kind}`}
      aria-label={name}
      aria-disabled={notNow === undefined ? undefined : 'true'}
      aria-describedby={notNow === undefined ? undefined : reasonId}
      aria-keyshortcuts={keys}
      aria-pressed={pressed}
      aria-expanded={expanded}
      title={notNow}
      onPointerDown={pressThatMayMoveAway}
      onClick={() => {
        if (notNow === undefined) onPress();
        else say(notNow);
      }}
    >
      {children}
      {notNow === undefined ? null : (
        <span id={reasonId} class="heard">
          {notNow}
        </span>
      )}
    </button>
  );
}
