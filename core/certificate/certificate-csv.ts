/** The content of a certificate as delimited text: one row a fact, the same words as on the paper. */
import {
  BYTE_ORDER_MARK,
  type CsvForm,
  LINE_END,
  PLAIN_CSV,
  requireReadable,
  textCell,
} from '../exchange/export/csv-form.ts';
import { numberText } from '../quantity/number-text.ts';
import type {
  CertificateContent,
  CurveContent,
  Fact,
  ResultRow,
  SpecimenContent,
} from './certificate-content.ts';

type Row = readonly [section: string, specimen: string, item: string, value: string];

export function certificateCsv(content: CertificateContent, form: CsvForm = PLAIN_CSV): string {
  requireReadable(form);
  const rows: Row[] = [['section', 'specimen', 'item', 'value'], ...certificateRows(content)];
  const lines = rows.map((row) => row.map((cell) => textCell(cell, form)).join(form.delimiter));
  return `${form.byteOrderMark ? BYTE_ORDER_MARK : ''}${lines.join(LINE_END)}${LINE_END}`;
}

function certificateRows(content: CertificateContent): Row[] {
  return [
    ['certificate', '', 'title', content.title],
    ['certificate', '', 'number', content.number],
    ...listRows('certificate', '', 'notice', content.notices),
    ['certificate', '', 'laboratory', [content.laboratory.name, ...content.laboratory.lines].join(', ')],
    ...factRows('certificate', '', content.issue),
    ...factRows('set', '', content.set),
    ...factRows('rules', '', content.rules),
    ...content.specimens.flatMap(specimenRows),
    ...(content.setVerdict === null
      ? []
      : ([
          ['verdict on the set', '', 'outcome', content.setVerdict.outcome],
          ['verdict on the set', '', 'sentence', content.setVerdict.sentence],
          ...listRows('verdict on the set', '', 'remark', content.setVerdict.remarks),
        ] satisfies Row[])),
    ...listRows('deviations', '', 'deviation', content.deviations),
    ...content.signatures.map((signature): Row => [
      'signatures',
      '',
      signature.meaning,
      `${signature.printedName}, ${signature.at}${signature.contentSha256 === undefined ? '' : `, content SHA-256 ${signature.contentSha256}`}`,
    ]),
    ...listRows('cautions', '', 'caution', content.cautions),
    ['end', '', 'end mark', content.endMark],
  ];
}

function specimenRows(specimen: SpecimenContent): Row[] {
  const { name, verdict } = specimen;
  return [
    ...(specimen.retestOf === null ? [] : [['specimen', name, 'retest of', specimen.retestOf] as const]),
    ...(specimen.voided === null ? [] : [['specimen', name, 'void', specimen.voided] as const]),
    ...(specimen.readings === null
      ? []
      : [['specimen', name, 'readings', specimen.readings.notice] as const]),
    ...factRows('dimensions', name, specimen.dimensions),
    ...specimen.results.flatMap((row): Row[] => [
      ['results', name, `${row.symbol} (SI)`, row.si],
      ...(row.us === null ? [] : [['results', name, `${row.symbol} (US)`, row.us] as const]),
      ...(row.reported === null
        ? []
        : [['results', name, `${row.symbol}, ${row.reported.rule}`, row.reported.text] as const]),
      ...(row.uncertainty === null
        ? []
        : [['results', name, `${row.symbol} uncertainty`, uncertaintyText(row.uncertainty)] as const]),
      ...listRows('results', name, `${row.symbol} remark`, row.remarks),
    ]),
    ...specimen.withheld.map((one): Row => ['withheld', name, one.symbol, one.reason]),
    ...curveRows(name, specimen.curve),
    ...factRows('fracture', name, specimen.fracture),
    ...specimen.photos.map((photo): Row => ['photo', name, photo.caption, `SHA-256 ${photo.sha256}`]),
    ...listRows('speed of testing', name, 'speed', specimen.speed),
    ...factRows('equipment', name, specimen.equipment),
    ...factRows('record', name, specimen.record),
    ...(verdict === null
      ? []
      : ([
          ['verdict', name, 'outcome', verdict.outcome],
          ['verdict', name, 'outcome of the rules', verdict.outcomeOfRules],
          ['verdict', name, 'sentence', verdict.sentence],
          ['verdict', name, 'clause', verdict.clause ?? ''],
          ['verdict', name, 'where the clause was seen', verdict.clauseOrigin ?? ''],
          ...listRows('verdict', name, 'questionable', verdict.questionable),
          ...listRows('verdict', name, 'missing', verdict.missing),
          ...factRows('verdict', name, verdict.comparisons),
          ...factRows('verdict', name, verdict.decision),
          ...listRows('verdict', name, 'other reading', verdict.otherReadings),
          ...listRows('verdict', name, 'other rules', verdict.otherPacks),
          ...listRows('verdict', name, 'remark', verdict.remarks),
        ] satisfies Row[])),
  ];
}

/** The points that the drawing marks; the whole curve is in the JSON form, and exported as a curve file. */
function curveRows(name: string, curve: CurveContent | null): Row[] {
  if (curve === null) return [];
  const pictures = [curve, ...(curve.overTime === null ? [] : [curve.overTime])];
  return pictures.flatMap(({ xLabel, yLabel, marks, note }): Row[] => [
    ...marks.map((mark): Row => [
      'curve',
      name,
      mark.words,
      `${xLabel}: ${numberText(mark.x)}; ${yLabel}: ${numberText(mark.y)}`,
    ]),
    ...(note === null ? [] : [['curve', name, 'note', note] as const]),
  ]);
}

const uncertaintyText = ({ si, us, coverageFactor }: NonNullable<ResultRow['uncertainty']>): string =>
  `${si} (k = ${coverageFactor})${us === null ? '' : `; ${us}`}`;

function factRows(section: string, specimen: string, facts: readonly Fact[]): Row[] {
  return facts.map((fact) => [section, specimen, fact.label, fact.value]);
}

function listRows(section: string, specimen: string, item: string, values: readonly string[]): Row[] {
  return values.map((value) => [section, specimen, item, value]);
}
