/** The verdict on a pull whose specimen is in the open set. */
import { words } from '../../words/words.ts';
import { openedSet } from './open-set.ts';
import { VerdictBlock } from './verdict-block.tsx';

const memberOf = (pullId: number) => openedSet.value?.kept.members.find((member) => member.pullId === pullId);

export const inOpenSet = (pullId: number): boolean => memberOf(pullId) !== undefined;

export function PullVerdict({ pullId }: { readonly pullId: number }) {
  const place = memberOf(pullId);
  const member = openedSet.value?.judged.members.find((one) => one.setMemberId === place?.setMemberId);
  if (member === undefined) return null;
  const title = words.value.set.verdict.of(member.specimenName);
  return (
    <section class="block" aria-label={title}>
      <h2>{title}</h2>
      <VerdictBlock member={member} />
    </section>
  );
}
