/** What columns of the table say that is the same on the screen and on the clipboard. */
import type { FoundPull } from '../../core/contract/search-requests.ts';
import type { FoundColumn } from './found-pulls.ts';

/** Of a value that is shown unrounded; no instrument reaches the last of them. */
export const UNROUNDED_FIGURES = 7;

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
