/** Who is at the sheet: offered again wherever a name is asked for, and kept over a reload. */
import { signal } from '@preact/signals';
import { z } from 'zod';
import { NAME_LENGTH_MAX } from '../../../core/limits.ts';
import { remember, remembered } from '../../store/remembered.ts';

const KEY = 'gaugemark.person';

export const person = signal(remembered(KEY, z.string().max(NAME_LENGTH_MAX), ''));

export function keepPerson(): void {
  remember(KEY, () => person.value);
}
