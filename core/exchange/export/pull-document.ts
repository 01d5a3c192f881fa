/**
 * Everything of one pull as one JSON document: the record with its profile, marks, gaps and acts, the raw bytes, the
 * readings as shown and as converted, the evaluations, its photos, and all that was said of it (document-statements.ts).
 * Which table of the archive stands where is held by tests/unit/exchange/document-of-everything.test.ts. Its JSON Schema
 * is made from this file and published as fixtures/schemas/pull-4.schema.json.
 */
import { z } from 'zod';
import { keptPhoto } from '../../contract/photo-requests.ts';
import { keptPull } from '../../contract/pull-requests.ts';
import { CHANNEL_QUANTITIES, CHANNELS_MAX } from '../../contract/readout-profile.ts';
import { CHANNEL_STATUSES, READING_STATUSES } from '../../contract/reading.ts';
import { PHOTOS_PER_PULL_MAX, READINGS_PER_REPLY_MAX } from '../../limits.ts';
import { importRecord } from '../import/import-report.ts';
import { documentSet, saidOfPull } from './document-statements.ts';
import { keptEvaluationDocument } from './evaluation-document.ts';

export const PULL_DOCUMENT_SCHEMA = 'gaugemark.pull/4';

const count = z.int().min(0);
/** Index into a list of the document's legend. */
const code = z.int().min(0).max(255);

const channelBlock = z.strictObject({
  key: z.string(),
  quantity: z.enum(CHANNEL_QUANTITIES),
  coreUnit: z.string().describe('unit of `value`: N, mm, MPa, s or 1; for `other` the unit expected'),
  value: z.array(z.number().nullable()).describe('converted; null where there was no value'),
  status: z.array(code).describe('index into `channelStatuses`'),
  shown: z.strictObject({
    text: z
      .array(
        z
          .string()
          .regex(/^-?\d+(?:\.\d+)?$/)
          .nullable(),
      )
      .describe('the digits that the readout showed; null where it showed no number'),
    unit: z.array(code).describe('index into `units`'),
    units: z.array(z.string()),
  }),
});

export const readingBlock = z.strictObject({
  firstSeq: count,
  count: count.max(READINGS_PER_REPLY_MAX),
  elapsedUs: z.array(count).describe('µs since the record began, on a clock that is never set'),
  chunkSeq: z.array(count).describe('raw chunk in which the line ended'),
  status: z.array(code).describe('index into `readingStatuses`'),
  channels: z.array(channelBlock).max(CHANNELS_MAX),
});
export type ReadingBlock = z.infer<typeof readingBlock>;

export const rawChunk = z.strictObject({
  opening: count.describe(
    'which opening of the port it came through, from 0; a line never goes on over two of them',
  ),
  elapsedUs: count,
  base64: z.base64(),
});
export type RawChunk = z.infer<typeof rawChunk>;

/** Bytes of the photos of one document together; of one that would go beyond, the hash stands without its bytes. */
export const DOCUMENT_PHOTO_BYTES_MAX = 100_000_000;

const photo = z.strictObject({
  ...keptPhoto.unwrap().shape,
  base64: z
    .base64()
    .nullable()
    .describe(
      `the bytes of the file, whose hash is \`sha256\`; null where those before it filled ${String(DOCUMENT_PHOTO_BYTES_MAX)} bytes`,
    ),
});

export const pullDocument = z.strictObject({
  schema: z.literal(PULL_DOCUMENT_SCHEMA),
  program: z.strictObject({ name: z.literal('Gaugemark'), version: z.string() }),
  exported: z.iso.datetime({ offset: true }),
  /** The start on the wall clock, with the offset of the place. */
  started: z.iso.datetime({ offset: true }),
  pull: keptPull
    .unwrap()
    .describe(
      'as recorded, with the reason where it was made void, every fracture note, and what was stated as the day of an imported one',
    ),
  /** Of a file that was imported: its name, hash, plan and what happened to its rows. */
  imported: importRecord.nullable(),
  evaluations: z.array(keptEvaluationDocument),
  ...saidOfPull.shape,
  sets: z.array(documentSet).describe('in which its specimen is, the newest first'),
  readingStatuses: z.tuple([...READING_STATUSES.map((s) => z.literal(s))] as [z.ZodLiteral<string>]),
  channelStatuses: z.tuple([...CHANNEL_STATUSES.map((s) => z.literal(s))] as [z.ZodLiteral<string>]),
  readings: z.array(readingBlock),
  raw: z.strictObject({
    byteCount: count,
    /** Of all raw bytes in order, lower case; null where the exporter did not make it. */
    sha256: z
      .string()
      .regex(/^[0-9a-f]{64}$/)
      .nullable(),
    chunks: z.array(rawChunk),
  }),
  photos: z.array(photo).max(PHOTOS_PER_PULL_MAX).describe('all that were kept, withdrawn ones too'),
});
export type PullDocument = z.infer<typeof pullDocument>;

/** The published form of the schema (JSON Schema, draft 2020-12); what is used several times stands in it once. */
export function pullDocumentSchema(): Record<string, unknown> {
  return {
    ...z.toJSONSchema(pullDocument, { target: 'draft-2020-12', io: 'output', reused: 'ref' }),
    $id: 'urn:gaugemark:schema:pull-4',
    title: 'One pull of a tensile specimen with everything that was recorded and evaluated',
  };
}
