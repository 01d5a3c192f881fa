/** A kept specimen, whatever its age: the newest of those whose name fits what is typed. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { KeptSpecimen } from '../../core/contract/specimen-requests.ts';
import { NAME_LENGTH_MAX } from '../../core/limits.ts';
import { Field } from '../design/field.tsx';
import { fixed, momentText } from '../numbers/format.ts';
import { searchFor } from '../stations/find-kept.tsx';
import { SelectField } from '../stations/set/select-field.tsx';
import { request } from '../store/session-store.ts';
import { language } from '../store/view-settings.ts';
import { words } from '../words/words.ts';

/** As many as a list is looked through for. */
const OFFERED_MAX = 50;

interface Found {
  readonly items: readonly KeptSpecimen[];
  /** There are others that fit, and are older. */
  readonly isCut: boolean;
}

export function SpecimenChoice({
  id,
  chosen,
  onChoose,
}: {
  readonly id: string;
  readonly chosen: number | null;
  readonly onChoose: (specimenId: number | null) => void;
}) {
  const text = words.value.exchange;
  const typed = useSignal('');
  const found = useSignal<Found | null>(null);
  /** Stays in the list when what is typed no longer fits it. */
  const its = useSignal<KeptSpecimen | null>(null);
  useEffect(() => {
    let isLast = true;
    void request('specimen.list', { limit: OFFERED_MAX, ...searchFor(typed.value) }).then((answer) => {
      if (!isLast || !answer.ok) return;
      found.value = { items: answer.value.items, isCut: answer.value.nextCursor !== null };
    });
    return () => {
      isLast = false;
    };
  }, [typed.value]);
  useEffect(() => {
    if (chosen === null || its.value?.specimenId === chosen) return;
    void request('specimen.get', { specimenId: chosen }).then((answer) => {
      if (answer.ok) its.value = answer.value;
    });
  }, [chosen]);
  const items = found.value?.items ?? [];
  const own = its.value?.specimenId === chosen ? its.value : null;
  const isListed = own === null || items.some(({ specimenId }) => specimenId === own.specimenId);
  const label = ({ specimen, savedWallMs }: KeptSpecimen): string =>
    `${specimen.id} · ${momentText(savedWallMs)}`;
  return (
    <>
      <Field
        id={`${id}-find`}
        label={text.findSpecimen}
        hint={
          found.value === null
            ? undefined
            : items.length === 0
              ? text.noSpecimenFits
              : found.value.isCut
                ? text.specimensCut(fixed(OFFERED_MAX, 0, language.value))
                : undefined
        }
        value={typed.value}
        lengthMax={NAME_LENGTH_MAX}
        onInput={(value) => (typed.value = value)}
      />
      <SelectField
        id={id}
        label={text.whichSpecimen}
        value={chosen === null ? '' : String(chosen)}
        options={[
          { value: '', label: words.value.common.none },
          ...[...(isListed ? [] : [own]), ...items].map((kept) => ({
            value: String(kept.specimenId),
            label: label(kept),
          })),
        ]}
        onChoose={(value) => onChoose(value === '' ? null : Number(value))}
      />
    </>
  );
}
