/**
 * What is chosen in a list that has no room for it: the whole of it beneath the list, as long as that has the focus or the
 * pointer. A list of the system breaks no lines; opened, it shows each of its entries whole. For eyes only: to whom the page
 * is read, the value is read whole.
 */
import './whole-choice.css';

/** Between the ring around the list and the words. */
const BELOW_PX = 7;
const BESIDE_PX = 8;

/** Follows every list of the page from now on. Returns what stops it. */
export function showWholeChoices(): () => void {
  const tip = document.createElement('div');
  tip.className = 'whole-choice';
  tip.setAttribute('role', 'tooltip');
  tip.setAttribute('aria-hidden', 'true');
  tip.popover = 'manual';
  let list: HTMLSelectElement | null = null;

  const hide = (): void => {
    list = null;
    tip.remove();
  };
  const show = (of: HTMLSelectElement): void => {
    const words = of.selectedOptions[0]?.label ?? '';
    if (words === '' || !isCut(of, words)) {
      hide();
      return;
    }
    list = of;
    tip.textContent = words;
    // What lies outside a sheet that is on top lies beneath it.
    (of.closest('dialog') ?? document.body).append(tip);
    if (!tip.matches(':popover-open')) tip.showPopover();
    place(of);
  };
  const place = (of: HTMLSelectElement): void => {
    const { left, top, bottom } = of.getBoundingClientRect();
    tip.style.maxWidth = `${String(innerWidth - 2 * BESIDE_PX)}px`;
    const { offsetWidth, offsetHeight } = tip;
    const isBelow = bottom + BELOW_PX + offsetHeight <= innerHeight;
    tip.style.left = `${String(Math.max(BESIDE_PX, Math.min(left, innerWidth - BESIDE_PX - offsetWidth)))}px`;
    tip.style.top = `${String(isBelow ? bottom + BELOW_PX : top - BELOW_PX - offsetHeight)}px`;
  };

  const comes = ({ target }: Event): void => {
    if (target instanceof HTMLSelectElement) show(target);
    // A view that has gone tells nothing of what had the focus in it.
    else if (list?.isConnected === false) hide();
  };
  const goes = ({ target, type }: Event): void => {
    const stays = type === 'focusout' ? ':hover' : ':focus';
    if (target === list && list?.matches(stays) !== true) hide();
  };
  const moves = (): void => {
    if (list === null) return;
    if (list.isConnected) place(list);
    else hide();
  };
  const escapes = ({ key }: KeyboardEvent): void => {
    if (key === 'Escape') hide();
  };
  const stop = new AbortController();
  const { signal } = stop;
  for (const name of ['focusin', 'pointerover', 'change'] as const)
    document.addEventListener(name, comes, { signal });
  for (const name of ['focusout', 'pointerout'] as const) document.addEventListener(name, goes, { signal });
  document.addEventListener('keydown', escapes, { signal });
  document.addEventListener('scroll', moves, { signal, capture: true, passive: true });
  window.addEventListener('resize', moves, { signal });
  return () => {
    stop.abort();
    hide();
  };
}

/** As wide as a list with nothing else in it would be, it would be wider than it is. */
function isCut(list: HTMLSelectElement, words: string): boolean {
  const alone = document.createElement('select');
  alone.className = `${list.className} whole-choice-measured`;
  alone.append(new Option(words));
  alone.inert = true;
  list.after(alone);
  const wanted = alone.getBoundingClientRect().width;
  alone.remove();
  return wanted > list.getBoundingClientRect().width + 1;
}
