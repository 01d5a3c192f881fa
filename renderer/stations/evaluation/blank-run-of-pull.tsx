/** A pull of this archive with a stiff bar in the grips, taken as the blank run of the frame. */
import { useSignal } from '@preact/signals';
import { Button } from '../../design/button.tsx';
import { words } from '../../words/words.ts';

/** A number of a pull has no more digits. */
const DIGITS_MAX = 9;

export function BlankRunOfPull({ onTake }: { readonly onTake: (pullId: number) => void }) {
  const text = words.value.blankRun;
  const typed = useSignal('');
  const pullId = /^\d{1,9}$/.test(typed.value.trim()) ? Number(typed.value.trim()) : null;
  return (
    <span class="blank-run-of-pull">
      <input
        class="entry number"
        type="text"
        inputMode="numeric"
        size={6}
        maxLength={DIGITS_MAX}
        aria-label={text.number}
        placeholder={text.number}
        value={typed.value}
        onInput={(event) => (typed.value = event.currentTarget.value)}
      />
      <Button
        kind="compact"
        id="take-blank-run"
        notNow={pullId === null ? text.notYet : undefined}
        onPress={() => {
          if (pullId !== null) onTake(pullId);
        }}
      >
        {text.take}
      </Button>
    </span>
  );
}
