/** Rule packs as entries of a list: codes and practice apart, a laboratory's own in a group of theirs. */
import type { RulePack } from '../../../core/acceptance/read-rule-pack.ts';
import { packsAtHand } from '../../store/own-rules.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';

/** Name and edition as they stand together. */
export const packText = ({ name, edition }: { readonly name: string; readonly edition: string }): string =>
  `${told(name)}, ${told(edition)}`;

/** The same of what stands together already: of a pack that is at hand; of another one it stays as it is. */
export function packSaid(together: string): string {
  const known = packsAtHand.value.find(({ file }) => `${file.name}, ${file.edition}` === together);
  return known === undefined ? together : packText(known.file);
}

export function packChoices(packs: readonly RulePack[]) {
  const text = words.value.set.form;
  return packs.map(({ file, origin }) => ({
    value: file.id,
    label: packText(file),
    group: origin === undefined ? text.packKinds[file.kind] : text.ownPacks,
  }));
}
