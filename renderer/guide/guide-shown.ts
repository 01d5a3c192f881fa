/** Whether the guide lies open. */
import { signal } from '@preact/signals';

export const guideShown = signal(false);
