/**
 * A button for what must not happen by a stray touch or key: it acts only after it has been held for a second.
 * Space and Enter never act on it; they say what does, and so does a press that is let go too early.
 */
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { HOLD_MS, HoldTimer } from './hold-timer.ts';
import { say } from './said.tsx';
import './button.css';

export interface HoldButtonProps {
  readonly label: string;
  readonly holdingLabel: string;
  /** Said instead of acting: what it would do and how it is held. */
  readonly holdHint: string;
  readonly onHeld: () => void;
  readonly notNow?: string | undefined;
  /** True while the same act is being held on the keyboard. */
  readonly heldByKeys?: boolean;
  readonly id?: string;
  /** `call` where to hold it is the one next step. */
  readonly kind?: 'plain' | 'call';
}

export function HoldButton({
  label,
  holdingLabel,
  holdHint,
  onHeld,
  notNow,
  heldByKeys = false,
  id,
  kind = 'plain',
}: HoldButtonProps) {
  const [pointerHeld, setPointerHeld] = useState(false);
  const { current: timer } = useRef(new HoldTimer());
  // Where it was when it was pressed: an alarm that comes meanwhile can move it from under a finger that keeps still.
  const pressed = useRef<DOMRect | null>(null);
  const letGo = () => {
    timer.cancel();
    setPointerHeld(false);
  };
  const ended = ({ timeStamp }: PointerEvent) => {
    if (timer.end(timeStamp)) say(holdHint);
    setPointerHeld(false);
  };
  // A step that has become impossible, or a page that goes away, must not act a second later. With the drawing: a frame
  // later it would take away a press that began as soon as the step was possible.
  useLayoutEffect(() => letGo, [notNow]);
  const holding = (pointerHeld || heldByKeys) && notNow === undefined;
  return (
    <button
      type="button"
      id={id}
      class={`act ${kind} hold`}
      style={{ '--hold-ms': `${HOLD_MS}ms` }}
      data-holding={holding}
      aria-disabled={notNow === undefined ? undefined : 'true'}
      title={notNow ?? holdHint}
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        if (notNow !== undefined) {
          say(notNow);
          return;
        }
        event.currentTarget.setPointerCapture(event.pointerId);
        pressed.current = event.currentTarget.getBoundingClientRect();
        setPointerHeld(true);
        timer.begin(event.timeStamp, () => {
          setPointerHeld(false);
          onHeld();
        });
      }}
      onPointerUp={ended}
      onPointerCancel={letGo}
      // Also when a window comes up above this one and takes the pointer.
      onLostPointerCapture={ended}
      onPointerMove={(event) => {
        const box = pressed.current;
        if (!timer.isHeld || box === null) return;
        const inside =
          event.clientX >= box.left &&
          event.clientX <= box.right &&
          event.clientY >= box.top &&
          event.clientY <= box.bottom;
        if (!inside) ended(event);
      }}
      onContextMenu={(event) => event.preventDefault()}
      onKeyDown={(event) => {
        if (event.key === ' ' || event.key === 'Enter') {
          event.preventDefault();
          say(notNow ?? holdHint);
        }
      }}
    >
      {holding ? holdingLabel : label}
    </button>
  );
}
