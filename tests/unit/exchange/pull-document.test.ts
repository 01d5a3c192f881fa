/** The JSON document of a pull, checked by a schema library against the schema that is published with the program. */
import { Ajv2020 } from 'ajv/dist/2020.js';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { curveOfReadings } from './curve-of-readings.ts';
import { base64Text } from '../../../core/exchange/export/base64.ts';
import type { KeptPhoto } from '../../../core/contract/photo-requests.ts';
import { PHOTO_BYTES_MAX } from '../../../core/limits.ts';
import { pullDocument, pullDocumentSchema } from '../../../core/exchange/export/pull-document.ts';
import type { SaidOfPull } from '../../../core/exchange/export/document-statements.ts';
import { pullDocumentPieces } from '../../../core/exchange/export/write-pull-document.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';
import { blocksOf, pull, readings } from './sample-pull.ts';

const schemaFile = new URL('../../../fixtures/schemas/pull-4.schema.json', import.meta.url);

const chunks = readings.map(({ elapsedUs }, i) => ({
  opening: i < 3 ? 0 : 1,
  elapsedUs,
  bytes: new TextEncoder().encode(`line ${String(i)}\r\n`),
}));
const rawSha256 = createHash('sha256')
  .update(Buffer.concat(chunks.map((c) => c.bytes)))
  .digest('hex');

/** Five of the largest fill a document; the sixth is named by its hash only. */
const photos = [1, 2, 3, 4, 5, 6].map((photoId): KeptPhoto => ({
  photoId,
  pullId: 7,
  mediaType: 'image/png',
  widthPx: 4,
  heightPx: 3,
  byteCount: PHOTO_BYTES_MAX,
  sha256: createHash('sha256').update(photoBytes(photoId)).digest('hex'),
  fileName: 'broken.png',
  caption: null,
  by: null,
  wallMs: 1,
  supersedes: null,
  withdrawn: null,
}));
// Short ones in their place: what is counted is what the archive says of them.
function photoBytes(photoId: number): Uint8Array {
  return new TextEncoder().encode(`photo ${String(photoId)}`);
}

const by = { wallMs: 1, by: 'B', supersedes: null, reason: null };
const set = (setId: number, setMemberId: number, name: string): SaidOfPull['sets'][number] => ({
  setId,
  begunWallMs: 1,
  name,
  statements: [],
  setMemberId,
  member: {
    specimenId: 3,
    joinedWallMs: 1,
    joinedBy: null,
    retestOf: null,
    voided: null,
    overrides: [{ overrideId: 1, to: 'reject', person: 'B', reason: 'no', wallMs: 1, utcOffsetMinutes: 120 }],
  },
});
/** What the archive itself says is looked at in document-of-everything.test.ts. */
const said: SaidOfPull = {
  archive: { facts: { 'archive-identity': 'a' }, laboratory: null },
  record: {
    ...{ sourceWords: '/dev/ttyUSB0', boot: 'b', plannedForceN: null, plannedExtensionMm: null },
    profile: { sha256: rawSha256, savedWallMs: 1 },
    ...{ secondProfile: null, zeros: [], ended: null, origin: null },
  },
  specimens: [],
  instruments: [
    {
      ...{ instrumentId: 1, begunWallMs: 1, stateAtStart: 'none', calibrationAtStart: null },
      statements: [{ ...by, statementId: 1, form: { kind: 'calliper', name: 'C-1' }, retired: false }],
      calibrations: [],
    },
  ],
  sets: [set(3, 5, 'Bridge post 12'), set(2, 1, 'Earlier')],
  certificates: [
    {
      ...{ number: '2024-0007', issued: '2024-05-17T12:00:00.000+02:00', result: null, signatures: [] },
      about: { setId: 3, setMemberId: null, pullId: null },
      contentSha256: rawSha256,
      programVersion: '0.1.0',
    },
  ],
  audit: [],
};

function written(): string {
  const specimen = readSpecimen(pull.specimen.specimen);
  if (!specimen.ok) throw new Error('the specimen is sound');
  const evaluation = evaluate(curveOfReadings(), specimen.specimen, {});
  return [
    ...pullDocumentPieces({
      pull,
      evaluations: [{ kept: null, options: {}, evaluation: JSON.parse(JSON.stringify(evaluation)) as never }],
      blocks: blocksOf(),
      chunks,
      said,
      verdicts: new Map([
        [
          5,
          {
            outcome: 'reject',
            outcomeOfRules: 'accept',
            questionable: false,
            sentence: 'B said no.',
          },
        ],
      ]),
      photos,
      photoBytes: (photoId) => photoBytes(photoId),
      rawSha256,
      programVersion: '0.1.0',
      exportedWallMs: Date.UTC(2024, 4, 18),
      utcOffsetMinutes: 120,
    }),
  ].join('');
}

describe('the published schema of a pull', () => {
  it('is the one that the program writes by (after a wanted change: vitest -u, and a line in the change list)', async () => {
    await expect(`${JSON.stringify(pullDocumentSchema(), null, 1)}\n`).toMatchFileSnapshot(
      schemaFile.pathname,
    );
  });
});

describe('the JSON document of a pull', () => {
  let validate: ReturnType<Ajv2020['compile']>;
  beforeAll(() => {
    // Formats stand beside patterns in the schema; the patterns are checked.
    validate = new Ajv2020({ strict: false, validateFormats: false, allErrors: true }).compile(
      JSON.parse(readFileSync(schemaFile, 'utf8')) as object,
    );
    // A library takes seconds for a schema of this size on a busy machine.
  }, 90_000);

  it('fits the published schema', () => {
    const valid = validate(JSON.parse(written()));
    expect(validate.errors ?? []).toEqual([]);
    expect(valid).toBe(true);
  });

  it('keeps the digits, the conversions, the gap and the raw bytes', () => {
    const document = pullDocument.parse(JSON.parse(written()));
    expect(document.readings.map((block) => block.count)).toEqual([4, 2]);
    expect(document.readings[0]?.channels[0]?.shown.text).toEqual(['0.12', '1.50', '12.50', null]);
    expect(document.readings[0]?.channels[0]?.value).toEqual([0, 1380, 12_380, null]);
    expect(document.channelStatuses[document.readings[0]?.channels[0]?.status[3] ?? 0]).toBe('overload');
    expect(document.pull.gaps).toEqual(pull.gaps);
    expect(document.started).toBe('2024-05-17T09:12:30.250+02:00');
    const raw = Buffer.concat(document.raw.chunks.map((c) => Buffer.from(c.base64, 'base64')));
    expect(createHash('sha256').update(raw).digest('hex')).toBe(document.raw.sha256);
  });

  it('says through which opening each chunk came, in which sets it is and how it was judged, and its certificates', () => {
    const document = pullDocument.parse(JSON.parse(written()));
    expect(document.raw.chunks.map(({ opening }) => opening)).toEqual(chunks.map(({ opening }) => opening));
    expect(
      document.sets.map(({ name, verdict }) => [name, verdict?.outcome, verdict?.outcomeOfRules]),
    ).toEqual([
      ['Bridge post 12', 'reject', 'accept'],
      ['Earlier', undefined, undefined],
    ]);
    expect(document.certificates).toEqual(said.certificates);
  });

  it('carries the bytes of photos that agree with their hashes, up to a bound, and the hashes of all', () => {
    const document = pullDocument.parse(JSON.parse(written()));
    const hashes = document.photos.map(({ base64 }) =>
      base64 === null ? null : createHash('sha256').update(Buffer.from(base64, 'base64')).digest('hex'),
    );
    expect(hashes).toEqual([...photos.slice(0, 5).map(({ sha256 }) => sha256), null]);
    expect(document.photos[5]?.sha256).toBe(photos[5]?.sha256);
  });

  it('carries every result with its working and everything that was withheld', () => {
    const [kept] = pullDocument.parse(JSON.parse(written())).evaluations;
    expect(kept?.evaluation?.results.find((r) => r.symbol === 'Fm')?.value).toBe(12_380);
    expect(kept?.evaluation?.withheld.every((w) => w.reason.length > 10)).toBe(true);
  });

  it.each([
    ['another schema', (d: Record<string, unknown>) => (d['schema'] = 'gaugemark.pull/2')],
    ['a start without an offset', (d: Record<string, unknown>) => (d['started'] = '2024-05-17T09:12:30')],
    ['something that no version knows', (d: Record<string, unknown>) => (d['colour'] = 'blue')],
    ['no readings', (d: Record<string, unknown>) => delete d['readings']],
  ])('with %s does not fit', (_, change) => {
    const document = JSON.parse(written()) as Record<string, unknown>;
    change(document);
    expect(validate(document)).toBe(false);
  });
});

describe('bytes as text', () => {
  it('are what every decoder takes back', () => {
    for (const length of [0, 1, 2, 3, 8_189, 8_190, 8_191, 20_000]) {
      const bytes = Uint8Array.from({ length }, (_, i) => (i * 131) % 256);
      expect(new Uint8Array(Buffer.from(base64Text(bytes), 'base64'))).toEqual(bytes);
    }
  });
});
