/** A pull of the archive made void, or the mark that it is. */
import { useSignal } from '@preact/signals';
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import { Button } from '../design/button.tsx';
import { say } from '../design/said.tsx';
import { momentText } from '../numbers/format.ts';
import { errand } from '../store/errand.ts';
import type { OpenedPull } from '../store/kept-pull.ts';
import { request } from '../store/session-store.ts';
import { words } from '../words/words.ts';
import { ReasonedAct } from './reasoned-act.tsx';

const voiding = errand();

export function VoidPull({ opened, kept }: { readonly opened: OpenedPull; readonly kept: KeptPull }) {
  const text = words.value.trail;
  const asking = useSignal(false);
  const { voided, pullId, state } = kept;
  if (voided !== null)
    return (
      <p class="void-mark">
        <bdi>{text.voidMark(momentText(voided.wallMs), voided.by ?? text.nobody, voided.reason)}</bdi>
      </p>
    );
  if (state !== 'ended') return null;
  return (
    <div class="actions">
      <Button id="void-pull" onPress={() => (asking.value = true)}>
        {text.makeVoid}
      </Button>
      {asking.value ? (
        <ReasonedAct
          subject={`void-pull ${String(pullId)}`}
          title={`${text.voidTitle}: ${kept.specimenName}`}
          means={text.voidMeans}
          act={text.voidAct}
          errand={voiding}
          onClose={() => (asking.value = false)}
          onAct={async (given) => {
            const done = await voiding.run(() => request('pull.void', { pullId, ...given }));
            if (done === null) return false;
            await opened.refresh();
            say(text.voidDone);
            return true;
          }}
        />
      ) : null}
    </div>
  );
}
