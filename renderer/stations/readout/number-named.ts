/** What a number of a readout is called beside what it is, in the language of the page, and neither twice. */
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import { en } from '../../words/en.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';

type Quantity = ReadoutProfile['channels'][number]['quantity'];

export interface NumberNamed {
  readonly called: string;
  /** Null where its name says so already. */
  readonly is: string | null;
}

const folded = (text: string): string => text.trim().toLocaleLowerCase();
/** "load" of a load, "travel" of a travel of the crosshead. */
const says = (called: string, is: string): boolean => `${folded(is)} `.startsWith(`${folded(called)} `);

/** @param field as the profile has it, which is mostly the English name of what it is */
export function numberNamed(field: string, quantity: Quantity): NumberNamed {
  const [called, is] = [told(field), words.value.learn.quantities[quantity]];
  return says(called, is) || says(field, en.learn.quantities[quantity])
    ? { called: is, is: null }
    : { called, is };
}
