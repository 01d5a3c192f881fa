/** A photo read from a file, with its size looked at first: a wrong file may be a disk image, or no file at all. */
import { constants } from 'node:fs';
import { open } from 'node:fs/promises';
import { basename } from 'node:path';
import { PHOTO_BYTES_MAX } from '../../core/limits.ts';
import { pictureFacts, tooManyBytes } from '../../core/photo/picture-facts.ts';

export type PhotoFile =
  | { readonly ok: true; readonly fileName: string; readonly bytes: Uint8Array }
  | { readonly ok: false; readonly code: string; readonly sentence: string };

/** Never throws: what is wrong with the file is told in a sentence. */
export async function readPhotoFile(path: string): Promise<PhotoFile> {
  const fileName = basename(path);
  const wrong = (code: string, sentence: string): PhotoFile => ({
    ok: false,
    code,
    sentence: `"${fileName.slice(0, 100)}": ${sentence}`,
  });
  try {
    // A pipe without a writer would never open.
    const file = await open(path, constants.O_RDONLY | constants.O_NONBLOCK);
    try {
      const facts = await file.stat();
      if (!facts.isFile())
        return wrong('not-a-photo', 'It is no ordinary file; choose another. Nothing was kept.');
      if (facts.size > PHOTO_BYTES_MAX) {
        const { code, sentence } = tooManyBytes(facts.size);
        return wrong(code, sentence);
      }
      const bytes = new Uint8Array(await file.readFile());
      const picture = pictureFacts(bytes);
      return picture.ok ? { ok: true, fileName, bytes } : wrong(picture.code, picture.sentence);
    } finally {
      await file.close();
    }
  } catch (error) {
    const cause = error instanceof Error ? error.message : String(error);
    return wrong('file-unreadable', `It could not be read (${cause.slice(0, 300)}). Nothing was kept.`);
  }
}
