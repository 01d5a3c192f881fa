/** How far long work is, and the button that stops it. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { Button } from '../design/button.tsx';
import { useWorkSaid } from '../design/told-in-parts.ts';
import { fixed } from '../numbers/format.ts';
import { exchangeProgress, request } from '../store/session-store.ts';
import { language } from '../store/view-settings.ts';
import { words } from '../words/words.ts';

export interface UnderWayProps {
  readonly busy: boolean;
  readonly what: string;
  /** What is done outside the archive now, which tells nothing of how far it is; null while the archive works. */
  readonly elsewhere?: string | null;
  /** Of work that has a part outside the archive. */
  readonly onStop?: () => void;
}

export function UnderWay({ busy, what, elsewhere = null, onStop }: UnderWayProps) {
  const text = words.value.exchange;
  // A step that is under way is ended first: that the press was heard is told meanwhile.
  const isStopping = useSignal(false);
  useEffect(() => {
    if (!busy) isStopping.value = false;
  }, [busy]);
  const progress = elsewhere === null ? exchangeProgress.value : null;
  const isKnown = progress !== null && progress.of > 0;
  const doing = (progress === null ? undefined : text.stages[progress.work]) ?? elsewhere ?? what;
  const percent = isKnown ? Math.floor((100 * progress.done) / progress.of) : 0;
  const sentence = isKnown ? `${doing} ${fixed(percent, 0, language.value)}\u00a0%` : doing;
  // What came of it is told by the sheet that asked for it.
  useWorkSaid({ isUnderWay: busy, part: isKnown ? percent / 100 : null, sentence, saysEnd: false });
  if (!busy) return null;
  return (
    <div class="under-way">
      <span>{sentence}</span>
      <progress max={100} {...(isKnown ? { value: percent } : {})} aria-label={doing} />
      {isStopping.value ? (
        <span>{text.stopping}</span>
      ) : (
        <Button
          kind="compact"
          id="stop-exchange"
          onPress={() => {
            isStopping.value = true;
            void request('archive.stop', {});
            onStop?.();
          }}
        >
          {text.stop}
        </Button>
      )}
    </div>
  );
}
