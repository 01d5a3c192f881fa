/** Why something is kept in place of what stood before, which is asked for, and by whom, which may stay open. */
import type { Signal } from '@preact/signals';
import { TEXT_LENGTH_MAX } from '../../core/limits.ts';
import { Field } from '../design/field.tsx';
import { PersonField } from './person-field.tsx';
import './reason-and-name.css';

export interface ReasonAndNameProps {
  /** The entries are `ID-reason` and `ID-by`. */
  readonly id: string;
  readonly words: { readonly reason: string; readonly reasonNeeded: string; readonly by: string };
  readonly reason: Signal<string>;
  readonly by: Signal<string>;
  /** It was to be kept: from now on a reason that is missing is a fault. */
  readonly tried: boolean;
}

export function ReasonAndName({ id, words, reason, by, tried }: ReasonAndNameProps) {
  return (
    <div class="reason-and-name">
      <Field
        id={`${id}-reason`}
        label={words.reason}
        value={reason.value}
        required
        lengthMax={TEXT_LENGTH_MAX}
        fault={tried && reason.value.trim() === '' ? words.reasonNeeded : null}
        onInput={(value) => (reason.value = value)}
      />
      <PersonField
        id={`${id}-by`}
        label={words.by}
        value={by.value}
        onInput={(value) => (by.value = value)}
      />
    </div>
  );
}
