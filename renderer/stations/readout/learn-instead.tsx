/** Beside the trouble that lines fit no profile: has them learned from the very source, and shows how far that is. */
import type { Notice } from '../../../core/contract/notice.ts';
import { learnableSource } from '../../../core/contract/source.ts';
import { Button } from '../../design/button.tsx';
import { goTo } from '../../store/place.ts';
import { recording, request, session } from '../../store/session-store.ts';
import { words } from '../../words/words.ts';
import { beginLearning } from './begin-learning.ts';

export function LearnInstead({ remedy }: { readonly remedy: NonNullable<Notice['remedy']> }) {
  const text = words.value.learn;
  const { readout = null, second = null } = session.value ?? {};
  const unread = remedy === 'learn-lines' ? readout : (second?.readout ?? null);
  // A replay, a simulation and registers have nobody to listen to.
  const source = learnableSource.safeParse(unread?.source).data;
  if (unread === null || source === undefined) return null;
  const learn = async (): Promise<void> => {
    // Some readouts begin anew when a control line moves: they stay as the profile sets them.
    const known = await request('readout.profiles', {});
    const its = known.ok
      ? known.value.profiles.find(({ profile }) => profile.name === unread.profileName)
      : undefined;
    goTo('readout');
    await beginLearning(source, its?.profile.controlLines ?? {});
  };
  return (
    <Button kind="compact" notNow={recording.value ? text.inPull : undefined} onPress={() => void learn()}>
      {text.learn}
    </Button>
  );
}
