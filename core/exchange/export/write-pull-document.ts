/** The document of a pull as JSON text, in pieces, so that a million readings are never one string. */
import type { KeptPhoto } from '../../contract/photo-requests.ts';
import type { KeptPull } from '../../contract/pull-requests.ts';
import { CHANNEL_STATUSES, READING_STATUSES, type ReadingColumns } from '../../contract/reading.ts';
import type { ImportRecord } from '../import/import-report.ts';
import { base64Text } from './base64.ts';
import type { KeptEvaluationDocument } from './evaluation-document.ts';
import type { DocumentVerdict, SaidOfPull } from './document-statements.ts';
import { momentText } from './moment-text.ts';
import { shownTextsOf } from './shown-texts.ts';
import { DOCUMENT_PHOTO_BYTES_MAX, PULL_DOCUMENT_SCHEMA, type ReadingBlock } from './pull-document.ts';

export interface PullDocumentInput {
  readonly pull: KeptPull;
  readonly evaluations: readonly KeptEvaluationDocument[];
  readonly imported?: ImportRecord | null;
  /** Consecutive columns from reading 0 on, read with `shown: true`. */
  readonly blocks: Iterable<ReadingColumns>;
  readonly chunks: Iterable<{
    readonly opening: number;
    readonly elapsedUs: number;
    readonly bytes: Uint8Array;
  }>;
  readonly said: SaidOfPull;
  /** At the moment of the export, by the number of the member; null where the pull is not judged in its set. */
  readonly verdicts: ReadonlyMap<number, DocumentVerdict>;
  readonly photos: readonly KeptPhoto[];
  /** Of one photo; read one after the other. */
  readonly photoBytes: (photoId: number) => Uint8Array;
  /** Of all raw bytes in order, lower-case hexadecimal. */
  readonly rawSha256: string | null;
  readonly programVersion: string;
  readonly exportedWallMs: number;
  /** Minutes ahead of UTC at the place of the export. */
  readonly utcOffsetMinutes: number;
}

/** Throws a RangeError where a block was read without the digits as shown. */
export function* pullDocumentPieces(input: PullDocumentInput): Generator<string> {
  const { pull, utcOffsetMinutes } = input;
  const head = {
    schema: PULL_DOCUMENT_SCHEMA,
    program: { name: 'Gaugemark', version: input.programVersion },
    exported: momentText(input.exportedWallMs, utcOffsetMinutes),
    started: momentText(pull.startedWallMs, pull.startedUtcOffsetMinutes),
    pull,
    imported: input.imported ?? null,
    evaluations: input.evaluations,
    ...input.said,
    sets: input.said.sets.map((one) => ({ ...one, verdict: input.verdicts.get(one.setMemberId) ?? null })),
    readingStatuses: READING_STATUSES,
    channelStatuses: CHANNEL_STATUSES,
  };
  yield `${JSON.stringify(head, null, 1).slice(0, -2)},\n "readings": [`;
  yield* listed(input.blocks, blockOf);
  yield `],\n "raw": {"byteCount": ${String(pull.rawByteCount)}, "sha256": ${JSON.stringify(input.rawSha256)}, "chunks": [`;
  yield* listed(input.chunks, ({ opening, elapsedUs, bytes }) => ({
    opening,
    elapsedUs,
    base64: base64Text(bytes),
  }));
  yield ']},\n "photos": [';
  yield* listed(photosWithBytes(input), (photo) => photo);
  yield ']\n}\n';
}

function* photosWithBytes({
  photos,
  photoBytes,
}: PullDocumentInput): Generator<KeptPhoto & { readonly base64: string | null }> {
  let room = DOCUMENT_PHOTO_BYTES_MAX;
  for (const photo of photos) {
    const fits = photo.byteCount <= room;
    if (fits) room -= photo.byteCount;
    yield { ...photo, base64: fits ? base64Text(photoBytes(photo.photoId)) : null };
  }
}

function* listed<T>(items: Iterable<T>, form: (item: T) => unknown): Generator<string> {
  let first = true;
  for (const item of items) {
    yield `${first ? '' : ','}\n  ${JSON.stringify(form(item))}`;
    first = false;
  }
}

function blockOf(block: ReadingColumns): ReadingBlock {
  return {
    firstSeq: block.firstSeq,
    count: block.count,
    elapsedUs: [...block.elapsedUs],
    chunkSeq: [...block.chunkSeq],
    status: [...block.status],
    channels: block.channels.map(({ key, quantity, coreUnit, value, status, shown }) => {
      if (shown === undefined)
        throw new RangeError(`the readings of ${key} were read without what was shown`);
      return {
        key,
        quantity,
        coreUnit,
        value: Array.from(value, (v) => (Number.isFinite(v) ? v : null)),
        status: [...status],
        shown: {
          text: [...shownTextsOf(shown)],
          unit: [...shown.unit],
          units: [...shown.units],
        },
      };
    }),
  };
}
