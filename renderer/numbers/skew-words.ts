/** How far the second of two instruments stands behind the load, in a sentence. */
import type { Skew } from '../../core/contract/second-readout.ts';
import { language } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { fixed } from './format.ts';

export function skewWords({ joined, alone, meanMs, longestMs }: Skew): string {
  const number = (value: number, places: number): string => fixed(value, places, language.value);
  return words.value.learn.skew(
    number(joined, 0),
    number(joined + alone, 0),
    number(meanMs, 1),
    number(longestMs, 1),
  );
}
