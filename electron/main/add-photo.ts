/** A photo chosen in the window: asked for a file, looked at here, kept by the recorder. The page sees no path. */
import { app, dialog, type BrowserWindow } from 'electron';
import type { PageReplyOf, PageRequestOf } from '../../core/contract/bridge.ts';
import { type RequestOf, contract } from '../../core/contract/index.ts';
import type { Answer } from '../../core/contract/message.ts';
import { readPhotoFile } from '../photos/read-photo-file.ts';
import { anyFile } from './dialogs.ts';
import { shellWords } from './words/shell-words.ts';

export interface PhotoMeans {
  readonly window: BrowserWindow;
  readonly ask: (request: RequestOf<'photo.add'>) => Promise<Answer<unknown>>;
}

/** Null where the person thought better of it; nothing is kept then. */
export async function addPhoto(
  asked: PageRequestOf<'window.add-photo'>,
  { window, ask }: PhotoMeans,
): Promise<Answer<PageReplyOf<'window.add-photo'>>> {
  const { filePaths } = await dialog.showOpenDialog(window, {
    title: shellWords().dialogs.photo,
    defaultPath: app.getPath('pictures'),
    filters: [{ name: shellWords().files.photo, extensions: ['jpg', 'jpeg', 'png'] }, anyFile()],
    properties: ['openFile'],
  });
  const path = filePaths[0];
  if (path === undefined) return { ok: true, value: { photo: null } };
  const file = await readPhotoFile(path);
  if (!file.ok) return { ok: false, fault: { code: file.code, sentence: file.sentence } };
  const { fileName, bytes } = file;
  const answer = await ask({ ...asked, fileName, bytes });
  return answer.ok ? { ok: true, value: contract['photo.add'].reply.parse(answer.value) } : answer;
}
