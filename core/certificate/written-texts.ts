/** What people wrote that may stand within a sentence of a certificate: it is never taken for words of the program. */
import type { FrozenSet } from '../sets/set-form.ts';
import type { CertificateInput, CertifiedSpecimen } from './certificate-input.ts';

/** A laboratory's own rules are quoted, so they are among them; the program's own are its words. */
export const writtenTexts = ({ set, specimens, written = [] }: CertificateInput): string[] =>
  [...written, ...(set === null ? [] : ofSet(set)), ...specimens.flatMap(ofSpecimen)].filter(
    (text) => text !== undefined,
  );

type Texts = readonly (string | undefined)[];

const ofSet = ({ form, pack, origin, otherPacks = [] }: FrozenSet): Texts => [
  form.name,
  form.fewerReason,
  form.filler?.classification,
  ...form.baseMetals.flatMap(({ designation, heat, lot }) => [designation, heat, lot]),
  ...[...(origin === undefined ? [] : [pack]), ...otherPacks].flatMap(
    ({ name, shortName, edition, clauses }) => [
      name,
      shortName,
      edition,
      ...clauses.flatMap(({ id, says, source }) => [id, says, source]),
    ],
  ),
];

function ofSpecimen({ member, equipment, record, evaluated, verdict, ...one }: CertifiedSpecimen): Texts {
  return [
    member.specimenId,
    member.retest?.of,
    member.retest?.reason,
    member.voided?.by,
    member.voided?.reason,
    one.fractureDetails?.baseMetal,
    record?.operator ?? undefined,
    record?.originName,
    evaluated?.reason,
    evaluated?.options.lineFormat?.name,
    evaluated?.options.judgedBy?.pack.name,
    ...(verdict?.overrides ?? []).flatMap(({ person, reason }) => [
      person,
      reason,
      reason.replace(/\.$/, ''),
    ]),
    ...(equipment?.instruments?.used ?? []).flatMap((used) => [
      used.name,
      used.serialNumber ?? undefined,
      used.certificateNumber ?? undefined,
    ]),
  ];
}
