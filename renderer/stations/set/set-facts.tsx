/** What is said of the set, in a few lines; everything of it stands on the certificate. */
import type { KeptSet } from '../../../core/contract/set-requests.ts';
import { words } from '../../words/words.ts';

export function SetFacts({ kept }: { readonly kept: KeptSet }) {
  const text = words.value.set;
  const { form } = kept.set;
  const joined = (parts: readonly (string | undefined)[]) =>
    parts.filter((part) => part !== undefined && part !== '').join(', ');
  const rows: readonly (readonly [string, string])[] = [
    [
      text.facts.materials,
      [
        ...form.baseMetals.map((metal) =>
          joined([
            metal.designation,
            metal.minimum === undefined ? undefined : `≥ ${metal.minimum}`,
            metal.heat === undefined ? undefined : `${text.form.heat} ${metal.heat}`,
            metal.lot === undefined ? undefined : `${text.form.lot} ${metal.lot}`,
          ]),
        ),
        form.filler === undefined
          ? ''
          : joined([
              form.filler.classification,
              form.filler.lot === undefined ? undefined : `${text.form.lot} ${form.filler.lot}`,
            ]),
      ]
        .filter((part) => part !== '')
        .join(' · '),
    ],
    [text.facts.specimens, joined([text.form.specimenTypes[form.specimenType], form.thickness])],
    [text.facts.welding, joined([form.process, form.joint, form.position, form.welder])],
    [
      text.facts.documents,
      form.documents.map(({ kind, number }) => `${text.form.documents[kind]} ${number}`).join(' · '),
    ],
  ];
  return (
    <dl class="facts set-facts">
      {rows
        .filter(([, value]) => value !== '')
        .map(([label, value]) => (
          <>
            <dt key={label}>{label}</dt>
            <dd>{value}</dd>
          </>
        ))}
      {kept.reason === null ? null : (
        <>
          <dt>{text.form.titleCorrect}</dt>
          <dd>{joined([kept.reason, kept.by ?? undefined])}</dd>
        </>
      )}
    </dl>
  );
}
