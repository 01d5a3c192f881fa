/** Says where no specimen gave the readings: a word in a frame beside a name or a verdict, or the whole sentence. */
import type { ReadingsOrigin } from '../../core/pull/readings-origin.ts';
import { words } from '../words/words.ts';
import './readings-mark.css';

export function ReadingsMark({ readings }: { readonly readings: ReadingsOrigin | undefined }) {
  return readings === undefined ? null : (
    <strong class="readings-mark">{words.value.set.readings[readings].mark}</strong>
  );
}

export function ReadingsNotice({ readings }: { readonly readings: ReadingsOrigin | undefined }) {
  return readings === undefined ? null : (
    <p class="readings-notice">{words.value.set.readings[readings].notice}</p>
  );
}
