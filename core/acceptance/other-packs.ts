/** What a different pack would have said, told where it differs: shop practice beside a code, codes beside shop practice. */
import { designationKey, findByDesignation } from './designation.ts';
import type { CaseMaterial, JudgeCase } from './judge-case.ts';
import { judgeSpecimen } from './judge-specimen.ts';
import { packListing } from './packs.ts';
import type { RulePack } from './read-rule-pack.ts';
import type { OtherAnswer, Verdict } from './verdict.ts';

export function answersOfOtherPacks(
  judged: JudgeCase,
  verdict: Verdict,
  packs: readonly RulePack[],
): OtherAnswer[] {
  if (verdict.outcome === 'undecided') return [];
  return judged.pack.file.otherPacks.flatMap((id) => {
    const other = packs.find((pack) => pack.file.id === id);
    if (other === undefined || other.file.test !== judged.pack.file.test) return [];
    const answer = judgeSpecimen({
      ...judged,
      pack: other,
      baseMetals: judged.baseMetals.map((metal) => asListedIn(other, metal)),
    });
    const differs = answer.outcome !== verdict.outcome && answer.outcome !== 'undecided';
    return differs ? [{ pack: packListing(other), outcome: answer.outcome, sentence: answer.sentence }] : [];
  });
}

/** The same material as the other pack's tables print it; as printed here where they don't have it. */
function asListedIn(pack: RulePack, metal: CaseMaterial): CaseMaterial {
  const found = findByDesignation(pack.baseMetals, metal.called, designationKey);
  return found.kind === 'found' ? { ...metal, entry: found.item } : metal;
}
