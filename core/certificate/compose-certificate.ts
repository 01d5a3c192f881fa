/** Composes the content of a certificate. The same input gives the same content, whenever it is made. */
import { DISCONTINUITY_WORDS } from '../acceptance/fracture-details.ts';
import { LOCATION_WORDS } from '../acceptance/fracture.ts';
import { CODE_GOVERNS } from '../acceptance/source-status.ts';
import {
  CERTIFICATE_SCHEMA,
  type CertificateContent,
  type Fact,
  type SpecimenContent,
} from './certificate-content.ts';
import type { CertificateInput, CertifiedSpecimen, RecordFacts } from './certificate-input.ts';
import { instrumentFacts } from '../instruments/instrument-facts.ts';
import { concernSentence } from '../instruments/pull-instruments.ts';
import { measuredInInches } from '../results/specimen-findings.ts';
import { type SpeedCheck, speedReason } from '../results/testing-speed.ts';
import type { Specimen } from '../specimen/specimen.ts';
import { ENGLISH_PAPER, type PaperText, type PaperWords } from '../words/paper-words.ts';
import { dimensionFacts } from './dimension-facts.ts';
import { evaluationDeviations, evaluationRecordFacts } from './evaluation-facts.ts';
import { ORIGIN_MARKS } from '../pull/readings-origin.ts';
import { ORIGIN_WORDS, readingsNotices, specimenReadings } from './readings-notices.ts';
import { BREAK_MARKED_AT } from '../results/record-remarks.ts';
import { resultRows, withheldRows } from './result-rows.ts';
import { ruleFacts, setFacts } from './set-facts.ts';
import { writtenTexts } from './written-texts.ts';
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

/** Throws a RangeError for a specimen certificate with more or fewer than one specimen. */
export function composeCertificate(
  input: CertificateInput,
  language: PaperWords = ENGLISH_PAPER,
): CertificateContent {
  if (input.kind === 'specimen' && input.specimens.length !== 1) {
    throw new RangeError('a specimen certificate is about exactly one specimen');
  }
  const words = language.keeping(writtenTexts(input));
  const isNamed = input.laboratory !== NO_LABORATORY;
  return {
    schema: CERTIFICATE_SCHEMA,
    kind: input.kind,
    ...(words.language === 'en' ? {} : { language: words.language }),
    title: words.text(
      input.kind === 'set' ? 'Certificate of tension tests' : 'Certificate of a tension test',
    ),
    number: input.number,
    laboratory: isNamed ? input.laboratory : { ...input.laboratory, name: words.said(input.laboratory.name) },
    ...readingsNotices(input.specimens, words),
    issue: issueFacts(input, words),
    set: input.set === null ? [] : setFacts(input.set, words),
    rules:
      input.set === null
        ? [{ label: words.text('verdict'), value: words.text('not judged: no rules chosen') }]
        : ruleFacts(input.set, words),
    setVerdict:
      input.kind === 'specimen' || input.setVerdict === null
        ? null
        : {
            outcome: input.setVerdict.outcome,
            sentence: words.said(input.setVerdict.sentence),
            remarks: input.setVerdict.remarks.map(words.said),
          },
    specimens: input.specimens.map((one) => specimenContent(one, words)),
    deviations: deviations(input, words),
    signatures: input.signatures,
    cautions: CAUTIONS.map(words.said),
    endMark: words.text('End of certificate {1}', input.number),
  };
}

function issueFacts({ issued, firstIssued, programVersion }: CertificateInput, words: PaperWords): Fact[] {
  const again = firstIssued !== undefined && firstIssued !== issued;
  return [
    { label: words.text('issued'), value: again ? firstIssued : issued },
    ...(again ? [{ label: words.text('made again from the archive'), value: issued }] : []),
    { label: words.text('program'), value: `Gaugemark ${programVersion}` },
  ];
}

function specimenContent(one: CertifiedSpecimen, words: PaperWords): SpecimenContent {
  const { member, evaluation } = one;
  return {
    name: member.specimenId,
    retestOf: member.retest === undefined ? null : `${member.retest.of} (${member.retest.reason})`,
    voided:
      member.voided === undefined
        ? null
        : words.text('void by {1}: {2}', member.voided.by, member.voided.reason),
    readings: specimenReadings(one, words),
    dimensions: dimensionFacts(one.specimen, words),
    results: evaluation === null ? [] : resultRows(evaluation.results, words),
    withheld: evaluation === null ? [] : withheldRows(evaluation.withheld, words),
    fracture: fractureFacts(one, words),
    photos: one.photos,
    curve: one.curve,
    speed: evaluation?.speed?.checks.map((check) => speedLine(check, one.specimen, words)) ?? [],
    equipment: equipmentFacts(one, words),
    record: one.record === null ? [] : recordFacts(one.record, one, words),
    verdict: one.verdict === null ? null : verdictContent(one.verdict, words),
  };
}

/** In the units that the specimen was measured in. Every line names its rule: two methods of one standard ask for different speeds in the same stretch. */
const speedLine = (check: SpeedCheck, specimen: Specimen, { said }: PaperWords): string =>
  `${check.standard}, ${said(check.method)}: ${said(check.verdictWord)}: ${said(speedReason(check, measuredInInches(specimen) ? 'us' : 'si'))}`;

function fractureFacts(one: CertifiedSpecimen, words: PaperWords): Fact[] {
  const { broke, soundness, appearance } = one.fracture;
  const { discontinuities, mark } = one.fractureDetails ?? {};
  return facts(words, [
    ['broke', broke === undefined ? words.text('not noted') : words.said(LOCATION_WORDS[broke])],
    ['base metal that broke', one.fractureDetails?.baseMetal],
    ['mark', mark === undefined ? undefined : words.said(mark)],
    ['fracture', soundness === undefined ? undefined : words.said(soundness)],
    [
      'discontinuities seen',
      discontinuities
        ?.map(({ kind, size }) => [words.said(DISCONTINUITY_WORDS[kind]), size].filter(Boolean).join(' '))
        .join(', '),
    ],
    ['appearance', appearance === undefined ? undefined : words.said(appearance)],
    ['remarks', one.fractureRemarks],
    ['noted by', one.fractureNotedBy],
  ]);
}

function equipmentFacts({ equipment, record }: CertifiedSpecimen, words: PaperWords): Fact[] {
  if (equipment === null) return [];
  // Where a person read the display, or nothing was measured, the name is the program's.
  const isNamedHere = record?.typedIn === true || record?.origin === 'simulated';
  const system = isNamedHere ? words.said(equipment.forceSystem) : equipment.forceSystem;
  return [
    ...facts(words, [['force-measuring system', system]]),
    ...instrumentFacts(equipment.instruments, words),
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
  { typed, evaluated }: CertifiedSpecimen,
  words: PaperWords,
): Fact[] {
  return [
    ...facts(words, [
      ['pull', String(record.pullId)],
      ['pulled on', record.pulledOn === undefined ? undefined : words.said(record.pulledOn)],
      // Beside a stated day nobody may take the moment of the import for the start.
      [record.pulledOn === undefined ? 'started' : 'imported', record.started],
      ['operator', record.operator ?? undefined],
      [
        'kind of record',
        record.typedIn
          ? words.text('typed in from the display of the frame; no curve was recorded')
          : record.origin === undefined
            ? undefined
            : `${words.said(ORIGIN_MARKS[record.origin])}: ${words.text(ORIGIN_WORDS[record.origin])} ${record.originName ?? ''}`.trim(),
      ],
      ['tensile strength, as typed', typed?.strength],
      ['yield strength, as typed', typed?.yield],
      ['elongation, as typed', typed?.elongation],
      ['readings', record.typedIn ? undefined : String(record.readingCount)],
      ['SHA-256 of the raw record', record.rawSha256 ?? undefined],
      ['recorded by', `Gaugemark ${record.recordedBy}`],
      ['evaluated by', `Gaugemark ${record.evaluatedBy}`],
    ]),
    ...evaluationRecordFacts(evaluated, words),
  ];
}

/** Nothing that departs from the plain way may be found only by reading closely. */
function deviations(input: CertificateInput, words: PaperWords): string[] {
  const ofSpecimens = input.specimens.flatMap((one) => {
    const name = one.member.specimenId;
    return [
      ...(one.member.voided === undefined
        ? []
        : [words.text('{1} is void ({2}): {3}', name, one.member.voided.by, one.member.voided.reason)]),
      ...(one.member.retest === undefined
        ? []
        : [words.text('{1} is a retest of {2}: {3}', name, one.member.retest.of, one.member.retest.reason)]),
      ...(one.record?.typedIn === true ? [words.text('{1} was typed in, not recorded', name)] : []),
      ...(one.record?.gapWords ?? []).map((gap) => `${name}: ${words.said(gap)}`),
      ...(one.verdict?.verdict.validity.reasons ?? []).map((reason) =>
        words.text('{1} is questionable: {2}', name, words.said(reason.sentence)),
      ),
      ...calibrationDeviations(one).map((sentence) => `${name}: ${words.said(sentence)}`),
      ...(one.verdict === null ? [] : overrideSentences(name, one.verdict, words)),
      ...(one.evaluation?.remarks ?? [])
        .filter((remark) => !remark.startsWith(BREAK_MARKED_AT))
        .map((remark) => `${name}: ${words.said(remark)}`),
      ...(one.evaluated === undefined ? [] : evaluationDeviations(one.evaluated, words)).map(
        (sentence) => `${name}: ${sentence}`,
      ),
    ];
  });
  // The evaluation remarks its own corrections in the same words.
  const ofTheSet = [...(input.setVerdict?.deviations ?? []), ...input.deviations].map(words.said);
  return [...new Set([...ofTheSet, ...ofSpecimens])];
}

function facts(words: PaperWords, pairs: readonly (readonly [PaperText, string | undefined])[]): Fact[] {
  return pairs.flatMap(([label, value]) =>
    value === undefined || value.trim() === '' ? [] : [{ label: words.text(label), value }],
  );
}
