/** Scale and offset of each number of the chosen profile. Kept as a profile; what comes through the port stays as it comes. */
import { type Signal, signal, useSignal } from '@preact/signals';
import { useMemo } from 'preact/hooks';
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import { NAME_LENGTH_MAX } from '../../../core/limits.ts';
import { DECIMAL_TEXT_LENGTH_MAX } from '../../../core/quantity/exact.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock, Field } from '../../design/field.tsx';
import { focusFirstFault } from '../../design/focus-fault.ts';
import { say } from '../../design/said.tsx';
import { errand } from '../../store/errand.ts';
import { HeldTyping, useHeldTyping } from '../../store/held-typing.ts';
import { request } from '../../store/session-store.ts';
import { words } from '../../words/words.ts';
import { numberNamed } from './number-named.ts';
import { profileWords } from './readout-choice.ts';
import {
  type FactorsChannel,
  type FactorsDraft,
  factorsDraft,
  factorsOf,
  profileWithFactors,
} from './profile-factors.ts';

/** By the profile as it stands. */
const held = new HeldTyping<{ readonly draft: Signal<FactorsDraft>; readonly name: Signal<string> }>(
  'factors',
);

export interface ChannelFactorsProps {
  readonly profile: ReadoutProfile;
  readonly builtIn: readonly string[];
  readonly onKept: (profile: ReadoutProfile) => void;
}

export function ChannelFactors({ profile, builtIn, onKept }: ChannelFactorsProps) {
  const text = words.value.learn.factors;
  const subject = JSON.stringify([profile.name, profile.channels]);
  const { draft, name } = useHeldTyping(held, subject, () => ({
    draft: signal(factorsDraft(profile)),
    name: signal(builtIn.includes(profile.name) ? '' : profile.name),
  }));
  const keeping = useMemo(errand, []);
  /** The profile of which keeping was tried: another one has not been. */
  const tried = useSignal<string | null>(null);
  const outcome = profileWithFactors(profile, draft.value, { name: name.value, builtIn });
  const faults = outcome.ok || tried.value !== subject ? null : outcome.faults;
  const entry = (field: string, which: 'scale' | 'offset', label: string) => {
    const fault = faults?.entries.get(`${field} ${which}`);
    return (
      <Field
        label={label}
        number
        isReplaced
        value={draft.value[field]?.[which] ?? ''}
        lengthMax={DECIMAL_TEXT_LENGTH_MAX}
        fault={fault === undefined ? null : text.faults[fault]}
        onInput={(typed) => {
          const before = draft.value[field] ?? { scale: '', offset: '' };
          draft.value = { ...draft.value, [field]: { ...before, [which]: typed } };
        }}
      />
    );
  };
  const keep = async (): Promise<void> => {
    tried.value = subject;
    if (!outcome.ok) {
      focusFirstFault('.channel-factors');
      return;
    }
    const kept = outcome.profile;
    if ((await keeping.run(() => request('readout.save-profile', { profile: kept }))) === null) return;
    held.letGo(subject);
    tried.value = null;
    onKept(kept);
    // With its factors: a slip of the key shows here, and not only in a strength.
    say(`${words.value.learn.kept(kept.name)} ${profileWords(kept)}`);
  };
  return (
    <details class="channel-factors" id="channel-factors">
      <summary>{text.title}</summary>
      <p class="pencil small">{text.means}</p>
      {factorsOf(profile).map(({ field, quantity, unit }) => (
        <fieldset key={field} class="entry-row">
          <legend>
            <NumberName field={field} quantity={quantity} />
          </legend>
          {entry(field, 'scale', text.scale)}
          {entry(field, 'offset', text.offset(unit))}
        </fieldset>
      ))}
      <Field
        id="factors-name"
        label={words.value.learn.name}
        hint={builtIn.includes(profile.name) ? text.newName : text.sameName}
        value={name.value}
        lengthMax={NAME_LENGTH_MAX}
        fault={
          faults?.name === 'missing'
            ? words.value.learn.nameMissing
            : faults?.name === 'built-in'
              ? text.nameTaken
              : null
        }
        onInput={(typed) => (name.value = typed)}
      />
      <FaultBlock fault={keeping.fault.value} />
      <div class="actions">
        <Button id="keep-factors" onPress={() => void keep()}>
          {text.keep}
        </Button>
      </div>
    </details>
  );
}

function NumberName({ field, quantity }: Pick<FactorsChannel, 'field' | 'quantity'>) {
  const { called, is } = numberNamed(field, quantity);
  return (
    <>
      {called}
      {is === null ? null : <span class="hint"> {is}</span>}
    </>
  );
}
