/** Rule packs as entries of a list: codes and practice apart, a laboratory's own in a group of theirs. */
import type { RulePack } from '../../../core/acceptance/read-rule-pack.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';

export function packChoices(packs: readonly RulePack[]) {
  const text = words.value.set.form;
  return packs.map(({ file, origin }) => ({
    value: file.id,
    label: `${told(file.name)}, ${told(file.edition)}`,
    group: origin === undefined ? text.packKinds[file.kind] : text.ownPacks,
  }));
}
