/** Photos of broken specimens: the bytes as they were chosen, with their hash. Rows are only ever added. */
import { createHash } from 'node:crypto';
import { z } from 'zod';
import { type KeptPhoto, keptPhoto } from '../contract/photo-requests.ts';
import { PHOTOS_PER_PULL_MAX } from '../limits.ts';
import { pictureFacts } from '../photo/picture-facts.ts';
import { ArchiveRefusal } from './archive-fault.ts';
import { appendAudit } from './audit.ts';
import type { Steps } from './in-steps.ts';
import { pullRowOf } from './pull-reader.ts';
import { type Connection, allRows, insert, oneRow, sqlBlob, sqlInteger } from './sql.ts';

export interface AddPhoto {
  readonly pullId: number;
  readonly bytes: Uint8Array;
  readonly fileName: string;
  readonly caption?: string | undefined;
  readonly by?: string | undefined;
  readonly supersedes?: number | undefined;
  readonly reason?: string | undefined;
}

/** Throws an ArchiveRefusal where the bytes are no photo, the pull is unknown, or what is superseded doesn't stand. */
export function addPhoto(connection: Connection, add: AddPhoto, wallMs: number): KeptPhoto {
  const { pullId, fileName, caption, by, supersedes, reason } = add;
  const picture = pictureFacts(add.bytes);
  if (!picture.ok)
    throw new ArchiveRefusal(picture.code, `"${fileName.slice(0, 100)}": ${picture.sentence}`, 'bytes');
  const { mediaType, widthPx, heightPx } = picture.facts;
  const body = Buffer.from(add.bytes.buffer, add.bytes.byteOffset, add.bytes.byteLength);
  const sha256 = createHash('sha256').update(body).digest();
  return connection
    .transaction(() => {
      pullRowOf(connection, pullId);
      checkOrder(connection, add, sha256.toString('hex'));
      const photoId = insert(connection, 'photo', {
        pull_id: pullId,
        media_type: mediaType,
        width_px: widthPx,
        height_px: heightPx,
        byte_count: body.length,
        sha256,
        body,
        file_name: fileName,
        caption: caption ?? null,
        added_by: by ?? null,
        wall_ms: wallMs,
        supersedes: supersedes ?? null,
        reason: supersedes === undefined ? null : (reason ?? null),
      });
      const detail = { pullId, fileName, caption, by, supersedes, reason, mediaType, byteCount: body.length };
      appendAudit(connection, wallMs, {
        what: supersedes === undefined ? 'photo kept' : 'photo superseded',
        subject: 'photo',
        subjectId: photoId,
        detail: { ...detail, sha256: sha256.toString('hex') },
      });
      return photoOf(connection, photoId);
    })
    .immediate();
}

function checkOrder(connection: Connection, { pullId, supersedes, reason }: AddPhoto, sha256: string): void {
  const before = photosOf(connection, pullId);
  const same = before.find((one) => one.sha256 === sha256 && one.withdrawn === null);
  if (same !== undefined)
    throw new ArchiveRefusal(
      'photo-kept-already',
      `The very same photo is kept with pull ${String(pullId)} already, as photo ${String(same.photoId)}. Nothing was added.`,
      'bytes',
    );
  if (before.length >= PHOTOS_PER_PULL_MAX)
    throw new ArchiveRefusal(
      'too-many-photos',
      `Pull ${String(pullId)} has ${String(before.length)} photos, as many as are kept of one.`,
      'pullId',
    );
  if (supersedes === undefined) return;
  const old = before.find((one) => one.photoId === supersedes);
  if (old === undefined)
    throw new ArchiveRefusal(
      'no-such-photo',
      `Pull ${String(pullId)} has no photo ${String(supersedes)} that another could take the place of.`,
      'supersedes',
    );
  refuseWithdrawn(old);
  if (reason === undefined)
    throw new ArchiveRefusal(
      'reason-missing',
      'A photo in the place of another needs its reason; say in a few words why.',
      'reason',
    );
}

function refuseWithdrawn({ photoId, withdrawn }: KeptPhoto): void {
  if (withdrawn !== null)
    throw new ArchiveRefusal(
      'already-withdrawn',
      `Photo ${String(photoId)} does not stand any more: ${withdrawn.reason.slice(0, 300)}. Nothing was changed.`,
      'photoId',
    );
}

export interface WithdrawPhoto {
  readonly photoId: number;
  readonly reason: string;
  readonly by?: string | undefined;
}

/** It stays in the archive and is shown as withdrawn. Throws an ArchiveRefusal where it is unknown or withdrawn. */
export function withdrawPhoto(
  connection: Connection,
  { photoId, reason, by }: WithdrawPhoto,
  wallMs: number,
): void {
  connection
    .transaction(() => {
      refuseWithdrawn(photoOf(connection, photoId));
      insert(connection, 'photo_withdrawal', {
        photo_id: photoId,
        reason,
        withdrawn_by: by ?? null,
        wall_ms: wallMs,
      });
      appendAudit(connection, wallMs, {
        what: 'photo withdrawn',
        subject: 'photo_withdrawal',
        subjectId: photoId,
        detail: { reason, by: by ?? null },
      });
    })
    .immediate();
}

const photoRow = z
  .object({
    photo_id: sqlInteger,
    pull_id: sqlInteger,
    media_type: keptPhoto.unwrap().shape.mediaType,
    width_px: sqlInteger,
    height_px: sqlInteger,
    byte_count: sqlInteger,
    sha256: sqlBlob,
    file_name: z.string(),
    caption: z.string().nullable(),
    added_by: z.string().nullable(),
    wall_ms: sqlInteger,
    supersedes: sqlInteger.nullable(),
    gone_reason: z.string().nullable(),
    gone_by: z.string().nullable(),
    gone_wall_ms: sqlInteger.nullable(),
    replaced_by: sqlInteger.nullable(),
  })
  .transform((row): KeptPhoto => ({
    photoId: row.photo_id,
    pullId: row.pull_id,
    mediaType: row.media_type,
    widthPx: row.width_px,
    heightPx: row.height_px,
    byteCount: row.byte_count,
    sha256: Buffer.from(row.sha256).toString('hex'),
    fileName: row.file_name,
    caption: row.caption,
    by: row.added_by,
    wallMs: row.wall_ms,
    supersedes: row.supersedes,
    withdrawn:
      row.gone_reason === null || row.gone_wall_ms === null
        ? null
        : { reason: row.gone_reason, by: row.gone_by, wallMs: row.gone_wall_ms, replacedBy: row.replaced_by },
  }));

const SELECT_PHOTO = `
SELECT p.photo_id, p.pull_id, p.media_type, p.width_px, p.height_px, p.byte_count, p.sha256, p.file_name, p.caption,
  p.added_by, p.wall_ms, p.supersedes,
  coalesce(next.reason, w.reason) AS gone_reason,
  CASE WHEN next.photo_id IS NULL THEN w.withdrawn_by ELSE next.added_by END AS gone_by,
  coalesce(next.wall_ms, w.wall_ms) AS gone_wall_ms, next.photo_id AS replaced_by
FROM photo p
LEFT JOIN photo next ON next.supersedes = p.photo_id
LEFT JOIN photo_withdrawal w ON w.photo_id = p.photo_id`;

/** All of a pull, oldest first. Throws an ArchiveRefusal where there is no such pull. */
export function photosOf(connection: Connection, pullId: number): KeptPhoto[] {
  pullRowOf(connection, pullId);
  return allRows(connection, photoRow, `${SELECT_PHOTO} WHERE p.pull_id = ? ORDER BY p.photo_id`, pullId);
}

function photoOf(connection: Connection, photoId: number): KeptPhoto {
  const photo = oneRow(connection, photoRow, `${SELECT_PHOTO} WHERE p.photo_id = ?`, photoId);
  if (photo === null)
    throw new ArchiveRefusal(
      'no-such-photo',
      `There is no photo ${String(photoId)} in this archive.`,
      'photoId',
    );
  return photo;
}

/** With its bytes as they were kept. Throws an ArchiveRefusal where there is none. */
export function getPhoto(connection: Connection, photoId: number): { photo: KeptPhoto; bytes: Uint8Array } {
  const photo = photoOf(connection, photoId);
  const row = oneRow(
    connection,
    z.object({ body: sqlBlob }),
    'SELECT body FROM photo WHERE photo_id = ?',
    photoId,
  );
  return { photo, bytes: new Uint8Array(row?.body ?? []) };
}

/** What doesn't agree with its hash, and how many were looked at; of one pull, or of the whole archive. */
export function* damagedPhotos(
  connection: Connection,
  pullId: number | undefined,
): Steps<{ readonly checked: number; readonly damaged: readonly number[] }> {
  const ids = allRows(
    connection,
    z.object({ photo_id: sqlInteger }),
    'SELECT photo_id FROM photo WHERE ? IS NULL OR pull_id = ? ORDER BY photo_id',
    pullId ?? null,
    pullId ?? null,
  ).map((row) => row.photo_id);
  const damaged: number[] = [];
  for (const photoId of ids) {
    const { photo, bytes } = getPhoto(connection, photoId);
    if (bytes.length !== photo.byteCount || createHash('sha256').update(bytes).digest('hex') !== photo.sha256)
      damaged.push(photoId);
    yield;
  }
  return { checked: ids.length, damaged };
}
