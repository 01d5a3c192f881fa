/** Composes the content of a certificate. The same input gives the same content, whenever it is made. */
import { LOCATION_WORDS } from '../acceptance/fracture.ts';
import { CODE_GOVERNS } from '../acceptance/source-status.ts';
import {
  CERTIFICATE_SCHEMA,
  type CertificateContent,
  type Fact,
  type SpecimenContent,
} from './certificate-content.ts';
import type {
  CertificateInput,
  CertifiedSpecimen,
  EquipmentFacts,
  RecordFacts,
} from './certificate-input.ts';
import { instrumentFacts } from '../instruments/instrument-facts.ts';
import { concernSentence } from '../instruments/pull-instruments.ts';
import { measuredInInches } from '../results/specimen-findings.ts';
import { type SpeedCheck, speedSentence } from '../results/testing-speed.ts';
import type { Specimen } from '../specimen/specimen.ts';
import { dimensionFacts } from './dimension-facts.ts';
import { evaluationDeviations, evaluationRecordFacts } from './evaluation-facts.ts';
import { ORIGIN_MARKS } from '../pull/readings-origin.ts';
import { ORIGIN_WORDS, readingsNotices, specimenReadings } from './readings-notices.ts';
import { BREAK_MARKED_AT } from '../results/record-remarks.ts';
import { resultRows, withheldRows } from './result-rows.ts';
import { ruleFacts, setFacts } from './set-facts.ts';
import { overrideSentences, verdictContent } from './verdict-content.ts';

export const CAUTIONS = [
  'The results relate only to the items tested.',
  CODE_GOVERNS,
  'This program is no safety device and does not move the frame; guards, eye protection and the stored energy of a loaded specimen are the operator’s to mind.',
] as const;

export const NO_LABORATORY: CertificateInput['laboratory'] = {
  name: 'No laboratory is named in this archive',
  lines: [],
};

const NO_RULES: readonly Fact[] = [{ label: 'verdict', value: 'not judged: no rules chosen' }];

/** Throws a RangeError for a specimen certificate with more or fewer than one specimen. */
export function composeCertificate(input: CertificateInput): CertificateContent {
  if (input.kind === 'specimen' && input.specimens.length !== 1) {
    throw new RangeError('a specimen certificate is about exactly one specimen');
  }
  return {
    schema: CERTIFICATE_SCHEMA,
    kind: input.kind,
    title: input.kind === 'set' ? 'Certificate of tension tests' : 'Certificate of a tension test',
    number: input.number,
    laboratory: input.laboratory,
    ...readingsNotices(input.specimens),
    issue: issueFacts(input),
    set: input.set === null ? [] : setFacts(input.set),
    rules: input.set === null ? NO_RULES : ruleFacts(input.set),
    setVerdict:
      input.kind === 'specimen' || input.setVerdict === null
        ? null
        : {
            outcome: input.setVerdict.outcome,
            sentence: input.setVerdict.sentence,
            remarks: input.setVerdict.remarks,
          },
    specimens: input.specimens.map(specimenContent),
    deviations: deviations(input),
    signatures: input.signatures,
    cautions: CAUTIONS,
    endMark: `End of certificate ${input.number}`,
  };
}

function issueFacts({ issued, firstIssued, programVersion }: CertificateInput): Fact[] {
  const again = firstIssued !== undefined && firstIssued !== issued;
  return [
    { label: 'issued', value: again ? firstIssued : issued },
    ...(again ? [{ label: 'made again from the archive', value: issued }] : []),
    { label: 'program', value: `Gaugemark ${programVersion}` },
  ];
}

function specimenContent(one: CertifiedSpecimen): SpecimenContent {
  const { member, evaluation } = one;
  return {
    name: member.specimenId,
    retestOf: member.retest === undefined ? null : `${member.retest.of} (${member.retest.reason})`,
    voided: member.voided === undefined ? null : `void by ${member.voided.by}: ${member.voided.reason}`,
    readings: specimenReadings(one),
    dimensions: dimensionFacts(one.specimen),
    results: evaluation === null ? [] : resultRows(evaluation.results),
    withheld: evaluation === null ? [] : withheldRows(evaluation.withheld),
    fracture: fractureFacts(one),
    photos: one.photos,
    curve: one.curve,
    speed: evaluation?.speed?.checks.map((check) => speedLine(check, one.specimen)) ?? [],
    equipment: equipmentFacts(one.equipment),
    record: one.record === null ? [] : recordFacts(one.record, one.typed, one.evaluated),
    verdict: one.verdict === null ? null : verdictContent(one.verdict),
  };
}

/** In the units that the specimen was measured in. Every line names its rule: two methods of one standard ask for different speeds in the same stretch. */
const speedLine = (check: SpeedCheck, specimen: Specimen): string =>
  `${check.standard}, ${check.method}: ${speedSentence(check, measuredInInches(specimen) ? 'us' : 'si')}`;

function fractureFacts(one: CertifiedSpecimen): Fact[] {
  const { broke, soundness, appearance } = one.fracture;
  return facts([
    ['broke', broke === undefined ? 'not noted' : LOCATION_WORDS[broke]],
    ['base metal that broke', one.fractureDetails?.baseMetal],
    ['mark', one.fractureDetails?.mark],
    ['fracture', soundness],
    ['discontinuities seen', one.fractureDetails?.discontinuities],
    ['appearance', appearance],
    ['remarks', one.fractureRemarks],
    ['noted by', one.fractureNotedBy],
  ]);
}

function equipmentFacts(equipment: EquipmentFacts | null): Fact[] {
  if (equipment === null) return [];
  return [
    ...facts([['force-measuring system', equipment.forceSystem]]),
    ...instrumentFacts(equipment.instruments),
  ];
}

/** What speaks against the calibration and no verdict has told already. */
function calibrationDeviations({ equipment, verdict }: CertifiedSpecimen): string[] {
  const its = equipment?.instruments ?? null;
  if (its === null) return [];
  const told = new Set<string>(verdict?.verdict.validity.reasons.map(({ code }) => code));
  return its.concerns
    .filter(({ code }) => !told.has(code === 'no-calibration' ? 'calibration-unknown' : code))
    .map((one) => concernSentence(one, its.used));
}

function recordFacts(
  record: RecordFacts,
  typed: CertifiedSpecimen['typed'],
  evaluated: CertifiedSpecimen['evaluated'],
): Fact[] {
  return facts([
    ['pull', String(record.pullId)],
    ['pulled on', record.pulledOn],
    // Beside a stated day nobody may take the moment of the import for the start.
    [record.pulledOn === undefined ? 'started' : 'imported', record.started],
    ['operator', record.operator ?? undefined],
    [
      'kind of record',
      record.typedIn
        ? 'typed in from the display of the frame; no curve was recorded'
        : record.origin === undefined
          ? undefined
          : `${ORIGIN_MARKS[record.origin]}: ${ORIGIN_WORDS[record.origin]} ${record.originName ?? ''}`.trim(),
    ],
    ['tensile strength, as typed', typed?.strength],
    ['yield strength, as typed', typed?.yield],
    ['elongation, as typed', typed?.elongation],
    ['readings', record.typedIn ? undefined : String(record.readingCount)],
    ['SHA-256 of the raw record', record.rawSha256 ?? undefined],
    ['recorded by', `Gaugemark ${record.recordedBy}`],
    ['evaluated by', `Gaugemark ${record.evaluatedBy}`],
    ...evaluationRecordFacts(evaluated),
  ]);
}

/** Nothing that departs from the plain way may be found only by reading closely. */
function deviations(input: CertificateInput): string[] {
  const ofSpecimens = input.specimens.flatMap((one) => {
    const name = one.member.specimenId;
    return [
      ...(one.member.voided === undefined
        ? []
        : [`${name} is void (${one.member.voided.by}): ${one.member.voided.reason}`]),
      ...(one.member.retest === undefined
        ? []
        : [`${name} is a retest of ${one.member.retest.of}: ${one.member.retest.reason}`]),
      ...(one.record?.typedIn === true ? [`${name} was typed in, not recorded`] : []),
      ...(one.record?.gapWords ?? []).map((words) => `${name}: ${words}`),
      ...(one.verdict?.verdict.validity.reasons ?? []).map(
        (reason) => `${name} is questionable: ${reason.sentence}`,
      ),
      ...calibrationDeviations(one).map((sentence) => `${name}: ${sentence}`),
      ...(one.verdict === null ? [] : overrideSentences(name, one.verdict)),
      ...(one.evaluation?.remarks ?? [])
        .filter((remark) => !remark.startsWith(BREAK_MARKED_AT))
        .map((remark) => `${name}: ${remark}`),
      ...(one.evaluated === undefined ? [] : evaluationDeviations(one.evaluated)).map(
        (sentence) => `${name}: ${sentence}`,
      ),
    ];
  });
  // The evaluation remarks its own corrections in the same words.
  return [...new Set([...(input.setVerdict?.deviations ?? []), ...input.deviations, ...ofSpecimens])];
}

function facts(pairs: readonly (readonly [string, string | undefined])[]): Fact[] {
  return pairs.flatMap(([label, value]) =>
    value === undefined || value.trim() === '' ? [] : [{ label, value }],
  );
}
