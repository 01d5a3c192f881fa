import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { DECISION_RULES, DECISION_WORDS } from '../../../core/acceptance/decision-rule.ts';
import { judgeSet } from '../../../core/acceptance/judge-set.ts';
import { decidedVerdict } from '../../../core/acceptance/override.ts';
import { SOURCE_STATUSES } from '../../../core/acceptance/source-status.ts';
import { packOfSet } from '../../../core/sets/set-faults.ts';
import { certificateCsv } from '../../../core/certificate/certificate-csv.ts';
import type { CertificateInput } from '../../../core/certificate/certificate-input.ts';
import { composeCertificate } from '../../../core/certificate/compose-certificate.ts';
import { certificatePage } from '../../../core/certificate/paper/certificate-page.ts';
import { curveContent } from '../../../core/certificate/curve-content.ts';
import type { Curve } from '../../../core/curve/curve.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';
import { SPANISH_PAPER } from '../../../core/words/es/spanish-paper.ts';
import { ENGLISH_PAPER } from '../../../core/words/paper-words.ts';
import { verdictText } from '../../../electron/command-line/verdict-text.ts';
import { exampleCurve, exampleInput } from './example-input.ts';

describe('what a certificate says', () => {
  const content = composeCertificate(exampleInput());
  const [specimen] = content.specimens;

  it('number, end mark, cautions and signatures with their meaning', () => {
    expect(content.number).toBe('C-2031-007');
    expect(content.endMark).toContain('C-2031-007');
    expect(content.cautions.join(' ')).toMatch(
      /relate only to the items tested.*the code, the responsible inspector or engineer.*govern/,
    );
    expect(content.signatures).toMatchObject([{ printedName: 'Q. Inspector', meaning: 'approved by' }]);
  });

  it('strength in both unit systems, with the rounded value, its rule and the uncertainty', () => {
    const strength = specimen?.results.find((row) => row.symbol === 'Rm');
    expect(strength?.si).toMatch(/^\d{3}(\.\d+)? MPa$/);
    // Blanks between thousands as in the verdict beside it.
    expect(strength?.us).toMatch(/^\d{2,3} \d{3} psi$/);
    expect(strength?.reported?.rule).toContain('ISO 6892-1');
    expect(strength?.uncertainty).toEqual({
      si: expect.stringMatching(/^± \d+(\.\d+)? MPa$/) as string,
      us: expect.stringMatching(/^± \d+ psi$/) as string,
      coverageFactor: expect.stringMatching(/^\d+(\.\d+)?$/) as string,
    });
  });

  it('every measurement of a dimension as it was typed', () => {
    expect(specimen?.dimensions).toContainEqual({ label: 'thickness', value: '5.00 mm, 5.01 mm' });
  });

  it('the override beside the verdict of the rules, and among the deviations', () => {
    expect(specimen?.verdict).toMatchObject({ outcome: 'accept', outcomeOfRules: 'undecided' });
    expect(content.specimens[0]?.equipment).toEqual([
      { label: 'force-measuring system', value: 'bench readout' },
      { label: 'frame', value: 'frame 2, no. 0815, class 1 (ISO 7500-1)' },
      {
        label: 'calibration of the frame',
        value: 'certificate K-2030-17 of 2030-03-01, due 2031-03-01: OVERDUE at the time of the pull',
      },
      {
        label: 'known before the start',
        value:
          'The calibration of the frame frame 2, no. 0815 was due on 2031-03-01 and is overdue (certificate K-2030-17).',
      },
    ]);
    expect(content.deviations.join('\n')).toMatch(/questionable: the calibration.*overdue/);
    expect(content.deviations.join('\n')).toMatch(
      /overridden to "accept" by Q\. Inspector on 2031-04-02.*verified the day after/,
    );
    expect(content.deviations.join('\n')).toContain('nothing received for 1.2 s');
  });

  it('an evaluation that a person kept: every correction once, who, when and why, and where a table came from', () => {
    const [example] = exampleInput().specimens;
    if (example?.evaluation === null || example?.evaluation === undefined) throw new Error('no example');
    const remark = '40 N is taken off every force as its zero.';
    const { deviations, specimens } = composeCertificate(
      exampleInput({
        specimens: [
          {
            ...example,
            evaluation: { ...example.evaluation, remarks: [remark] },
            evaluated: {
              evaluationId: 3,
              options: { corrections: { forceZeroN: 40 }, slopeFrom: 'loop' },
              sources: [{ what: 'blank run', name: 'blank.csv', sha256: 'ef'.repeat(32) }],
              kept: '2031-04-01T16:00:00.000Z',
              by: 'operator 2',
              reason: 'grip was not zeroed',
            },
          },
        ],
      }),
    );
    expect(deviations.filter((sentence) => sentence.includes(remark))).toEqual([`T-1: ${remark}`]);
    expect(deviations).toContain('T-1: The elastic slope is taken from the unloading loop.');
    expect(deviations).toContain(
      'T-1: Evaluated so by operator 2, 2031-04-01 16:00:00 (UTC): grip was not zeroed',
    );
    expect(specimens[0]?.record).toContainEqual({ label: 'evaluation', value: 'no. 3 of the archive' });
    expect(specimens[0]?.record).toContainEqual({
      label: 'blank run',
      value: `blank.csv, SHA-256 ${'ef'.repeat(32)}`,
    });
  });

  it('no break that the record itself names among the deviations: every recorded pull has one', () => {
    const [example] = exampleInput().specimens;
    if (example?.evaluation === null || example?.evaluation === undefined) throw new Error('no example');
    const remarks = ['The break was marked at reading no. 4496.', 'The record begins at 9 % of the maximum.'];
    const { deviations } = composeCertificate(
      exampleInput({ specimens: [{ ...example, evaluation: { ...example.evaluation, remarks } }] }),
    );
    expect(deviations.filter((one) => remarks.some((remark) => one.includes(remark)))).toEqual([
      `T-1: ${remarks[1] ?? ''}`,
    ]);
  });

  it('a set that asks for fewer specimens than its rules, among the deviations', () => {
    const input = exampleInput();
    if (input.set === null) throw new Error('the example is a set');
    const setVerdict = judgeSet({
      pack: packOfSet(input.set),
      members: [{ specimenId: 'T-1', outcome: 'accept' }],
      requiredCount: 1,
      fewerReason: 'one coupon',
    });
    const { deviations } = composeCertificate({ ...input, setVerdict });
    expect(deviations[0]).toMatch(/^1 specimen instead of the 2 that .*: one coupon$/);
  });

  it('each line on the speed of testing with the standard and the method that it is of', () => {
    const lines = specimen?.speed ?? [];
    for (const rule of [
      'ASTM E8/E8M, method A, stress rate: ',
      'ASTM E8/E8M, method C, crosshead over reduced section: ',
      'ISO 6892-1, method A, through yield: ',
      'ISO 6892-1, method B, through yield: ',
    ])
      expect(lines.filter((line) => line.startsWith(rule))).toHaveLength(1);
    for (const line of lines)
      expect(line).toMatch(/^(ASTM E8\/E8M|ISO 6892-1), .+: (Within|Outside|Can't tell): /);
  });

  it('says what is missing in the words of the entry, not in the keys of a file', () => {
    const [example] = exampleInput().specimens;
    if (example?.evaluation === null || example?.evaluation === undefined) throw new Error('no example');
    const reason = 'enter finalDiameter, or finalWidth and finalThickness.';
    const withheld = [{ symbol: 'Z', name: 'reduction of area', code: 'not-measured', reason }];
    const evaluation = { ...example.evaluation, withheld };
    const { specimens } = composeCertificate(exampleInput({ specimens: [{ ...example, evaluation }] }));
    expect(specimens[0]?.withheld[0]?.reason).toBe(
      'enter the diameter after fracture, or the width after fracture and the thickness after fracture.',
    );
  });

  it('a clause, and where it was seen, as the command line and the rules show them', () => {
    const input = exampleInput();
    const verdict = input.specimens[0]?.verdict?.verdict;
    if (verdict === undefined) throw new Error('the example has no verdict');
    for (const clauseStatus of SOURCE_STATUSES) {
      const judged = { ...verdict, clauseStatus, clauseSource: 'page 7 of a book' };
      const specimens = input.specimens.map((one) => ({ ...one, verdict: decidedVerdict(judged, []) }));
      const content = composeCertificate({ ...input, specimens });
      const its = content.specimens[0]?.verdict;
      const text = verdictText(judged).split('\n');
      expect(text).toContain(`clause   ${its?.clause ?? ''}: ${verdict.clauseSays ?? ''}`);
      expect(text[text.findIndex((line) => line.startsWith('clause')) + 1]?.trim()).toBe(its?.clauseOrigin);
      expect(its?.clauseOrigin?.includes('page 7 of a book')).toBe(clauseStatus !== 'practice');
      expect(content.rules.find(({ label }) => label === its?.clause)?.value).toContain(
        verdict.clauseSays ?? 'no clause',
      );
    }
  });

  it('words in place of codes: which decision rule, and how halves were rounded', () => {
    const input = exampleInput();
    const verdict = input.specimens[0]?.verdict?.verdict;
    const [check] = verdict?.checks ?? [];
    if (verdict === undefined || verdict.decision === null || check?.limit === undefined)
      throw new Error('the example has no decision');
    const { decision } = verdict;
    for (const words of [ENGLISH_PAPER, SPANISH_PAPER])
      for (const name of DECISION_RULES)
        for (const tie of ['half-even', 'half-up', 'down'] as const) {
          const rounding = { step: { value: 1, unit: 'MPa', text: '1 MPa' }, tie, clause: '6' } as const;
          const judged = { ...verdict, decision: { ...decision, name }, checks: [{ ...check, rounding }] };
          const specimens = input.specimens.map((one) => ({ ...one, verdict: decidedVerdict(judged, []) }));
          const page = certificatePage(composeCertificate({ ...input, specimens }, words), {
            ...({ paper: 'A4', fonts: [] } as const),
            words,
          });
          expect(page).toContain(words.text(DECISION_WORDS[name]));
          expect(page).not.toMatch(/simple-acceptance|guarded-acceptance|three-zones|half-even|half-up/);
        }
  });

  it('which rules are from memory', () => {
    expect(content.rules.map((fact) => fact.value).join(' ')).toContain(
      'from memory, not checked against the standard',
    );
  });

  it('the hash of the raw record and of the photograph', () => {
    expect(specimen?.record).toContainEqual({ label: 'SHA-256 of the raw record', value: 'cd'.repeat(32) });
    expect(specimen?.photos[0]?.sha256).toBe('ab'.repeat(32));
  });

  it('is plain data, the same every time', () => {
    expect(JSON.parse(JSON.stringify(content))).toEqual(content);
    expect(composeCertificate(exampleInput())).toEqual(content);
  });

  it('made again years later says so, and changes nothing else', () => {
    const again = composeCertificate(
      exampleInput({ issued: '2040-01-05T08:00:00+01:00', firstIssued: '2031-04-02T10:00:00+02:00' }),
    );
    expect(again.issue).toContainEqual({ label: 'issued', value: '2031-04-02T10:00:00+02:00' });
    expect(again.issue).toContainEqual({
      label: 'made again from the archive',
      value: '2040-01-05T08:00:00+01:00',
    });
    expect({ ...again, issue: [] }).toEqual({ ...content, issue: [] });
  });

  it('a specimen certificate is about one specimen', () => {
    expect(() => composeCertificate(exampleInput({ kind: 'specimen', specimens: [] }))).toThrow(RangeError);
  });
});

describe('the curve of a certificate', () => {
  const content = curveContent(exampleCurve, evaluate(exampleCurve, null));

  it('names the first proof strength by the offset that was asked for, as its line does', () => {
    const specimen = exampleInput().specimens[0]?.specimen ?? null;
    const half = curveContent(exampleCurve, evaluate(exampleCurve, specimen, { offsetsPercent: [0.5, 0.2] }));
    expect(half?.lines.map(({ words }) => words)).toEqual(['0.5 % offset', '0.2 % offset']);
    expect(half?.marks.map(({ words }) => words)).toContainEqual(
      expect.stringMatching(/^0\.5 % offset [\d.]/),
    );
    expect(half?.marks.map(({ words }) => words).join()).not.toContain('0.2 % offset');
  });

  it('ends where the record ends and holds its highest point', () => {
    expect(content?.x.at(-1)).toBe(exampleCurve.extensionMm?.at(-1));
    expect(content?.y.at(-1)).toBe(exampleCurve.forceN?.at(-1));
    expect(Math.max(...(content?.y ?? []))).toBe(Math.max(...(exampleCurve.forceN ?? [])));
  });

  it('marks maximum and offset line where the evaluation has them', () => {
    const marked = exampleInput().specimens[0]?.curve;
    expect(marked?.marks.map((mark) => mark.words).join(', ')).toMatch(/maximum 60 000 N/);
    const [line] = marked?.lines ?? [];
    // The foot lies 0.2 % of 50 mm to the right of the elastic line's foot.
    expect(line?.x1).toBeCloseTo(0.1, 2);
    expect(line?.y1).toBe(0);
  });

  it('lifts the pen at a gap and labels crosshead travel', () => {
    const travelled: Curve = {
      length: 4,
      forceN: Float64Array.from([0, 10, 20, 30]),
      travelMm: Float64Array.from([0, 1, 2, 3]),
      gaps: [{ beforeIndex: 2, durationS: 1, cause: 'silence' }],
    };
    const shown = curveContent(travelled, null);
    expect(shown).toMatchObject({ x: [0, 1, 2, 3], lifts: [2] });
    expect(shown?.note).toMatch(/give of frame and grips/);
  });

  it('is drawn over time too where the extension ends before the maximum, with maximum and break marked', () => {
    const offAt = 300;
    const extensionMm = exampleCurve.extensionMm?.map((value, i) => (i > offAt ? Number.NaN : value));
    if (extensionMm === undefined) throw new Error('no extension');
    // And the load drops as it breaks.
    const AFTER = 20;
    const longer = (column: Float64Array, value: (i: number) => number): Float64Array =>
      Float64Array.from({ length: column.length + AFTER }, (_, i) => column[i] ?? value(i));
    const cut: Curve = {
      length: exampleCurve.length + AFTER,
      timeS: longer(exampleCurve.timeS ?? new Float64Array(), (i) => i / 10),
      forceN: longer(exampleCurve.forceN ?? new Float64Array(), () => 0),
      extensionMm: longer(extensionMm, () => Number.NaN),
    };
    const shown = curveContent(cut, evaluate(cut, null));
    expect(shown?.marks.map((mark) => mark.words).join()).not.toContain('maximum');
    expect(shown?.note).toMatch(/see the force over time/);
    const overTime = shown?.overTime;
    expect(overTime).toMatchObject({ xLabel: 'time, s', yLabel: 'force, N' });
    expect(overTime?.marks.map((mark) => mark.words).join()).toMatch(/maximum 60 000 N.*fracture/);
    // The largest force of the example is at reading 500, ten readings a second.
    expect(overTime?.marks[0]?.x).toBe(50);
    expect(content?.overTime).toBeNull();
  });

  it('of a specimen in inches is in pounds and inches: 60 000 N is 13 489 lbf, 4 mm is 0.157 48 in', () => {
    const us = curveContent(exampleCurve, evaluate(exampleCurve, null), 'us');
    expect(us).toMatchObject({ xLabel: 'extension, in', yLabel: 'force, lbf' });
    expect(us?.x.at(-1)).toBeCloseTo(4 / 25.4, 9);
    expect(us?.marks.map((mark) => mark.words).join()).toContain('maximum 13 489 lbf');
  });

  it('is absent where there is nothing to draw against', () => {
    expect(curveContent({ length: 2, forceN: Float64Array.from([1, 2]) }, null)).toBeNull();
  });
});

it('tells the speed of testing in the units that the specimen was measured in', () => {
  const lines = (input: CertificateInput): string =>
    composeCertificate(input).specimens[0]?.speed.join(' ') ?? '';
  const input = exampleInput();
  expect(lines(input)).toMatch(/ MPa\/s/);
  const inches = readSpecimen({
    id: 'T-1',
    geometry: { kind: 'flat', width: '0.787 in', thickness: '0.197 in' },
    gaugeLength: '2 in',
  });
  if (!inches.ok) throw new Error('specimen');
  const specimens = input.specimens.map((one) => ({ ...one, specimen: inches.specimen }));
  expect(lines({ ...input, specimens })).toMatch(/ psi\/min/);
  expect(lines({ ...input, specimens })).not.toMatch(/MPa/);
});

it('the CSV, read by an independent reader, holds the same words with formulas made harmless', () => {
  const csv = certificateCsv(composeCertificate(exampleInput()));
  const rows = parse<Record<string, string>>(csv, { columns: true });
  expect(rows.find((row) => row.item === 'set')?.value).toBe("'=PQR 41 <b>");
  expect(rows.find((row) => row.item === 'sentence')?.value).toMatch(/Decided by Q\. Inspector/);
  expect(rows.at(-1)).toMatchObject({ section: 'end', value: 'End of certificate C-2031-007' });
});
