/** What columns of the table say that is the same on the screen and on the clipboard. */
import type { FoundPull } from '../../core/contract/search-requests.ts';
import { type UnitSymbol, convert } from '../../core/quantity/units.ts';
import { significant } from '../numbers/format.ts';
import { language } from '../store/view-settings.ts';
import type { FoundColumn } from './found-pulls.ts';

/** No instrument reaches the last of them. */
const UNROUNDED_FIGURES = 7;

/** A strength in MPa as it is worked out, in this unit. */
export const unrounded = (mpa: number, unit: UnitSymbol): string =>
  significant(convert(mpa, 'MPa', unit), UNROUNDED_FIGURES, language.value);

/** Of the set that a pull is in. */
export type SetColumn = Extract<FoundColumn, 'rules' | 'baseMetal' | 'filler' | 'heat' | 'lot' | 'welder'>;

export function saidOfSet(pull: FoundPull, column: SetColumn): string | null {
  switch (column) {
    case 'rules':
      return pull.rulePackName;
    case 'lot':
      return pull.fillerLot;
    case 'baseMetal':
    case 'filler':
    case 'heat':
    case 'welder':
      return pull[column];
  }
}
