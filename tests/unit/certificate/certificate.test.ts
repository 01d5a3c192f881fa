import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import { decidedVerdict } from '../../../core/acceptance/override.ts';
import { certificateCsv } from '../../../core/certificate/certificate-csv.ts';
import type { CertificateInput } from '../../../core/certificate/certificate-input.ts';
import { composeCertificate } from '../../../core/certificate/compose-certificate.ts';
import { curveContent } from '../../../core/certificate/curve-content.ts';
import type { Curve } from '../../../core/curve/curve.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import { judgeMember } from '../../../core/sets/judge-member.ts';
import { readSet } from '../../../core/sets/set-faults.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';

/** 100 mm², 50 mm: straight to 400 MPa with 200 GPa, 600 MPa at 5 % strain, break at 8 %. */
const LENGTH = 801;
const strainAt = (i: number): number => i / 10_000;
const stressAt = (strain: number): number =>
  strain <= 0.002 ? 200_000 * strain : 400 + 200 * (1 - ((strain - 0.05) / 0.048) ** 2);
const curve: Curve = {
  length: LENGTH,
  timeS: Float64Array.from({ length: LENGTH }, (_, i) => i / 10),
  forceN: Float64Array.from({ length: LENGTH }, (_, i) => stressAt(strainAt(i)) * 100),
  extensionMm: Float64Array.from({ length: LENGTH }, (_, i) => strainAt(i) * 50),
};

function input(changes: Partial<CertificateInput> = {}): CertificateInput {
  const read = readSet(
    {
      name: '=PQR 41 <b>',
      purpose: 'procedure-qualification',
      rulePackId: 'iso-15614-1',
      baseMetals: [{ designation: 'S355' }],
      specimenType: 'transverse-flat',
      welder: '\u202eshop 3',
    },
    builtInPacks(),
  );
  const specimen = readSpecimen({
    id: 'T-1',
    geometry: { kind: 'flat', width: '20.00 mm', thickness: ['5.00 mm', '5.01 mm'] },
    gaugeLength: '50 mm',
  });
  if (!read.ok || !specimen.ok) throw new Error('the example is wrong');
  const evaluation = evaluate(curve, specimen.specimen);
  const outcome = judgeMember({
    set: read.set,
    facts: { fracture: { broke: 'weld-metal' }, doubts: [{ code: 'calibration-overdue' }] },
    evaluation,
    measuredIn: 'SI',
    packs: builtInPacks(),
  });
  if (!outcome.ok) throw new Error('refused');
  const verdict = decidedVerdict(outcome.verdict, [
    {
      to: 'accept',
      person: 'Q. Inspector',
      reason: 'verified the day after',
      at: '2031-04-02T09:00:00+02:00',
    },
  ]);
  return {
    kind: 'set',
    number: 'C-2031-007',
    laboratory: { name: 'Test house', lines: ['Harbour road 4'] },
    issued: '2031-04-02T10:00:00+02:00',
    programVersion: '0.1.0',
    set: read.set,
    setVerdict: null,
    specimens: [
      {
        member: { specimenId: 'T-1' },
        specimen: specimen.specimen,
        evaluation,
        fracture: { broke: 'weld-metal' },
        photos: [{ sha256: 'ab'.repeat(32), mediaType: 'image/jpeg', caption: 'both halves' }],
        curve: curveContent(curve, evaluation),
        equipment: { frame: 'frame 2', calibrationDue: '2031-03-01' },
        record: {
          pullId: 12,
          started: '2031-04-01T15:00:00+02:00',
          operator: 'operator 1',
          readingCount: LENGTH,
          gapWords: ['nothing received for 1.2 s'],
          rawSha256: 'cd'.repeat(32),
          recordedBy: '0.1.0',
          evaluatedBy: '0.1.0',
          typedIn: false,
        },
        verdict,
      },
    ],
    deviations: [],
    signatures: [{ printedName: 'Q. Inspector', at: '2031-04-02T10:00:00+02:00', meaning: 'approved by' }],
    ...changes,
  };
}

describe('what a certificate says', () => {
  const content = composeCertificate(input());
  const [specimen] = content.specimens;

  it('number, end mark, cautions and signatures with their meaning', () => {
    expect(content.number).toBe('C-2031-007');
    expect(content.endMark).toContain('C-2031-007');
    expect(content.cautions.join(' ')).toMatch(
      /relate only to the items tested.*code, the responsible engineer/,
    );
    expect(content.signatures).toMatchObject([{ printedName: 'Q. Inspector', meaning: 'approved by' }]);
  });

  it('strength in both unit systems, with the rounded value, its rule and the uncertainty', () => {
    const strength = specimen?.results.find((row) => row.symbol === 'Rm');
    expect(strength?.si).toMatch(/^\d{3}(\.\d+)? MPa$/);
    expect(strength?.us).toMatch(/psi$/);
    expect(strength?.reported?.rule).toContain('ISO 6892-1');
    expect(strength?.uncertainty).toMatch(/^± .* MPa \(k = /);
  });

  it('every measurement of a dimension as it was typed', () => {
    expect(specimen?.dimensions).toContainEqual({ label: 'thickness', value: '5.00 mm, 5.01 mm' });
  });

  it('the override beside the verdict of the rules, and among the deviations', () => {
    expect(specimen?.verdict).toMatchObject({ outcome: 'accept', outcomeOfRules: 'undecided' });
    expect(content.deviations.join('\n')).toMatch(/questionable: the calibration.*overdue/);
    expect(content.deviations.join('\n')).toMatch(
      /overridden to "accept" by Q\. Inspector on 2031-04-02.*verified the day after/,
    );
    expect(content.deviations.join('\n')).toContain('nothing received for 1.2 s');
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
    expect(composeCertificate(input())).toEqual(content);
  });

  it('made again years later says so, and changes nothing else', () => {
    const again = composeCertificate(
      input({ issued: '2040-01-05T08:00:00+01:00', firstIssued: '2031-04-02T10:00:00+02:00' }),
    );
    expect(again.issue).toContainEqual({ label: 'issued', value: '2031-04-02T10:00:00+02:00' });
    expect(again.issue).toContainEqual({
      label: 'made again from the archive',
      value: '2040-01-05T08:00:00+01:00',
    });
    expect({ ...again, issue: [] }).toEqual({ ...content, issue: [] });
  });

  it('a specimen certificate is about one specimen', () => {
    expect(() => composeCertificate(input({ kind: 'specimen', specimens: [] }))).toThrow(RangeError);
  });
});

describe('the curve of a certificate', () => {
  const content = curveContent(curve, evaluate(curve, null));

  it('ends where the record ends and holds its highest point', () => {
    expect(content?.x.at(-1)).toBe(curve.extensionMm?.at(-1));
    expect(content?.y.at(-1)).toBe(curve.forceN?.at(-1));
    expect(Math.max(...(content?.y ?? []))).toBe(Math.max(...(curve.forceN ?? [])));
  });

  it('marks maximum and offset line where the evaluation has them', () => {
    const marked = input().specimens[0]?.curve;
    expect(marked?.marks.map((mark) => mark.words).join(', ')).toMatch(/maximum 60000 N/);
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

  it('is absent where there is nothing to draw against', () => {
    expect(curveContent({ length: 2, forceN: Float64Array.from([1, 2]) }, null)).toBeNull();
  });
});

it('the CSV, read by an independent reader, holds the same words with formulas made harmless', () => {
  const csv = certificateCsv(composeCertificate(input()));
  const rows = parse<Record<string, string>>(csv, { columns: true });
  expect(rows.find((row) => row.item === 'set')?.value).toBe("'=PQR 41 <b>");
  expect(rows.find((row) => row.item === 'sentence')?.value).toMatch(/Decided by Q\. Inspector/);
  expect(rows.at(-1)).toMatchObject({ section: 'end', value: 'End of certificate C-2031-007' });
});
