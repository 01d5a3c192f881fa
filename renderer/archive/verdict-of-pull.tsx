/** What the rules of its set say of an opened pull, and the way to that set, where the grounds stand. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { FoundPull } from '../../core/contract/search-requests.ts';
import { Button } from '../design/button.tsx';
import type { OpenedPull } from '../store/kept-pull.ts';
import { goTo } from '../store/place.ts';
import { request } from '../store/session-store.ts';
import { openSet } from '../stations/set/open-set.ts';
import { OutcomeWord } from '../stations/set/outcome-word.tsx';
import { Questionable } from '../stations/set/verdict-block.tsx';
import { words } from '../words/words.ts';

export function VerdictOfPull({ opened }: { readonly opened: OpenedPull }) {
  const found = useSignal<FoundPull | null>(null);
  // What was kept of it meanwhile may have changed the verdict.
  const { kept } = opened;
  useEffect(() => {
    let isWanted = true;
    void request('archive.lines', { pullIds: [opened.pullId], judge: 1 }).then((answer) => {
      if (isWanted && answer.ok) found.value = answer.value.items[0] ?? null;
    });
    return () => {
      isWanted = false;
    };
  }, [opened.pullId, kept.value]);
  if (found.value === null) return null;
  const { verdict, questionable, setId, setName } = found.value;
  return (
    <>
      {verdict === null ? null : <OutcomeWord outcome={verdict} />}
      {verdict !== null && questionable ? <Questionable /> : null}
      {setId === null ? null : (
        <Button
          kind="quiet"
          id="set-of-pull"
          onPress={() => {
            openSet(setId);
            goTo('set');
          }}
        >
          {words.value.set.open(setName ?? '')}
        </Button>
      )}
    </>
  );
}
