/** Fields of a form as texts: blank ones are left out of what is sent. */
import { person } from '../stations/set/person.ts';

/** The name as requests have it; nothing where none is given. */
export const saidBy = (): { readonly by?: string } =>
  person.value.trim() === '' ? {} : { by: person.value.trim() };

/** Blank fields are absent. */
export function filled<T extends string>(fields: Readonly<Record<T, string>>): Partial<Record<T, string>> {
  return Object.fromEntries(
    Object.entries<string>(fields)
      .map(([name, text]) => [name, text.trim()] as const)
      .filter(([, text]) => text !== ''),
  ) as Partial<Record<T, string>>;
}

/** A range of two texts; the lower end is zero where only the upper one is given. */
export function rangeOf(from: string, to: string): { from: string; to: string } | undefined {
  if (from.trim() === '' && to.trim() === '') return undefined;
  return { from: from.trim() === '' ? '0' : from.trim(), to: to.trim() };
}
