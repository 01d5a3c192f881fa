/** A second instrument on a port of its own: extension beside a load that comes from elsewhere. */
import { useId } from 'preact/hooks';
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import type { ListedPort } from '../../../core/contract/source.ts';
import { Field } from '../../design/field.tsx';
import { skewWords } from '../../numbers/skew-words.ts';
import { session } from '../../store/session-store.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';
import { standsBesideLoad } from './readout-choice.ts';

export interface SecondChoice {
  readonly path: string;
  readonly profileName: string | null;
}

export interface SecondInstrumentProps {
  readonly chosen: SecondChoice | null;
  readonly ports: readonly ListedPort[];
  readonly profiles: readonly { readonly profile: ReadoutProfile }[];
  readonly onChange: (chosen: SecondChoice | null) => void;
}

export function SecondInstrument({ chosen, ports, profiles, onChange }: SecondInstrumentProps) {
  const text = words.value.learn;
  const [profileId, listId] = [useId(), useId()];
  const beside = profiles.filter(({ profile }) => standsBesideLoad(profile));
  return (
    <fieldset class="learn second-instrument">
      <label class="check">
        <input
          type="checkbox"
          id="second-instrument"
          checked={chosen !== null}
          onChange={({ currentTarget }) =>
            onChange(
              currentTarget.checked ? { path: '', profileName: beside[0]?.profile.name ?? null } : null,
            )
          }
        />{' '}
        {text.second}
      </label>
      {chosen === null ? null : (
        <>
          <Field
            id="second-port"
            label={text.secondPort}
            value={chosen.path}
            list={listId}
            number
            onInput={(path) => onChange({ ...chosen, path })}
          />
          <datalist id={listId}>
            {ports.map(({ path }) => (
              <option key={path} value={path} />
            ))}
          </datalist>
          <div class="field">
            <label for={profileId}>{text.secondProfile}</label>
            <select
              id={profileId}
              class="entry"
              value={chosen.profileName ?? ''}
              onChange={({ currentTarget }) => onChange({ ...chosen, profileName: currentTarget.value })}
            >
              {beside.map(({ profile }) => (
                <option key={profile.name} value={profile.name}>
                  {told(profile.name)}
                </option>
              ))}
            </select>
          </div>
        </>
      )}
    </fieldset>
  );
}

/** Which one is open, whether it is heard, and how far it stands behind. */
export function OpenSecond() {
  const text = words.value.learn;
  const second = session.value?.second ?? null;
  if (second === null) return null;
  const its = session.value?.pull?.skew ?? null;
  return (
    <p class="pencil">
      {text.secondIs(told(second.readout.words), told(second.readout.profileName))}
      {second.signal.fresh ? '' : ` · ${text.secondLost}`}
      {its === null ? '' : ` · ${skewWords(its)}`}
    </p>
  );
}
