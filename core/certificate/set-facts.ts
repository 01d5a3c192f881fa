/** The set and its rules as lines of a certificate. */
import { STATUS_WORDS } from '../acceptance/source-status.ts';
import {
  DOCUMENT_WORDS,
  type FrozenSet,
  PURPOSE_WORDS,
  SPECIMEN_TYPE_WORDS,
  type SetForm,
} from '../sets/set-form.ts';
import type { Fact } from './certificate-content.ts';

export function setFacts({ form }: FrozenSet): Fact[] {
  return [
    { label: 'set', value: form.name },
    { label: 'purpose', value: PURPOSE_WORDS[form.purpose] },
    ...optional('customer', form.customer),
    ...form.baseMetals.map((metal, index) => ({
      label: form.baseMetals.length === 1 ? 'base metal' : `base metal ${String(index + 1)}`,
      value: joined([
        metal.designation,
        metal.minimum === undefined ? undefined : `specified minimum ${metal.minimum}, stated for this set`,
        metal.heat === undefined ? undefined : `heat ${metal.heat}`,
        metal.lot === undefined ? undefined : `lot ${metal.lot}`,
      ]),
    })),
    ...fillerFacts(form),
    ...optional('minimum of the weld metal, stated for this set', form.weldMetalMinimum),
    { label: 'specimens', value: SPECIMEN_TYPE_WORDS[form.specimenType] },
    ...optional('process', form.process),
    ...optional('joint', form.joint),
    ...optional('position', form.position),
    ...optional('thickness', form.thickness),
    ...optional('outside diameter', form.outsideDiameter),
    ...optional('wall', form.wall),
    ...optional('welder', form.welder),
    ...form.documents.map((document) => ({ label: DOCUMENT_WORDS[document.kind], value: document.number })),
    ...optional(
      'specimens asked for by the set',
      form.requiredCount === undefined ? undefined : String(form.requiredCount),
    ),
    ...optional('why fewer than the rules ask for', form.fewerReason),
    ...optional('notes', form.notes),
  ];
}

/** Pack, edition, and every clause with where it was seen: what is from memory must be seen on the paper too. */
export function ruleFacts({ pack, origin }: FrozenSet): Fact[] {
  const usedClauses = new Set([
    ...pack.rules.map((rule) => rule.clause),
    pack.rounding?.clause,
    pack.severalBaseMetals?.clause,
  ]);
  return [
    { label: 'rules', value: pack.name },
    { label: 'edition', value: pack.edition },
    ...(origin === undefined
      ? []
      : [
          {
            label: 'rules of the laboratory’s own',
            value: `file ${origin.file}, SHA-256 ${origin.sha256}; kept with the set`,
          },
        ]),
    {
      label: 'kind',
      value: pack.kind === 'code' ? 'code' : 'shop practice: no code says it, and it qualifies nobody',
    },
    ...pack.clauses
      .filter((clause) => usedClauses.has(clause.id))
      .map((clause) => ({ label: clause.id, value: `${clause.says} (${STATUS_WORDS[clause.status]})` })),
  ];
}

function fillerFacts({ filler }: SetForm): Fact[] {
  if (filler === undefined) return [];
  return [
    {
      label: 'filler metal',
      value: joined([
        filler.classification,
        filler.minimum === undefined ? undefined : `specified minimum ${filler.minimum}, stated for this set`,
        filler.lot === undefined ? undefined : `lot ${filler.lot}`,
        filler.heat === undefined ? undefined : `heat ${filler.heat}`,
      ]),
    },
  ];
}

function optional(label: string, value: string | undefined): Fact[] {
  return value === undefined || value.trim() === '' ? [] : [{ label, value }];
}

function joined(parts: readonly (string | undefined)[]): string {
  return parts.filter((part) => part !== undefined).join(', ');
}
