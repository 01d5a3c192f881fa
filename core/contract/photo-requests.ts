/** Requests about photos of a broken specimen. One is never changed nor deleted: withdrawn, or another in its place. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX, PHOTOS_PER_PULL_MAX, PHOTO_BYTES_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { PHOTO_TYPES } from '../photo/picture-facts.ts';
import { column, nothing, rowId, wallMs } from './message.ts';

const name = z.string().trim().min(1).max(NAME_LENGTH_MAX);
const reason = z.string().trim().min(1).max(TEXT_LENGTH_MAX);
const sha256 = z.string().regex(/^[0-9a-f]{64}$/);

export const keptPhoto = atFirstUse(() =>
  z.strictObject({
    photoId: rowId,
    pullId: rowId,
    mediaType: z.enum(PHOTO_TYPES),
    widthPx: z.int().positive(),
    heightPx: z.int().positive(),
    byteCount: z.int().positive().max(PHOTO_BYTES_MAX),
    /** Of the file's bytes, hexadecimal. */
    sha256,
    fileName: z.string(),
    caption: z.string().nullable(),
    by: z.string().nullable(),
    wallMs,
    supersedes: rowId.nullable(),
    /** Null while it stands. */
    withdrawn: z
      .strictObject({
        reason: z.string(),
        by: z.string().nullable(),
        wallMs,
        /** The photo that stands in its place. */
        replacedBy: rowId.nullable(),
      })
      .nullable(),
  }),
);
export type KeptPhoto = z.infer<typeof keptPhoto>;

/** What is said of a photo when it is added, besides its bytes. */
export const photoSaid = {
  pullId: rowId,
  caption: z.string().trim().min(1).max(TEXT_LENGTH_MAX).optional(),
  by: name.optional(),
  /** The photo in whose place it is to stand; needs a reason. */
  supersedes: rowId.optional(),
  reason: reason.optional(),
} as const;

export const photoRequests = {
  /** The bytes of the whole file; looked at by content. Refused with a sentence where they are no photo. */
  'photo.add': {
    request: z.strictObject({ ...photoSaid, fileName: name, bytes: column('Uint8Array') }),
    reply: z.strictObject({ photo: keptPhoto }),
  },
  'photo.withdraw': {
    request: z.strictObject({ photoId: rowId, reason, by: name.optional() }),
    reply: nothing,
  },
  /** All of a pull, oldest first, those that were withdrawn too. */
  'photo.list': {
    request: z.strictObject({ pullId: rowId }),
    reply: atFirstUse(() => z.strictObject({ photos: z.array(keptPhoto).max(PHOTOS_PER_PULL_MAX) })),
  },
  /** As it was kept, byte for byte. */
  'photo.get': {
    request: z.strictObject({ photoId: rowId }),
    reply: z.strictObject({ photo: keptPhoto, bytes: column('Uint8Array') }),
  },
} as const;
