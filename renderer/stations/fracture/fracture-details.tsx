/** What is seen at the fracture beside its place: the base metal of two, a mark, soundness, discontinuities. */
import { APPEARANCES, SOUNDNESS, type Soundness } from '../../../core/acceptance/fracture.ts';
import {
  DISCONTINUITIES_MAX,
  DISCONTINUITY_KINDS,
  type DiscontinuityKind,
  FRACTURE_MARKS,
  type FractureMark,
} from '../../../core/acceptance/fracture-details.ts';
import type { FractureNote } from '../../../core/contract/record.ts';
import { Button } from '../../design/button.tsx';
import type { FracturePlace } from '../../design/drawing/places.ts';
import { Field } from '../../design/field.tsx';
import { entryFault, withUnit } from '../../store/specimen-draft.ts';
import { units } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { openedSet } from '../set/open-set.ts';
import { SelectField } from '../set/select-field.tsx';
import { WordSelect } from '../set/word-select.tsx';

/** As it is being filled in; '' where nothing is said. */
export interface DetailsDraft {
  readonly baseMetal: number | null;
  readonly atMark: FractureMark | '';
  readonly soundness: Soundness | '';
  readonly discontinuities: readonly { readonly kind: DiscontinuityKind; readonly size: string }[];
}

export const detailsOf = (note: FractureNote | undefined): DetailsDraft => ({
  baseMetal: note?.baseMetal ?? null,
  atMark: note?.atMark ?? '',
  soundness: note?.soundness ?? '',
  discontinuities: (note?.discontinuities ?? []).map(({ kind, size }) => ({ kind, size: size ?? '' })),
});

/** The part of the note that these entries are; what is not said is left out. */
export function noteOfDetails(details: DetailsDraft, place?: FracturePlace | null): Partial<FractureNote> {
  const { baseMetal, atMark, soundness, discontinuities } = details;
  return {
    ...(baseMetal === null || place !== 'base-metal' ? {} : { baseMetal }),
    ...(atMark === '' ? {} : { atMark }),
    ...(soundness === '' ? {} : { soundness }),
    ...(discontinuities.length === 0
      ? {}
      : {
          discontinuities: discontinuities.map(({ kind, size }) => ({
            kind,
            ...(size.trim() === '' ? {} : { size: withUnit(size, 'length', units.value) }),
          })),
        }),
  };
}

/** Base metals of the open set that the pull belongs to; fewer than two need no telling apart. */
export function metalsOf(pullId: number): readonly string[] {
  const opened = openedSet.value;
  const isMember = opened?.kept.members.some((member) => member.pullId === pullId) ?? false;
  return isMember ? (opened?.kept.set.form.baseMetals ?? []).map((metal) => metal.designation) : [];
}

export function FractureDetails({
  pullId,
  place,
  details,
  onChange,
}: {
  readonly pullId: number;
  readonly place: FracturePlace | null;
  readonly details: DetailsDraft;
  readonly onChange: (details: DetailsDraft) => void;
}) {
  const text = words.value.set.fracture;
  const metals = metalsOf(pullId);
  const change = (part: Partial<DetailsDraft>) => onChange({ ...details, ...part });
  const changeOne = (at: number, part: Partial<DetailsDraft['discontinuities'][number]>) =>
    change({
      discontinuities: details.discontinuities.map((one, index) =>
        index === at ? { ...one, ...part } : one,
      ),
    });
  return (
    <>
      {/* Words that rules know; any others may be typed. */}
      <datalist id="fracture-appearances">
        {APPEARANCES.map((word) => (
          <option key={word} value={word} label={text.appearances[word]} />
        ))}
      </datalist>
      <div class="note-fields">
        {metals.length < 2 || place !== 'base-metal' ? null : (
          <SelectField
            label={text.baseMetal}
            value={details.baseMetal === null ? '' : String(details.baseMetal)}
            options={[
              { value: '', label: words.value.common.none },
              ...metals.map((name, index) => ({
                value: String(index + 1),
                label: index > 1 ? name : text.baseMetalSide(name, index === 0 ? text.left : text.right),
              })),
            ]}
            onChoose={(value) => change({ baseMetal: value === '' ? null : Number(value) })}
          />
        )}
        <SelectField
          label={text.soundness}
          value={details.soundness}
          options={[
            { value: '', label: text.soundnesses.none },
            ...SOUNDNESS.map((value) => ({ value, label: text.soundnesses[value] })),
          ]}
          onChoose={(value) => change({ soundness: SOUNDNESS.find((one) => one === value) ?? '' })}
        />
        <SelectField
          label={text.mark}
          value={details.atMark}
          options={[
            { value: '', label: text.marks.none },
            ...FRACTURE_MARKS.map((value) => ({ value, label: text.marks[value] })),
          ]}
          onChoose={(value) => change({ atMark: FRACTURE_MARKS.find((one) => one === value) ?? '' })}
        />
      </div>
      <fieldset class="discontinuities">
        <legend>{text.discontinuities}</legend>
        {details.discontinuities.map((one, index) => (
          <div class="discontinuity" key={index}>
            <WordSelect
              label={text.kind}
              value={one.kind}
              choices={DISCONTINUITY_KINDS}
              names={text.kinds}
              onChoose={(kind) => changeOne(index, { kind })}
            />
            {/* A bare number is no fault: one that went away on leaving would move the button that is being pressed. */}
            <Field
              label={text.size}
              hint={text.sizeHint}
              number
              value={one.size}
              fault={entryFault(withUnit(one.size, 'length', units.value), 'length')}
              onInput={(size) => changeOne(index, { size })}
              onLeave={() => changeOne(index, { size: withUnit(one.size, 'length', units.value) })}
            />
            <Button
              kind="compact"
              name={text.remove(text.kinds[one.kind])}
              onPress={() =>
                change({ discontinuities: details.discontinuities.filter((_, at) => at !== index) })
              }
            >
              ×
            </Button>
          </div>
        ))}
        {details.discontinuities.length >= DISCONTINUITIES_MAX ? null : (
          <Button
            kind="compact"
            onPress={() =>
              change({ discontinuities: [...details.discontinuities, { kind: 'porosity', size: '' }] })
            }
          >
            {text.add}
          </Button>
        )}
      </fieldset>
    </>
  );
}
