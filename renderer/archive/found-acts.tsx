/** What can be done with what was found or marked: laid over each other, seen over time, evaluated again. */
import { Button } from '../design/button.tsx';
import { drawnAtOnce } from '../design/drawn-at-once.ts';
import { type ArchiveView, archiveView } from '../store/place.ts';
import { isMarkedNext, WayOn } from '../stations/marked-step.tsx';
import { words } from '../words/words.ts';
import { found } from './found-pulls.ts';
import { openPull } from './pull-by-name.tsx';
import { markMore, marked, unmarkAll } from './marked-pulls.ts';

/** Shows it and stands the keys in it. */
function look(view: ArchiveView): void {
  drawnAtOnce(() => (archiveView.value = view));
  document.getElementById(`${view}-first`)?.focus();
}

/** Lays what is marked over each other, here and in other archives. */
export function LayOver({
  id,
  kind = 'compact',
}: {
  readonly id: string;
  readonly kind?: 'compact' | 'call';
}) {
  const text = words.value.look;
  const count = marked.value.length;
  return (
    <Button
      kind={kind}
      id={id}
      notNow={count === 0 ? text.markFirst : undefined}
      onPress={() => look('overlay')}
    >
      {text.layOver(String(count))}
    </Button>
  );
}

/** Curves that can be laid over each other. */
const LAID_MIN = 2;
const isLaidNext = (): boolean => isMarkedNext() && marked.value.length >= LAID_MIN;

/** The one marked step of the list: what is marked is looked at, or the way leads back to the job. */
export function StepFromList() {
  const [only] = marked.value;
  if (only === undefined || !isMarkedNext()) return <WayOn beside={[]} />;
  if (isLaidNext()) return <LayOver id="lay-over" kind="call" />;
  return (
    <Button kind="call" id="open-marked" onPress={() => openPull(only)}>
      {words.value.look.openMarked}
    </Button>
  );
}

/** `notNow`: why nothing can be done with all that was found. */
export function FoundActs({ notNow }: { readonly notNow?: string | undefined }) {
  const text = words.value.look;
  const count = marked.value.length;
  return (
    <div class="actions found-acts">
      <LayOver id="lay-over" kind={isLaidNext() ? 'call' : 'compact'} />
      <Button kind="compact" id="see-trend" notNow={notNow} onPress={() => look('trend')}>
        {text.trend.open}
      </Button>
      <Button kind="compact" id="evaluate-found-again" notNow={notNow} onPress={() => look('again')}>
        {text.again.open}
      </Button>
      <Button kind="compact" id="mark-all" notNow={notNow} onPress={() => markMore(found.value ?? [])}>
        {text.markAll}
      </Button>
      {count === 0 ? null : (
        <Button kind="compact" id="unmark-all" onPress={unmarkAll}>
          {text.unmarkAll}
        </Button>
      )}
      {isLaidNext() ? null : <StepFromList />}
    </div>
  );
}
