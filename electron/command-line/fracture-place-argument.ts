/** `--broke WHERE`: a place where a specimen breaks, by the same words wherever it is noted or looked for. */
import { FRACTURE_LOCATIONS, fractureLocationFromText } from '../../core/acceptance/fracture.ts';
import { placeOfLocation } from '../../core/acceptance/fracture-of-note.ts';
import { FRACTURE_PLACES, type FractureNote } from '../../core/contract/record.ts';
import { InputError } from './verb.ts';

/** The words that rules judge by, and one for a fracture that nobody looked at. */
export const PLACE_WORDS = [...FRACTURE_LOCATIONS, 'not-told'].join(', ');

/** Takes the words that `judge` takes, those that a note is kept in, and their other spellings; else an InputError. */
export function fracturePlaceFrom(text: string): FractureNote['place'] {
  const location = fractureLocationFromText(text);
  const place =
    FRACTURE_PLACES.find((word) => word === text.trim()) ??
    (location === null ? undefined : placeOfLocation(location));
  if (place === undefined)
    throw new InputError(
      'option-value-unknown',
      `--broke "${text.slice(0, 40)}" is no place where a specimen breaks here; use one of ${PLACE_WORDS}.`,
      'broke',
    );
  return place;
}
