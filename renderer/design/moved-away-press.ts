/**
 * A press that begins on a button counts although the page moved beneath the still pointer before it ended: a field that
 * is left by the press may grow (its mean, a fault beside it), and the browser gives the click to nobody then.
 */

/** Pixels; who moves further has drawn the pointer off the button to take the press back. */
const STILL_MAX = 4;

export function pressThatMayMoveAway(down: PointerEvent): void {
  const button = down.currentTarget;
  if (down.button !== 0 || !(button instanceof HTMLElement)) return;
  const ended = (up: PointerEvent): void => {
    if (up.pointerId !== down.pointerId) return;
    removeEventListener('pointerup', ended);
    removeEventListener('pointercancel', ended);
    if (up.type !== 'pointerup') return;
    const isStill = Math.hypot(up.clientX - down.clientX, up.clientY - down.clientY) <= STILL_MAX;
    const beneath = document.elementFromPoint(up.clientX, up.clientY);
    if (isStill && button.isConnected && !button.contains(beneath)) button.click();
  };
  addEventListener('pointerup', ended);
  addEventListener('pointercancel', ended);
}
