/** A picture that the page has drawn, looked at and written where a person says. */
import { app, type BrowserWindow } from 'electron';
import { basename } from 'node:path';
import type { PageReplyOf, PageRequestOf } from '../../core/contract/bridge.ts';
import type { Answer } from '../../core/contract/message.ts';
import { chooseSavePath } from './dialogs.ts';
import { putInPlace } from './pdf-in-place.ts';

/** First bytes of a PNG file. ISO/IEC 15948 (PNG), 5.2. */
const PNG_SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a] as const;
const SVG_BEGINS = Buffer.from('<svg ');

export async function savePicture(
  window: BrowserWindow,
  { form, suggestedName, bytes }: PageRequestOf<'window.save-picture'>,
): Promise<Answer<PageReplyOf<'window.save-picture'>>> {
  const isIt =
    form === 'png'
      ? PNG_SIGNATURE.every((byte, i) => bytes[i] === byte)
      : SVG_BEGINS.every((byte, i) => bytes[i] === byte);
  if (!isIt)
    return {
      ok: false,
      fault: {
        code: 'no-picture',
        sentence: 'What was to be saved is no picture of that form; nothing was written.',
      },
    };
  const path = await chooseSavePath(window, {
    kind: `picture-${form}`,
    suggestedName: `${suggestedName}.${form}`,
    folder: app.getPath('documents'),
  });
  if (path === null) return { ok: true, value: { path: null } };
  try {
    await putInPlace(path, bytes);
  } catch (error) {
    const cause = error instanceof Error ? error.message : String(error);
    return {
      ok: false,
      fault: {
        code: 'picture-not-written',
        sentence: `"${basename(path)}" could not be written (${cause.slice(0, 300)}). What was there before is unharmed; choose another place and save it again.`,
      },
    };
  }
  return { ok: true, value: { path } };
}
