/** Where a laboratory's own rule packs lie when nobody says otherwise: in the program's configuration folder. */
import { type Surroundings, personPlace } from '../../core/archive/place.ts';

export const RULES_FOLDER_NAME = 'rules';

export const usualRulesFolder = (surroundings: Surroundings): string =>
  personPlace(
    surroundings,
    { onWindows: 'roaming', variable: 'XDG_CONFIG_HOME', under: ['.config'] },
    RULES_FOLDER_NAME,
  );
