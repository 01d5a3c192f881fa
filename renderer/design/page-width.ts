/** Width of the page in CSS px, for what a style sheet can't ask: whether widths reckoned in ems fit beside each other. */
import { signal } from '@preact/signals';

export const pageWidth = signal(innerWidth);
addEventListener('resize', () => {
  pageWidth.value = innerWidth;
});
