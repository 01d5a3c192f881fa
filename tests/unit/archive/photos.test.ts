/** Photos of a broken specimen: looked at by content, kept as they are with their hash, withdrawn and never deleted. */
import { createHash } from 'node:crypto';
import { readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Archive } from '../../../core/archive/archive.ts';
import {
  type AddPhoto,
  addPhoto,
  getPhoto,
  photosOf,
  withdrawPhoto,
} from '../../../core/archive/photo-store.ts';
import { PHOTO_BYTES_MAX } from '../../../core/limits.ts';
import { pictureFacts } from '../../../core/photo/picture-facts.ts';
import { readPhotoFile } from '../../../electron/photos/read-photo-file.ts';
import { ran } from '../command-line/in-process.ts';
import { keptPull, openArchive, scratchFolder } from './made-archive.ts';

/** Made by a general-purpose image program, 64 × 48 pixels, grey. */
const JPEG = new Uint8Array(readFileSync(new URL('../../../fixtures/photos/grey-ramp.jpg', import.meta.url)));
/** One black pixel, from the chunks that the PNG specification lists: header, data, end. */
const PNG = new Uint8Array(
  Buffer.from(
    'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNgAAAAAgABSK+kcQAAAABJRU5ErkJggg==',
    'base64',
  ),
);
const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

const archiveWithPull = (): { archive: Archive; pullId: number } => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  return { archive, pullId: keptPull(archive) };
};
const add = (archive: Archive, given: Partial<AddPhoto> & { pullId: number }) =>
  archive.sets((connection, { wallMs }) =>
    addPhoto(connection, { bytes: JPEG, fileName: 'halves.jpg', ...given }, wallMs),
  );

describe('what a file says of itself', () => {
  it('is read from its content', () => {
    expect(pictureFacts(JPEG)).toEqual({
      ok: true,
      facts: { mediaType: 'image/jpeg', widthPx: 64, heightPx: 48 },
    });
    expect(pictureFacts(PNG)).toEqual({
      ok: true,
      facts: { mediaType: 'image/png', widthPx: 1, heightPx: 1 },
    });
  });

  it('is refused where it is no picture, cut off, or of too many pixels', () => {
    expect(pictureFacts(Buffer.from('<svg onload="x()"/>'))).toMatchObject({ code: 'not-a-photo' });
    expect(pictureFacts(new Uint8Array())).toMatchObject({ code: 'not-a-photo' });
    for (const whole of [JPEG, PNG])
      expect(pictureFacts(whole.subarray(0, whole.length - 13))).toMatchObject({ code: 'photo-damaged' });
    const huge = PNG.slice();
    new DataView(huge.buffer).setUint32(16, 60_000);
    new DataView(huge.buffer).setUint32(20, 60_000);
    expect(pictureFacts(huge)).toMatchObject({ code: 'photo-too-large' });
  });

  it('never throws, whatever the bytes', () => {
    const begun = fc.constantFrom(JPEG.subarray(0, 20), PNG.subarray(0, 24), new Uint8Array());
    fc.assert(
      fc.property(begun, fc.uint8Array({ maxLength: 200 }), (head, tail) => {
        expect(typeof pictureFacts(Buffer.concat([head, tail])).ok).toBe('boolean');
      }),
      { numRuns: 300 },
    );
  });

  it('a file of 200 MB is refused before it is read', async () => {
    const path = join(scratchFolder(), 'disk.jpg');
    writeFileSync(path, JPEG);
    truncateSync(path, 200 * 1_048_576);
    expect(await readPhotoFile(path)).toMatchObject({
      code: 'photo-too-large',
      sentence: expect.stringContaining(`at most ${String(PHOTO_BYTES_MAX)} bytes`) as string,
    });
    expect(await readPhotoFile('/dev/null')).toMatchObject({ code: 'not-a-photo' });
    expect(await readPhotoFile(join(path, 'x.jpg'))).toMatchObject({ code: 'file-unreadable' });
  });
});

describe('a photo in the archive', () => {
  it('comes back byte for byte, with hash, size, name, and by whom', () => {
    const { archive, pullId } = archiveWithPull();
    const fileName = `<img src=x>\u202E${'n'.repeat(280)}`;
    const kept = add(archive, { pullId, fileName, caption: 'both halves', by: 'OP2' });
    expect(kept).toMatchObject({ fileName, sha256: sha256(JPEG), widthPx: 64, by: 'OP2', withdrawn: null });
    add(archive, { pullId, bytes: PNG, fileName: 'end.png' });
    expect(archive.sets((connection) => photosOf(connection, pullId))).toHaveLength(2);
    const { bytes } = archive.sets((connection) => getPhoto(connection, kept.photoId));
    expect(sha256(bytes)).toBe(sha256(JPEG));
    expect(archive.check({}).lines).toContainEqual({
      name: 'photos',
      ok: true,
      words: '2 photos agree with their hashes',
    });
  });

  it('stays when another takes its place or it is withdrawn, with the reason', () => {
    const { archive, pullId } = archiveWithPull();
    const { photoId } = add(archive, { pullId });
    expect(() => add(archive, { pullId })).toThrow(/very same photo/);
    expect(() => add(archive, { pullId, bytes: PNG, supersedes: photoId })).toThrow(/reason/);
    const next = add(archive, { pullId, bytes: PNG, supersedes: photoId, reason: 'blurred' });
    const list = () => archive.sets((connection) => photosOf(connection, pullId));
    expect(list()[0]?.withdrawn).toMatchObject({ reason: 'blurred', replacedBy: next.photoId });
    archive.sets((connection, { wallMs }) =>
      withdrawPhoto(connection, { photoId: next.photoId, reason: 'of another specimen' }, wallMs),
    );
    expect(list()[1]?.withdrawn).toMatchObject({ reason: 'of another specimen', replacedBy: null });
    for (const table of ['photo', 'photo_withdrawal'])
      expect(() => archive.connection.prepare(`DELETE FROM ${table}`).run()).toThrow(/never deleted/);
    expect(archive.check({}).sound).toBe(true);
  });

  it('that was changed by other means is found by the check', () => {
    const { archive, pullId } = archiveWithPull();
    const { photoId } = add(archive, { pullId });
    archive.connection.exec('DROP TRIGGER photo_is_not_changed');
    const other = JPEG.slice();
    other[150] = 7;
    archive.connection.prepare('UPDATE photo SET body = ? WHERE photo_id = ?').run(other, photoId);
    expect(archive.check({}).lines.find((line) => line.name === 'photos')).toMatchObject({ ok: false });
  });
});

it('gaugemark archive photo adds, lists, writes out and withdraws; what is no photo leaves nothing', async () => {
  const folder = scratchFolder();
  const path = join(folder, 'a.gaugemark');
  const made = openArchive(path);
  keptPull(made);
  made.close();
  const photo = async (...args: string[]) => ran('archive', 'photo', '--archive', path, ...args);
  writeFileSync(join(folder, 'a.jpg'), 'MZ no picture');
  writeFileSync(join(folder, 'b.png'), JPEG);
  const wrong = await photo('--pull', '1', '--add', join(folder, 'a.jpg'));
  expect([wrong.code, wrong.err]).toEqual([
    2,
    expect.stringMatching(/neither JPEG nor PNG.*Nothing was kept/),
  ]);
  const kept = await photo(
    '--pull',
    '1',
    '--add',
    join(folder, 'b.png'),
    '--caption',
    'both halves',
    '--json',
  );
  expect(JSON.parse(kept.out)).toMatchObject({ photo: { mediaType: 'image/jpeg', caption: 'both halves' } });
  const out = join(folder, 'out.jpg');
  await photo('--write', '1', '--out', out);
  expect(sha256(readFileSync(out))).toBe(sha256(JPEG));
  expect((await photo('--withdraw', '1', '--reason', 'wrong half')).code).toBe(0);
  expect((await photo('--pull', '1')).out).toMatch(/both halves, 64 × 48 pixels.*withdrawn: wrong half/);
});
