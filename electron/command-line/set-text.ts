/** A set for a terminal: what it is, how far each specimen is, what counts and why. */
import { CODE_GOVERNS } from '../../core/acceptance/source-status.ts';
import type { ReplyOf } from '../../core/contract/index.ts';
import type { KeptSet, MemberVerdict, SetLine } from '../../core/contract/set-requests.ts';
import { type DisplaySystem, inDisplayUnit } from '../../core/quantity/display-unit.ts';
import { ORIGIN_MARKS } from '../../core/pull/readings-origin.ts';
import { numberText } from '../../core/quantity/number-text.ts';
import { PURPOSE_WORDS, SPECIMEN_TYPE_WORDS, type SetForm } from '../../core/sets/set-form.ts';

export type JudgedReply = ReplyOf<'set.judge'>;
const STRENGTH_DIGITS = 5;

export function setListText(sets: readonly SetLine[]): string {
  return sets
    .map(
      (set) =>
        `${String(set.setId).padStart(4)}  ${new Date(set.begunWallMs).toISOString().slice(0, 10)}  ${set.name}  (${PURPOSE_WORDS[set.purpose as SetForm['purpose']]}, ${set.rulePackId}, ${String(set.memberCount)} ${set.memberCount === 1 ? 'specimen' : 'specimens'})`,
    )
    .join('\n');
}

/** What the set is, then how far it is. */
export function setText(kept: KeptSet, judged: JudgedReply, units: DisplaySystem): string {
  const { form, pack } = kept.set;
  const row = (label: string, value: string | undefined): string[] =>
    value === undefined || value === '' ? [] : [`${label.padEnd(10)} ${value}`];
  return [
    `Set ${String(kept.setId)}: ${form.name}`,
    ...row('purpose', PURPOSE_WORDS[form.purpose]),
    ...row('rules', `${pack.name}; ${pack.edition} (${pack.id})`),
    ...row('metals', form.baseMetals.map(materialText).join(' + ')),
    ...row(
      'filler',
      form.filler === undefined
        ? undefined
        : materialText({ ...form.filler, designation: form.filler.classification }),
    ),
    ...row('specimens', SPECIMEN_TYPE_WORDS[form.specimenType]),
    ...row('process', form.process),
    ...row('welder', form.welder),
    ...row(
      'corrected',
      kept.reason === null ? undefined : `${kept.reason}${kept.by === null ? '' : ` (${kept.by})`}`,
    ),
    '',
    countsText(judged),
    ...judged.members.map((member) => memberLine(member, kept, units)),
    '',
    ...verdictLines(judged),
  ].join('\n');
}

/** The verdict of the set, and of each specimen with its sentence and clause. */
export function judgedText(kept: KeptSet, judged: JudgedReply): string {
  return [
    ...verdictLines(judged),
    ...judged.members.flatMap((member) => ['', ...memberVerdictLines(member)]),
    ...judged.remarks.map((remark) => `remark     ${remark}`),
  ]
    .join('\n')
    .concat(`\n\nrules      ${kept.set.pack.name}; ${kept.set.pack.edition}\n\n${CODE_GOVERNS}`);
}

function materialText(material: {
  readonly designation: string;
  readonly minimum?: string | undefined;
  readonly heat?: string | undefined;
  readonly lot?: string | undefined;
}): string {
  const facts = [
    ...(material.minimum === undefined ? [] : [`minimum ${material.minimum}`]),
    ...(material.heat === undefined ? [] : [`heat ${material.heat}`]),
    ...(material.lot === undefined ? [] : [`lot ${material.lot}`]),
  ];
  return `${material.designation}${facts.length === 0 ? '' : ` (${facts.join(', ')})`}`;
}

function countsText({ counts }: JudgedReply): string {
  const { specimens, required, measured, pulled, judged, accepted, rejected, missing } = counts;
  return [
    `${String(specimens)} ${specimens === 1 ? 'specimen' : 'specimens'}${required === null ? '' : ` of ${String(required)} required`}`,
    `${String(measured)} measured`,
    `${String(pulled)} pulled`,
    `${String(judged)} judged`,
    `${String(accepted)} accepted`,
    `${String(rejected)} rejected`,
    ...(missing === null ? [] : [`${String(missing)} missing`]),
  ].join(', ');
}

function memberLine(member: MemberVerdict, kept: KeptSet, units: DisplaySystem): string {
  const own = kept.members.find(({ setMemberId }) => setMemberId === member.setMemberId);
  const { pullId = null, voided = null, retestOf = null } = own ?? {};
  const { strength, place, outcome, questionable, overrides, next, stage, pull } = member;
  const shown = strength === null ? null : inDisplayUnit(strength.value, strength.unit, units);
  return [
    `${String(own?.specimenId ?? '').padStart(4)}  ${member.specimenName}`,
    ...(pullId === null ? [] : [`pull ${String(pullId)}`]),
    stage.replaceAll('-', ' '),
    ...recordMarks(member),
    ...(pull === 'interrupted' ? ['INTERRUPTED'] : []),
    ...(shown === null ? [] : [`Rm ${numberText(shown.value, STRENGTH_DIGITS)} ${shown.unit}`]),
    ...(place === null ? [] : [place.replaceAll('-', ' ')]),
    ...(outcome === null
      ? []
      : [
          `${outcome.toUpperCase()}${overrides.length > 0 ? ` by override (${overrides.at(-1)?.person ?? ''})` : ''}${questionable ? ' (questionable test)' : ''}`,
        ]),
    ...(voided === null ? [] : [`VOID: ${voided.reason} (${voided.by})`]),
    ...(retestOf === null ? [] : [`retest: ${own?.retestReason ?? ''}`]),
    ...(next === null ? [] : [`next: ${next}`]),
  ].join('  ');
}

/** What the readings are, beside whatever is said of them. */
const recordMarks = ({ readings, pull }: MemberVerdict): string[] => [
  ...(readings === undefined ? [] : [ORIGIN_MARKS[readings]]),
  ...(pull === 'typed' ? ['TYPED'] : []),
];

function verdictLines({ outcome, sentence, next, missing }: JudgedReply): string[] {
  return [
    outcome.toUpperCase(),
    sentence,
    ...missing.map((one) => `missing    ${one}`),
    ...(next === null ? [] : [`next       ${next}`]),
  ];
}

function memberVerdictLines(member: MemberVerdict): string[] {
  const { specimenName, outcome, questionable, sentence, verdict, faults, next, stage } = member;
  const { clause = null, otherPacks = [], otherReadings = [], remarks = [] } = verdict ?? {};
  if (outcome === null)
    return [
      `${specimenName}  ${stage === 'void' ? 'void' : `not judged: ${next ?? stage}`}`,
      ...faults.map((fault) => `  ${fault}`),
    ];
  return [
    [
      specimenName,
      outcome.toUpperCase(),
      ...(questionable ? ['(questionable test)'] : []),
      ...recordMarks(member),
    ].join('  '),
    `  ${sentence ?? ''}`,
    ...(clause === null ? [] : [`  clause ${clause}`]),
    ...otherReadings.map(
      (reading) => `  unclear: ${reading.says}: limit ${reading.limit.text}, then ${reading.outcome}`,
    ),
    ...otherPacks.map((other) => `  ${other.pack.name} would say ${other.outcome}: ${other.sentence}`),
    ...remarks.map((remark) => `  ${remark}`),
  ];
}
