/** A picture that the page has drawn, looked at and written where a person says. */
import { app, type BrowserWindow } from 'electron';
import { join } from 'node:path';
import { picturePage } from '../../core/certificate/paper/picture-page.ts';
import type { PageReplyOf, PageRequestOf } from '../../core/contract/bridge.ts';
import type { Answer } from '../../core/contract/message.ts';
import { writeWholeBytes } from '../exports/whole-bytes.ts';
import { paperFontsIn } from '../print/paper-fonts.ts';
import { chooseSavePath } from './dialogs.ts';
import { notWritten } from './file-not-written.ts';
import { pdfOf } from './page-to-pdf.ts';

/** First bytes of a PNG file. ISO/IEC 15948 (PNG), 5.2. */
const PNG_SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a] as const;
const SVG_BEGINS = Buffer.from('<svg ');

type Asked = PageRequestOf<'window.save-picture'>;

/** For a PDF the page gives the SVG, which is printed here. */
export async function savePicture(
  window: BrowserWindow,
  buildFolder: string,
  asked: Asked,
): Promise<Answer<PageReplyOf<'window.save-picture'>>> {
  const { form, suggestedName, bytes } = asked;
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
    const written = form === 'pdf' ? await printed(asked, buildFolder) : bytes;
    await writeWholeBytes({ path, bytes: written, what: 'picture', replace: true });
  } catch (error) {
    return { ok: false, fault: notWritten(error, path, 'picture-not-written') };
  }
  return { ok: true, value: { path } };
}

function printed({ bytes, paper = 'A4' }: Asked, buildFolder: string): Promise<Uint8Array> {
  const fonts = paperFontsIn(join(buildFolder, 'paper-fonts'));
  const page = picturePage(Buffer.from(bytes).toString('utf8'), { paper, fonts });
  return pdfOf(page, { sheet: page.sheet, pages: 1 });
}
