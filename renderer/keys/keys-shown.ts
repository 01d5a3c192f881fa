/** Whether the sheet of keys lies over the page. */
import { signal } from '@preact/signals';

export const keysShown = signal(false);
