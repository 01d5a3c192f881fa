/** Whether the field is open in which one writes what one wants to do. */
import { signal } from '@preact/signals';

export const doingShown = signal(false);
