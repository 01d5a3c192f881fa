/** Every text of the page in Spanish, with the keys of `en.ts`. */
import type { Words } from './en.ts';
import { en } from './en.ts';

export const es: Words = en;
