/** Above a list of what was kept last: a field that finds the others by their name. It is there once there are others. */
import { type Signal, effect, signal } from '@preact/signals';
import { NAME_LENGTH_MAX } from '../../core/limits.ts';
import { Field } from '../design/field.tsx';
import { fixed } from '../numbers/format.ts';
import { archivePath } from '../store/session-store.ts';
import { language } from '../store/view-settings.ts';
import { words } from '../words/words.ts';

export interface FindKeptProps {
  readonly id: string;
  readonly label: string;
  /** Part of a name, as it was typed. */
  readonly typed: Signal<string>;
  /** There are older ones that fit, too. */
  readonly isCut: boolean;
  /** As many as the list shows at a time. */
  readonly shown: number;
  /** What is said where none fits; null where some do. */
  readonly none: string | null;
}

export function FindKept({ id, label, typed, isCut, shown, none }: FindKeptProps) {
  if (!isCut && typed.value === '') return null;
  return (
    <>
      <Field
        id={id}
        label={label}
        hint={isCut ? words.value.exchange.olderCut(fixed(shown, 0, language.value)) : undefined}
        value={typed.value}
        lengthMax={NAME_LENGTH_MAX}
        onInput={(value) => (typed.value = value)}
      />
      {none === null ? null : (
        <p class="pencil" role="status">
          {none}
        </p>
      )}
    </>
  );
}

/** Part of a name that stays over a look elsewhere, and is of one archive only. */
export function typedName(): Signal<string> {
  const typed = signal('');
  let path = archivePath.peek();
  effect(() => {
    if (archivePath.value === path) return;
    path = archivePath.value;
    typed.value = '';
  });
  return typed;
}

/** What a list is asked for by what was typed. */
export function searchFor(typed: string): { readonly search?: string } {
  const search = typed.trim();
  return search === '' ? {} : { search };
}
