/** When a pull was made, as the window tells it: a day that a person stated is always marked as that. */
import type { FoundPull } from '../../core/contract/search-requests.ts';
import {
  type StatedDay,
  dateOfPull,
  isOfImport,
  standingDay,
  statedText,
} from '../../core/pull/stated-day.ts';
import { words } from '../words/words.ts';

/** "pulled on 2019-05-14 (stated at import)"; null where nobody stated a day. */
export function dayOfPull(pull: {
  readonly startedWallMs: number;
  readonly statedDays: readonly StatedDay[];
}): string | null {
  const text = words.value.exchange;
  const its = standingDay(pull);
  if (its === null) return null;
  const when = isOfImport(its, pull) ? text.statedAtImport : text.statedLater(its.by);
  return text.wasPulledOn(statedText(its.pulledOn), when);
}

/** In a table: by the clock of the place, to the minute, or as stated. */
export const dateOfFound = (pull: Pick<FoundPull, 'pulledOn' | 'started'>): string =>
  dateOfPull(pull, { asStated: words.value.exchange.statedDate });
