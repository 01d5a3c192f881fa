/** The certificate of a verification on paper: everything that was read and found, as text, whatever was typed. */
import { describe, expect, it } from 'vitest';
import { NO_LABORATORY } from '../../../core/certificate/compose-certificate.ts';
import {
  type VerificationInput,
  verificationPaper,
} from '../../../core/certificate/paper/verification-page.ts';
import { SPANISH_PAPER } from '../../../core/words/es/spanish-paper.ts';
import { ENGLISH_PAPER, type PaperWords } from '../../../core/words/paper-words.ts';
import { calibrationForm } from '../../../core/instruments/calibration.ts';

const CALIBRATION = calibrationForm.parse({
  certificateNumber: 'V-<b>1</b>',
  calibratedOn: '2026-02-01',
  dueOn: '2027-02-01',
  by: 'A. Person',
  worksheet: {
    unit: 'kN',
    resolution: '0.01',
    reference: 'proving ring 100 kN, certificate 0815',
    zeros: ['0.00', '0.01', '0.00'],
    steps: ['20', '40', '60', '80', '100'].map((applied) => ({
      applied,
      indicated: [`${applied}.02`, `${applied}.05`, `${applied}.03`],
      descending: { indicated: `${applied}.08` },
    })),
  },
});
const EXTENSOMETER = calibrationForm.parse({
  certificateNumber: 'X-1',
  calibratedOn: '2026-02-01',
  dueOn: '2027-02-01',
  extensionSheet: {
    unit: 'mm',
    gaugeLength: '50',
    measuredGaugeLength: '50.1',
    resolution: '0.0005',
    reference: 'micrometer calibrator 12',
    zeros: ['0.0000', '0.0005'],
    steps: ['0.1', '0.2', '0.5', '1', '2'].map((applied) => ({
      applied,
      indicated: [`${applied}${applied.includes('.') ? '' : '.0'}02`, applied],
    })),
  },
});
const paper = (
  over: Partial<Pick<VerificationInput, 'calibration' | 'supersededBy' | 'laboratory'>> = {},
  words: PaperWords = ENGLISH_PAPER,
) =>
  verificationPaper(
    {
      laboratory: { name: 'Test house <script>', lines: ['Harbour road 4'] },
      instrument: { kind: 'force-channel', name: 'LC-20', serialNumber: '4711' },
      calibration: CALIBRATION,
      supersededBy: null,
      programVersion: '9.9.9',
      made: '2026-02-01T10:00:00.000+01:00',
      ...over,
    },
    { paper: 'A4', fonts: [], words },
  );

describe('the certificate of a verification', () => {
  it('says in its own language that no laboratory is named', () => {
    const unnamed = { laboratory: NO_LABORATORY };
    expect(paper(unnamed)?.html).toContain('No laboratory is named in this archive');
    expect(paper(unnamed, SPANISH_PAPER)?.html).toContain(
      'En este archivo no se ha nombrado ningún laboratorio',
    );
  });

  it('says instrument, reference, days, figures, class, range and working', () => {
    const text = (paper()?.html ?? '').replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');
    for (const expected of [
      'LC-20',
      '4711',
      'proving ring 100 kN, certificate 0815',
      '2026-02-01',
      '2027-02-01',
      'ISO 7500-1: class 0.5',
      'ASTM E4: within ±1 % from 20 to 100 kN',
      '20.02 20.05 20.03 20.08 0.167 0.150 0.250 0.050 0.5 0.250 0.150 within',
      'q = 100 × (20.0333333 − 20) / 20 = 0.167 %',
      'f0 = 100 × 0.01 / 100 = 0.010 %',
      'from memory',
      'printed 2026-02-01 10:00:00 (UTC+01:00)',
      'End of certificate',
    ])
      expect(text).toContain(expected);
  });

  it('says of an extensometer its classes, displacements, gauge length and working', () => {
    const text = (paper({ calibration: EXTENSOMETER })?.html ?? '')
      .replace(/<[^>]*>/g, ' ')
      .replace(/\s+/g, ' ');
    for (const expected of [
      'micrometer calibrator 12',
      'gauge length, measured 50.1 mm',
      // 2 µm of 100 µm within 3 µm of class 1; 4 in 10⁵ of strain within B-1; the gauge length is 0.2 % off.
      'ISO 9513: class 1',
      'ASTM E83: class B-1',
      '0.1 0.102 0.1 – 2.000 2.00 0.000040 0.500 1 B-1',
      'a = 100 × 0.0005 / 0.1 = 0.500 %; 0.50 µm',
      'qLe = 100 × (50 − 50.1) / 50.1 = -0.200 %',
      'Without displacement: 0.0000, 0.0005 mm.',
      'ISO 9513 and ASTM E83 are from memory',
    ])
      expect(text).toContain(expected);
    expect(text.match(/are from memory/g)).toHaveLength(1);
    // q and a rest on the run that is furthest off, which the note beneath the table has to say.
    expect(text).toMatch(
      /lt displacement applied, shown as mean of the runs; q .* share of the lt of that run/,
    );
    expect(text).not.toContain('ISO 7500-1');
  });

  it('shows what was typed as text, and its number on every page', () => {
    const page = paper();
    expect(page?.html).not.toContain('<script>');
    expect(page?.html).not.toContain('<b>1</b>');
    expect(page?.foot).toContain('V-&lt;b&gt;1&lt;/b&gt;');
  });

  it('says that it counts no more where another stands in its place, and is not made without a worksheet', () => {
    expect(paper({ supersededBy: 7 })?.html).toContain('Superseded by calibration 7');
    const { worksheet, ...without } = CALIBRATION;
    expect(worksheet).toBeDefined();
    expect(paper({ calibration: without })).toBeNull();
  });
});

/** Words that stand in most English sentences and in no Spanish one. */
const ENGLISH =
  /(?<![\p{L}\d])(the|of|is|are|and|with|from|not|for|by|at|to|than|was|were|run|runs|none|within|down|force|forces|strain|class|furthest|made|measured|page|Lowest|The|Every|Without)(?![\p{L}\d])/u;

it.each([
  ['of the force', CALIBRATION],
  ['of an extensometer', EXTENSOMETER],
  [
    'of few forces without zeros, far off',
    calibrationForm.parse({
      certificateNumber: 'V-2',
      calibratedOn: '2026-02-01',
      dueOn: '2027-02-01',
      worksheet: {
        unit: 'kN',
        resolution: '0.01',
        steps: ['1', '5', '10'].map((applied) => ({ applied, indicated: [`${applied}.4`] })),
      },
    }),
  ],
])('is written in Spanish %s, but for what was typed', (_what, calibration) => {
  const printed = paper({ calibration, supersededBy: 4 }, SPANISH_PAPER);
  expect(printed?.html).toContain('<html lang="es">');
  const lines = [printed?.html ?? '', printed?.head ?? '', printed?.foot ?? ''].flatMap((html) =>
    html
      .replace(/<style>[\s\S]*?<\/style>/g, '')
      .replace(/<[^>]*>/g, '\n')
      .split('\n')
      .map((line) => line.trim()),
  );
  const typed = [
    'proving ring 100 kN, certificate 0815',
    'micrometer calibrator 12',
    'Test house &lt;script&gt;',
  ];
  expect(lines.filter((line) => ENGLISH.test(line) && !typed.includes(line))).toEqual([]);
  expect(lines).toContain('Certificado de verificación');
  expect(lines).toContain('Reemplazada por la calibración 4 del mismo instrumento; esta ya no cuenta.');
  // Figures are the same, points and all.
  const figures = (html: string | undefined): string[] => (html ?? '').match(/(?<=<td>)[\d.]+(?=<)/g) ?? [];
  expect(figures(printed?.html)).toEqual(figures(paper({ calibration, supersededBy: 4 })?.html));
});
