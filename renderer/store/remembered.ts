/** Small things that the page remembers over a reload, checked when they come back. Never anything recorded. */
import { effect } from '@preact/signals';
import type { z } from 'zod';

/** Absent outside a page, and where the system forbids it: the page then starts afresh each time. */
const store: Storage | undefined = typeof localStorage === 'undefined' ? undefined : localStorage;

/** What is remembered under a key, or `otherwise` where there is nothing or nothing readable. */
export const remembered = <T>(key: string, form: z.ZodType<T>, otherwise: T): T =>
  rememberedOr(key, form, () => otherwise);

/** The same, where it takes long to find out what else it would be. */
export function rememberedOr<T>(key: string, form: z.ZodType<T>, otherwise: () => T): T {
  try {
    return form.parse(JSON.parse(store?.getItem(key) ?? ''));
  } catch {
    // A damaged setting is no reason to show nothing.
    return otherwise();
  }
}

/** Remembers a value from now on, whenever it changes. */
export function remember(key: string, value: () => unknown): void {
  effect(() => {
    store?.setItem(key, JSON.stringify(value()));
  });
}
