/** A certificate in Spanish: nothing of the program's English is left on it, and nothing that a person wrote is changed. */
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import {
  DISCONTINUITY_KINDS,
  FRACTURE_MARK_WORDS,
  FRACTURE_MARKS,
} from '../../../core/acceptance/fracture-details.ts';
import { APPEARANCES, FRACTURE_LOCATIONS } from '../../../core/acceptance/fracture.ts';
import { decidedVerdict } from '../../../core/acceptance/override.ts';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import { certificateCsv } from '../../../core/certificate/certificate-csv.ts';
import type { CertificateContent } from '../../../core/certificate/certificate-content.ts';
import type { CertificateInput, CertifiedSpecimen } from '../../../core/certificate/certificate-input.ts';
import { NO_LABORATORY, composeCertificate } from '../../../core/certificate/compose-certificate.ts';
import { curveContent } from '../../../core/certificate/curve-content.ts';
import { certificatePage } from '../../../core/certificate/paper/certificate-page.ts';
import { headAndFoot } from '../../../core/certificate/paper/head-and-foot.ts';
import { judgeSet } from '../../../core/acceptance/judge-set.ts';
import { SIGNATURE_MEANINGS } from '../../../core/contract/signature-requests.ts';
import type { Curve } from '../../../core/curve/curve.ts';
import { INSTRUMENT_KINDS } from '../../../core/instruments/instrument.ts';
import { typedProfile } from '../../../core/pull/typed-pull.ts';
import { voidSentence } from '../../../core/pull/void-sentence.ts';
import { READINGS_ORIGINS } from '../../../core/pull/readings-origin.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import { DOCUMENT_KINDS, SET_PURPOSES, SPECIMEN_TYPES } from '../../../core/sets/set-form.ts';
import { readSet } from '../../../core/sets/set-faults.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';
import { SPANISH_PAPER } from '../../../core/words/es/spanish-paper.ts';
import { ES_PAPER } from '../../../core/words/es/paper.ts';
import { ENGLISH_PAPER } from '../../../core/words/paper-words.ts';
import { judged } from '../acceptance/judging.ts';
import { rambergOsgood, record, voce, yieldPointLaw } from '../results/synthetic-curve.ts';
import { exampleCurve, exampleInput } from './example-input.ts';

/** Words that stand in most English sentences and in no Spanish one; `no`, `me`, `has` and `son` are of both, `At` is a symbol. */
const ENGLISH =
  /(?<![\p{L}\d-])(the|of|is|are|and|with|from|not|for|by|at|it|to|than|was|were|as|out|made|pull|set|readings?|measured|specimens?|strength|yield|frame|force|width|section|heat|lot|due|break|broke|limit|verdict|accept|reject|undecided|gauge|class|rules?|notes?|signed|inches|up|down|within|outside|page)(?![\p{L}\d])/u;
const ENGLISH_CAPITAL =
  /(?<!\p{L})(The|Of|Is|It|By|To|Not|No (?:readings?|calibration)|Within|Outside|Judged|Every|Results?)(?!\p{L})/u;

/** Names of standards with their clauses, and where clauses were seen, stay as they are printed. */
const NAMES = /\b(ASME|AWS|ISO|ASTM|API|IMO|ILAC|JCGM|TWI)\b[^;:]*|\b[\w.-]+\.(?:com|html)\b\S*/g;

/** What data says to machines, in both languages alike. */
const FOR_MACHINES = new Set([
  'schema',
  'kind',
  'language',
  'outcome',
  'outcomeOfRules',
  'sign',
  'unit',
  'sha256',
  'mediaType',
  'meaning',
]);

function* textsOf(part: unknown, name = ''): Generator<string> {
  if (typeof part === 'string') {
    if (!FOR_MACHINES.has(name)) yield part;
  } else if (Array.isArray(part)) for (const one of part) yield* textsOf(one, name);
  else if (typeof part === 'object' && part !== null)
    for (const [key, one] of Object.entries(part)) yield* textsOf(one, key);
}

/** Of the content and of its page. What is quoted of a laboratory's own rules is taken out before one looks. */
function leftEnglish(content: CertificateContent, quoted: readonly string[]): string[] {
  const page = certificatePage(content, { paper: 'A4', fonts: [], words: SPANISH_PAPER });
  const { head, foot } = headAndFoot(content, SPANISH_PAPER);
  const written = [page.replace(/<style>[\s\S]*?<\/style>/g, ''), head, foot].flatMap((html) =>
    html
      .replace(/<[^>]*>/g, '\n')
      .replaceAll('&#39;', "'")
      .split('\n'),
  );
  const unquoted = (text: string): string =>
    quoted.reduce((rest, one) => rest.replaceAll(one, ''), text).replace(NAMES, '');
  return [...new Set([...textsOf(content), ...written].map((one) => one.trim()))].filter(
    (one) => ENGLISH.test(unquoted(one)) || ENGLISH_CAPITAL.test(unquoted(one)),
  );
}

const quotedOf = ({ set }: CertificateInput): string[] =>
  set?.origin === undefined
    ? []
    : [
        ...set.pack.clauses.flatMap(({ id, says }) => [says, id]),
        set.pack.name,
        set.pack.edition,
        set.pack.shortName ?? set.pack.name,
      ].sort((a, b) => b.length - a.length);

function readSpecimenOf(file: object) {
  const read = readSpecimen({ id: 'P-1', gaugeLength: '50 mm', parallelLength: '60 mm', ...file });
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.specimen;
}
const FLAT = readSpecimenOf({
  geometry: { kind: 'flat', width: ['12.46 mm', '12.48 mm'], thickness: '6.11 mm' },
  extensometerGaugeLength: '50 mm',
  finalGaugeLength: '61 mm',
  finalWidth: '8.10 mm',
  finalThickness: '4.2 mm',
  distanceToNearestMark: '24 mm',
});
const ROUND = readSpecimenOf({ geometry: { kind: 'round', diameter: '0.500 in' }, finalDiameter: '0.31 in' });
const OTHERS = [
  { kind: 'tube', outerDiameter: '48.3 mm', wall: '3.6 mm' },
  { kind: 'pipe-strip', width: '19 mm', wall: '6 mm', outerDiameter: '168 mm' },
  { kind: 'weighed', mass: '120 g', length: '200 mm', density: '7.85 g/cm³' },
  { kind: 'unmeasured' },
].map((geometry) => readSpecimenOf({ geometry }));

function withForce({ stressMpa, strainRatio, ...curve }: Curve): Curve {
  return {
    ...curve,
    forceN: (stressMpa ?? new Float64Array()).map((s) => s * 76),
    extensionMm: (strainRatio ?? new Float64Array()).map((e) => e * 50),
  };
}
const travelled = ({ extensionMm, ...curve }: Curve): Curve =>
  extensionMm === undefined ? curve : { ...curve, travelMm: extensionMm };

/** Typed in no language. */
const TYPED = 'Xq-7 ÿ';

const example = exampleInput().specimens[0];
if (example === undefined) throw new Error('the example has no specimen');

if (example.record === null) throw new Error('the example has no record');
const UNBROKEN = { ...example.record, gapWords: [] };

const pulled = (curve: Curve, specimen = FLAT): Partial<CertifiedSpecimen> => {
  const evaluation = evaluate(curve, specimen);
  return { specimen, evaluation, curve: curveContent(curve, evaluation, 'si', SPANISH_PAPER), verdict: null };
};

function composed(
  specimens: readonly Partial<CertifiedSpecimen>[],
  changes: Partial<CertificateInput> = {},
): string[] {
  const input = exampleInput({
    specimens: specimens.map((one) => ({
      ...example,
      ...pulled(exampleCurve),
      equipment: null,
      record: UNBROKEN,
      ...one,
    })),
    ...changes,
  } as Partial<CertificateInput>);
  return leftEnglish(composeCertificate(input, SPANISH_PAPER), quotedOf(input));
}

describe('no English of the program is left on a Spanish certificate', () => {
  it('whatever the curve and the form of the specimen', () => {
    const curves = [
      record(yieldPointLaw()),
      record(voce(), { stressNoiseMpa: 1, strainNoise: 5e-6 }),
      record(rambergOsgood(), { readings: 400 }),
      record(voce({ end: 0.02 }), { breaks: false }),
    ].map(withForce);
    const some = curves.flatMap((curve) => [pulled(curve), pulled(curve, ROUND), pulled(travelled(curve))]);
    expect(composed([...some, ...OTHERS.map((specimen) => ({ specimen }))])).toEqual([]);
  });

  it('whatever is told of set and laboratory, also without rules', () => {
    const left = SPECIMEN_TYPES.flatMap((specimenType, at) => {
      const purpose = SET_PURPOSES[at % SET_PURPOSES.length];
      const packId = specimenType === 'all-weld-metal-round' ? 'aws-a5.1' : 'aws-d1.1';
      const read = readSet(
        {
          name: TYPED,
          purpose,
          rulePackId: packId,
          customer: TYPED,
          baseMetals: [
            { designation: TYPED, minimum: '58 ksi', heat: TYPED, lot: TYPED },
            { designation: 'A36' },
          ],
          filler: { classification: 'E7018', lot: TYPED, heat: TYPED },
          specimenType,
          process: TYPED,
          joint: TYPED,
          position: TYPED,
          thickness: '10 mm',
          outsideDiameter: '100 mm',
          wall: '10 mm',
          welder: TYPED,
          documents: DOCUMENT_KINDS.map((kind) => ({ kind, number: TYPED })),
          requiredCount: 1,
          fewerReason: TYPED,
          notes: TYPED,
        },
        builtInPacks(),
      );
      if (!read.ok) throw new Error(JSON.stringify(read.faults));
      const pack = builtInPacks().find(({ file }) => file.id === packId);
      if (pack === undefined) throw new Error('no pack');
      return (['accept', 'reject', 'undecided'] as const).flatMap((outcome) =>
        composed([{}], {
          set: read.set,
          setVerdict: judgeSet({
            pack,
            members: [{ specimenId: 'P-1', outcome }],
            requiredCount: 1,
            fewerReason: TYPED,
          }),
          laboratory: NO_LABORATORY,
          signatures: SIGNATURE_MEANINGS.map((meaning, i) => ({
            meaning,
            printedName: TYPED,
            at: '2031-04-02T10:00:00+02:00',
            byPin: i === 0,
            contentSha256: 'ab'.repeat(32),
          })),
        }),
      );
    });
    expect(left).toEqual([]);
    expect(composed([{}], { kind: 'specimen', set: null, signatures: [] })).toEqual([]);
  });

  it('wherever it broke and whatever was seen there', () => {
    expect(
      composed(
        [undefined, ...FRACTURE_LOCATIONS].map((broke, at) => ({
          fracture: {
            ...(broke === undefined ? {} : { broke }),
            soundness: at % 2 === 0 ? ('sound' as const) : ('unsound' as const),
            appearance: APPEARANCES[at % APPEARANCES.length] ?? 'shear',
          },
          fractureDetails: {
            mark: FRACTURE_MARK_WORDS[FRACTURE_MARKS[at % FRACTURE_MARKS.length] ?? 'gauge-mark'],
            discontinuities: DISCONTINUITY_KINDS.map((kind) => ({ kind, size: '2 mm' })),
            baseMetal: TYPED,
          },
          fractureRemarks: TYPED,
          fractureNotedBy: TYPED,
        })),
      ),
    ).toEqual([]);
  });

  it('whatever made the readings, void, retested, typed in, interrupted or evaluated otherwise', () => {
    const kept = UNBROKEN;
    const specimens: Partial<CertifiedSpecimen>[] = [
      ...READINGS_ORIGINS.map((origin) => ({
        record: {
          ...kept,
          origin,
          originName: TYPED,
          operator: TYPED,
          pulledOn: '2019-05-14 (stated at import)',
          gapWords: [
            'no reading for 12 s',
            'no reading of the second instrument for 3 s',
            'the recorder ended unexpectedly and was started again',
            'the archive could not be written to and memory was full',
            'the computer slept for 7.0 s; nothing could be received',
          ],
        },
      })),
      {
        record: { ...kept, pulledOn: `2019-05-14 (stated later by ${TYPED})`, typedIn: true, gapWords: [] },
        typed: { strength: '62 ksi', yield: '50 ksi', elongation: '20 %' },
        equipment: { forceSystem: typedProfile().name, instruments: null },
      },
      {
        member: {
          specimenId: TYPED,
          retest: { of: TYPED, reason: TYPED },
          voided: { by: TYPED, reason: TYPED },
        },
        record: { ...kept, gapWords: [] },
        evaluated: {
          evaluationId: 3,
          options: {
            offsetsPercent: [0.1],
            corrections: { toe: false, forceZeroN: 12 },
            rounding: 'e8-1',
          },
          sources: [
            { what: 'calibration table of the force', name: TYPED, sha256: 'ab'.repeat(32) },
            { what: 'blank run', name: TYPED, sha256: 'ab'.repeat(32) },
          ],
          kept: '2031-04-02T09:00:00.000Z',
          by: null,
          reason: TYPED,
        },
      },
      ...(['set', 'default', 'simulated'] as const).map((factors, at) => ({
        record: { ...kept, gapWords: [] },
        equipment: {
          forceSystem: TYPED,
          instruments: {
            used: INSTRUMENT_KINDS.map((kind, place) => ({
              kind,
              instrumentId: place + 1,
              name: TYPED,
              serialNumber: at === 0 ? null : TYPED,
              class: TYPED,
              calibrationId: 7,
              certificateNumber: TYPED,
              calibratedOn: '2030-03-01',
              dueOn: '2031-03-01',
              verifiedRange: null,
              state: (['valid', 'overdue', 'none'] as const)[at % 3] ?? 'valid',
            })),
            factors,
            concerns: [
              ...INSTRUMENT_KINDS.flatMap((_kind, place) => [
                { code: 'calibration-overdue' as const, instrumentId: place + 1 },
                { code: 'no-calibration' as const, instrumentId: place + 1 },
              ]),
              { code: 'force-instrument-not-named' as const, instrumentId: null },
              { code: 'default-factors' as const, instrumentId: null },
            ],
            confirmed: at === 0 ? ('person' as const) : ('not-asked' as const),
          },
        },
      })),
    ];
    expect(composed(specimens)).toEqual([]);
    expect(
      composed([{}], {
        deviations: [
          `P-1: ${voidSentence(4, {
            by: null,
            reason: TYPED,
            wallMs: 0,
            utcOffsetMinutes: 60,
          })}`,
        ],
      }),
    ).toEqual([]);
  });

  it('of the verdict of every pack, wherever the specimen broke, overridden too', () => {
    const left = builtInPacks().flatMap((pack) => {
      const minima = pack.file.unitSystem === 'SI' ? ['420 MPa', '430 MPa'] : ['60 ksi', '61 ksi'];
      const [filler] = pack.fillers;
      // One stated minimum, two base metals with theirs, and what the tables of the pack say.
      const asked = [
        { minima: minima.slice(0, 1) },
        ...(pack.file.test === 'transverse' ? [{ baseMetals: ['P-8', 'P-9'], minima }] : []),
        ...(filler === undefined ? [] : [{ filler: filler.id }]),
      ];
      const verdicts = [undefined, ...FRACTURE_LOCATIONS].flatMap((broke) =>
        ['300 MPa', '410 MPa', '700 MPa', undefined].flatMap((strength) =>
          asked.map((its) =>
            judged(pack, {
              ...its,
              ...(broke === undefined ? {} : { broke }),
              ...(strength === undefined ? {} : { strength }),
            }),
          ),
        ),
      );
      const specimens = verdicts.map((verdict, at) => ({
        ...example,
        evaluation: null,
        curve: null,
        equipment: null,
        record: null,
        verdict: decidedVerdict(
          verdict,
          at % 5 === 0
            ? [{ to: 'reject', person: TYPED, reason: TYPED, at: '2031-04-02T09:00:00+02:00' }]
            : [],
        ),
      }));
      const { set } = exampleInput();
      const ofPack = set === null ? null : { ...set, pack: pack.file };
      return leftEnglish(composeCertificate(exampleInput({ set: ofPack, specimens }), SPANISH_PAPER), []);
    });
    expect([...new Set(left)]).toEqual([]);
  });
});

it('leaves what people wrote as they wrote it, also where it reads like words of the program', () => {
  const [reason, person] = ['from memory; where it broke is not noted', 'nobody named'];
  const input = exampleInput({
    written: [reason, person],
    deviations: [
      `P-1: pull 4 is void (${person}, 2031-04-01T10:00:00.000+02:00): ${reason}; it does not count`,
    ],
    specimens: [
      {
        ...example,
        member: {
          specimenId: 'in the weld metal',
          retest: { of: 'shop practice', reason },
          voided: { by: person, reason },
        },
        fractureRemarks: reason,
        verdict:
          example.verdict === null
            ? null
            : decidedVerdict(example.verdict.verdict, [{ to: 'accept', person, reason }]),
      },
    ],
  });
  const { specimens, deviations } = composeCertificate(input, SPANISH_PAPER);
  const [specimen] = specimens;
  expect(specimen?.name).toBe('in the weld metal');
  expect(specimen?.retestOf).toBe(`shop practice (${reason})`);
  expect(specimen?.voided).toBe(`anulada por ${person}: ${reason}`);
  expect(specimen?.fracture).toContainEqual({ label: 'observaciones', value: reason });
  expect(specimen?.verdict?.sentence).toMatch(
    `Decidido por ${person} como «aceptada»: ${reason}. Las reglas decían: Sin decidir`,
  );
  for (const sentence of [
    `P-1: el ensayo 4 está anulado (${person}, 2031-04-01T10:00:00.000+02:00): ${reason}; no cuenta`,
    `in the weld metal está anulada (${person}): ${reason}`,
    `in the weld metal es una repetición de shop practice: ${reason}`,
  ])
    expect(deviations).toContain(sentence);
});

it('leaves where a clause of the laboratory’s own rules was seen as the laboratory wrote it', () => {
  const { set } = exampleInput();
  const verdict = example.verdict?.verdict;
  if (set === null || verdict === undefined) throw new Error('the example has no rules');
  const source = 'see the table';
  const clauses = set.pack.clauses.map((clause) => ({ ...clause, source }));
  const seenAs = (origin?: { file: string; sha256: string }) => {
    const own = origin === undefined ? {} : { origin };
    const specimens = [
      {
        ...example,
        verdict: decidedVerdict({ ...verdict, clauseStatus: 'memory', clauseSource: source }, []),
      },
    ];
    const content = composeCertificate(
      exampleInput({ set: { ...set, pack: { ...set.pack, clauses }, ...own }, specimens }),
      SPANISH_PAPER,
    );
    return content.specimens[0]?.verdict?.clauseOrigin;
  };
  expect(seenAs()).toMatch(/: véase la tabla$/);
  expect(seenAs({ file: 'own.json', sha256: 'ab'.repeat(32) })).toMatch(/: see the table$/);
});

it('a verdict is said in the words of the page, of whatever it is the verdict', () => {
  if (example.verdict === null) throw new Error('the example has no verdict');
  const [reason, person] = [TYPED, TYPED];
  const rejected = { ...example.verdict.verdict, outcome: 'reject' as const };
  const content = composeCertificate(
    exampleInput({
      specimens: [{ ...example, verdict: decidedVerdict(rejected, [{ to: 'accept', person, reason }]) }],
    }),
    SPANISH_PAPER,
  );
  const page = certificatePage(content, { paper: 'A4', fonts: [], words: SPANISH_PAPER });
  expect(page).toContain('Las reglas por sí solas dan: rechazada.');
  expect(page).toMatch(/>\s*ACEPTADA\s*</);
});

it('English content is what it was before there was a choice, and another one than the Spanish', () => {
  const hash = (content: CertificateContent): string =>
    createHash('sha256').update(JSON.stringify(content)).digest('hex');
  // Noted on the tree before the choice was made, and since the decision rule has words in place of its code.
  expect(hash(composeCertificate(exampleInput()))).toBe(
    'f139a0d20d56aa00e2f7e90fe31dd7ff74c02f73320a12d40d83bde1992c9b8a',
  );
  const spanish = composeCertificate(exampleInput(), SPANISH_PAPER);
  expect(spanish.language).toBe('es');
  expect(hash(spanish)).not.toBe(hash(composeCertificate(exampleInput())));
});

it('figures, units, days and hashes are the same in both languages, and so are the keys of the table', () => {
  const [english, spanish] = [
    composeCertificate(exampleInput()),
    composeCertificate(exampleInput(), SPANISH_PAPER),
  ];
  const figures = ({ specimens }: CertificateContent) =>
    specimens.flatMap(({ results, record: facts }) => [
      ...results.map(({ symbol, si, us, reported, value }) => [symbol, si, us, reported?.text, value]),
      ...facts.slice(0, 5).map(({ value }) => value),
    ]);
  expect(figures(spanish)).toEqual(figures(english));
  const rows = certificateCsv(spanish).split('\r\n');
  expect(rows[0]).toBe(certificateCsv(english).split('\r\n')[0]);
  expect(rows).toContain('results,T-1,Rm (SI),599.4 MPa');
  expect(rows).toContain('dimensions,T-1,longitud entre marcas,50 mm');
});

it('a page says its language, and takes no words of another', () => {
  const content = composeCertificate(exampleInput(), SPANISH_PAPER);
  const options = { paper: 'A4', fonts: [] } as const;
  expect(certificatePage(content, { ...options, words: SPANISH_PAPER })).toContain('<html lang="es">');
  expect(certificatePage(composeCertificate(exampleInput()), options)).toContain('<html lang="en">');
  expect(() => certificatePage(content, { ...options, words: ENGLISH_PAPER })).toThrow(RangeError);
});

it('what is put into a form is put into the Spanish one too, all of it', () => {
  const places = (form: string): string[] => [...form.matchAll(/\{\d\}/g)].map(([place]) => place).sort();
  for (const [english, spanish] of Object.entries(ES_PAPER))
    expect(places(spanish), english).toEqual(places(english));
});
