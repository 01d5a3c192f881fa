/** Leads to the first field that is wrong. */

/**
 * Focuses the first field marked as wrong within what the selector names, once the page shows the marks. A group that is
 * folded over it is opened, so that it can be seen.
 */
export function focusFirstFault(within: string): void {
  requestAnimationFrame(() => {
    const wrong = document.querySelector<HTMLElement>(`${within} [aria-invalid="true"]`);
    wrong?.closest('details')?.setAttribute('open', '');
    wrong?.focus();
  });
}
