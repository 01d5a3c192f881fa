import { expect, it } from 'vitest';
import { begunFrom } from '../../../core/acceptance/begun-from.ts';
import { builtInPacks, packsWith } from '../../../core/acceptance/packs.ts';
import { readRulePackText } from '../../../core/acceptance/read-rule-pack.ts';

it('begins rules of one’s own from any pack as a file that is read, stands beside it, and has its materials', () => {
  for (const pack of builtInPacks()) {
    const own = readRulePackText(JSON.stringify(begunFrom(pack)));
    if (!own.ok) throw new Error(own.faults.map(({ sentence }) => sentence).join(' '));
    const both = packsWith([own.pack]).filter(({ file }) => file.name.startsWith(pack.file.name));
    expect(both.map(({ file }) => file.id)).toEqual(
      expect.arrayContaining([pack.file.id, `own-${pack.file.id}`]),
    );
    expect(own.pack.baseMetals).toHaveLength(pack.baseMetals.length);
    expect(own.pack.fillers).toHaveLength(pack.fillers.length);
    expect(own.pack.file.rules).toEqual(pack.file.rules);
  }
});
