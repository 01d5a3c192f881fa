/** A rule pack of one's own as it is begun: another pack whole, under an id and a name that are not taken. */
import { NAME_LENGTH_MAX } from '../limits.ts';
import { type RulePack, selfContainedPackFile } from './read-rule-pack.ts';
import type { RulePackFile } from './rule-pack.ts';

const ID_LENGTH_MAX = 80;
const OWN = ' (own)';

/** Needs no table of the program. It doesn't take the place of what it came from: sets that were judged by that stay so. */
export function begunFrom(pack: RulePack): RulePackFile {
  const file = selfContainedPackFile(pack);
  return {
    ...file,
    id: `own-${file.id}`.slice(0, ID_LENGTH_MAX),
    name: `${file.name.slice(0, NAME_LENGTH_MAX - OWN.length)}${OWN}`,
    aliases: [],
  };
}
