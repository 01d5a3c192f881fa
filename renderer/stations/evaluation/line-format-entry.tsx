/** By which readout profile the lines of the record are read: the one of the time, another that is known here, or a file. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import { request } from '../../store/session-store.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';
import { ProfileFromFile } from '../readout/profile-from-file.tsx';
import { SelectField } from '../set/select-field.tsx';
import type { EvaluationDraft } from './evaluation-draft.ts';

/** What the list's first entry is called among profiles' names, which are never empty. */
const OF_THEN = '';
/** And the one of a profile that is none of those known here; a name has no line break. */
const OTHER = '\n';

export function LineFormatEntry({
  draft,
  onChange,
}: {
  readonly draft: EvaluationDraft;
  readonly onChange: (draft: EvaluationDraft) => void;
}) {
  const text = words.value.evaluation;
  const known = useSignal<readonly ReadoutProfile[]>([]);
  useEffect(() => {
    void request('readout.profiles', {}).then((answer) => {
      if (answer.ok) known.value = answer.value.profiles.map(({ profile }) => profile);
    });
  }, []);
  const chosen = draft.lineFormat;
  // One of a file, or kept with an evaluation, may bear the name of another that is known here.
  const isKnown = chosen === null || known.value.some((one) => isSame(one, chosen));
  return (
    <>
      <p class="pencil small">{text.lineFormatMeans}</p>
      <SelectField
        id="evaluation-line-format"
        label={text.lineFormat}
        value={isKnown ? (chosen?.name ?? OF_THEN) : OTHER}
        options={[
          { value: OF_THEN, label: text.lineFormatOfThen },
          ...(isKnown ? [] : [{ value: OTHER, label: text.lineFormatOther(chosen.name) }]),
          ...known.value.map(({ name }) => ({ value: name, label: told(name) })),
        ]}
        onChoose={(value) => {
          if (value !== OTHER)
            onChange({ ...draft, lineFormat: known.value.find(({ name }) => name === value) ?? null });
        }}
      />
      <ProfileFromFile
        id="evaluation-line-format-file"
        onOpened={(profile) => onChange({ ...draft, lineFormat: profile })}
      />
    </>
  );
}

const isSame = (one: ReadoutProfile, other: ReadoutProfile): boolean =>
  JSON.stringify(one) === JSON.stringify(other);
