/** The set and its rules as lines of a certificate. */
import { STATUS_WORDS } from '../acceptance/source-status.ts';
import {
  DOCUMENT_WORDS,
  type FrozenSet,
  PURPOSE_WORDS,
  SPECIMEN_TYPE_WORDS,
  type SetForm,
} from '../sets/set-form.ts';
import type { PaperText, PaperWords } from '../words/paper-words.ts';
import type { Fact } from './certificate-content.ts';

export function setFacts({ form }: FrozenSet, words: PaperWords): Fact[] {
  const { text, said } = words;
  const optional = (label: PaperText, value: string | undefined): Fact[] =>
    value === undefined || value.trim() === '' ? [] : [{ label: text(label), value }];
  return [
    { label: text('set'), value: form.name },
    { label: text('purpose'), value: said(PURPOSE_WORDS[form.purpose]) },
    ...optional('customer', form.customer),
    ...form.baseMetals.map((metal, index) => ({
      label: form.baseMetals.length === 1 ? text('base metal') : text('base metal {1}', String(index + 1)),
      value: joined([
        metal.designation,
        statedMinimum(metal.minimum, words),
        metal.heat === undefined ? undefined : text('heat {1}', metal.heat),
        metal.lot === undefined ? undefined : text('lot {1}', metal.lot),
      ]),
    })),
    ...fillerFacts(form, words),
    ...optional('minimum of the weld metal, stated for this set', form.weldMetalMinimum),
    { label: text('specimens'), value: said(SPECIMEN_TYPE_WORDS[form.specimenType]) },
    ...optional('process', form.process),
    ...optional('joint', form.joint),
    ...optional('position', form.position),
    ...optional('thickness', form.thickness),
    ...optional('outside diameter', form.outsideDiameter),
    ...optional('wall', form.wall),
    ...optional('welder', form.welder),
    ...form.documents.map((document) => ({
      label: said(DOCUMENT_WORDS[document.kind]),
      value: document.number,
    })),
    ...optional(
      'specimens asked for by the set',
      form.requiredCount === undefined ? undefined : String(form.requiredCount),
    ),
    ...optional('why fewer than the rules ask for', form.fewerReason),
    ...optional('notes', form.notes),
  ];
}

/**
 * Pack, edition, and every clause with where it was seen: what is from memory must be seen on the paper too. Those of a
 * laboratory are quoted, in whatever language the paper is.
 */
export function ruleFacts({ pack, origin }: FrozenSet, { text, said }: PaperWords): Fact[] {
  const usedClauses = new Set([
    ...pack.rules.map((rule) => rule.clause),
    pack.rounding?.clause,
    pack.severalBaseMetals?.clause,
  ]);
  return [
    { label: text('rules'), value: said(pack.name) },
    { label: text('edition'), value: said(pack.edition) },
    ...(origin === undefined
      ? []
      : [
          {
            label: text('rules of the laboratory’s own'),
            value: text('file {1}, SHA-256 {2}; kept with the set', origin.file, origin.sha256),
          },
        ]),
    {
      label: text('kind'),
      value: text(pack.kind === 'code' ? 'code' : 'shop practice: no code says it, and it qualifies nobody'),
    },
    ...pack.clauses
      .filter((clause) => usedClauses.has(clause.id))
      .map((clause) => ({
        label: said(clause.id),
        value: `${said(clause.says)} (${said(STATUS_WORDS[clause.status])})`,
      })),
  ];
}

function fillerFacts({ filler }: SetForm, words: PaperWords): Fact[] {
  if (filler === undefined) return [];
  return [
    {
      label: words.text('filler metal'),
      value: joined([
        filler.classification,
        statedMinimum(filler.minimum, words),
        filler.lot === undefined ? undefined : words.text('lot {1}', filler.lot),
        filler.heat === undefined ? undefined : words.text('heat {1}', filler.heat),
      ]),
    },
  ];
}

const statedMinimum = (minimum: string | undefined, { text }: PaperWords): string | undefined =>
  minimum === undefined ? undefined : text('specified minimum {1}, stated for this set', minimum);

function joined(parts: readonly (string | undefined)[]): string {
  return parts.filter((part) => part !== undefined).join(', ');
}
