/** What stands on the keys of a keyboard of the page's language. */
import { words } from '../words/words.ts';

/** @param keys one key, or several with a blank between them */
export const capOf = (keys: string): string =>
  keys
    .split(' ')
    .map((key) => words.value.keys.caps[key] ?? key)
    .join(' ');
