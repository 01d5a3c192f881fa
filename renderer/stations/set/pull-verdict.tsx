/** The verdict on a pull whose specimen is in the open set: in a word, and with all it rests on. */
import type { MemberVerdict } from '../../../core/contract/set-requests.ts';
import { Button } from '../../design/button.tsx';
import { ReadingsMark } from '../../design/readings-mark.tsx';
import { goTo } from '../../store/place.ts';
import { words } from '../../words/words.ts';
import { openedSet, shownMember } from './open-set.ts';
import { OutcomeWord } from './outcome-word.tsx';
import { Questionable, VerdictBlock } from './verdict-block.tsx';

const TITLE_ID = 'pull-verdict';

const memberOf = (pullId: number) => openedSet.value?.kept.members.find((member) => member.pullId === pullId);

export const inOpenSet = (pullId: number): boolean => memberOf(pullId) !== undefined;

function verdictOn(pullId: number): MemberVerdict | undefined {
  const place = memberOf(pullId);
  return openedSet.value?.judged.members.find((one) => one.setMemberId === place?.setMemberId);
}

/** Stands at the head of the values, which fill more than a window; its grounds are one press away. */
export function VerdictInShort({ pullId }: { readonly pullId: number }) {
  const member = verdictOn(pullId);
  if (member === undefined || member.outcome === null) return null;
  return (
    <>
      <OutcomeWord outcome={member.outcome} />
      <ReadingsMark readings={member.readings} />
      {member.questionable ? <Questionable /> : null}
      <Button
        kind="quiet"
        id="verdict-grounds"
        onPress={() => {
          const title = document.getElementById(TITLE_ID);
          title?.scrollIntoView({ block: 'start' });
          title?.focus({ preventScroll: true });
        }}
      >
        {words.value.set.verdict.grounds}
      </Button>
    </>
  );
}

export function PullVerdict({ pullId }: { readonly pullId: number }) {
  const member = verdictOn(pullId);
  if (member === undefined) return null;
  const text = words.value.set;
  const name = text.verdict.of(member.specimenName);
  return (
    <section class="block" aria-label={name}>
      <h2 id={TITLE_ID} tabIndex={-1}>
        {name}
      </h2>
      <VerdictBlock member={member} />
      <div class="actions">
        <Button
          kind="compact"
          id="acts-on-verdict"
          onPress={() => {
            shownMember.value = member.setMemberId;
            goTo('set');
          }}
        >
          {text.verdict.actsInSet}
        </Button>
      </div>
    </section>
  );
}
