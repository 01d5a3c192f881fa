/** Dialogs for files: asynchronous and attached to the window, so that nothing else waits for them. */
import { type BrowserWindow, dialog, type FileFilter } from 'electron';
import { open } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { Answer } from '../../core/contract/message.ts';
import type { FileKind } from '../../core/contract/window-requests.ts';
import { JSON_FILE_BYTES_MAX } from '../../core/limits.ts';
import { fileNameFrom } from './file-name.ts';

const FILTERS: Readonly<Record<FileKind, FileFilter>> = {
  archive: { name: 'Gaugemark archive', extensions: ['gaugemark'] },
  curve: { name: 'Curve (CSV)', extensions: ['csv', 'txt', 'tsv'] },
  specimen: { name: 'Specimen', extensions: ['json'] },
  profile: { name: 'Readout profile', extensions: ['json'] },
  scenario: { name: 'Scenario of the simulated frame', extensions: ['json'] },
  certificate: { name: 'Certificate (PDF)', extensions: ['pdf'] },
  'certificate-csv': { name: 'Certificate (CSV)', extensions: ['csv'] },
  'certificate-json': { name: 'Certificate (JSON)', extensions: ['json'] },
};
const ANY_FILE: FileFilter = { name: 'Any file', extensions: ['*'] };

export async function chooseArchive(window: BrowserWindow, how: 'open' | 'new'): Promise<string | null> {
  const filters = [FILTERS.archive, ANY_FILE];
  if (how === 'open') {
    const { filePaths } = await dialog.showOpenDialog(window, {
      title: 'Open another archive',
      filters,
      properties: ['openFile'],
    });
    return filePaths[0] ?? null;
  }
  const { filePath } = await dialog.showSaveDialog(window, {
    title: 'Begin a new archive',
    filters,
    defaultPath: 'pulls.gaugemark',
  });
  return filePath === '' ? null : filePath;
}

/** @param suggestedName comes from the page; only its last part, without signs that a file system minds, is used */
export async function chooseSavePath(
  window: BrowserWindow,
  { kind, suggestedName, folder }: { kind: FileKind; suggestedName: string; folder: string },
): Promise<string | null> {
  const { filePath } = await dialog.showSaveDialog(window, {
    title: 'Save as',
    filters: [FILTERS[kind], ANY_FILE],
    defaultPath: join(folder, fileNameFrom(suggestedName)),
    properties: ['showOverwriteConfirmation'],
  });
  return filePath === '' ? null : filePath;
}

export interface OpenedText {
  readonly path: string;
  readonly name: string;
  readonly text: string;
}

export async function openText(window: BrowserWindow, kind: FileKind): Promise<Answer<OpenedText | null>> {
  const { filePaths } = await dialog.showOpenDialog(window, {
    title: 'Open',
    filters: [FILTERS[kind], ANY_FILE],
    properties: ['openFile'],
  });
  const path = filePaths[0];
  return path === undefined ? { ok: true, value: null } : readText(path);
}

/** A file's text, with its size looked at first: a wrong file may be a disk image. */
export async function readText(path: string): Promise<Answer<OpenedText>> {
  const name = basename(path);
  try {
    const file = await open(path, 'r');
    try {
      const facts = await file.stat();
      if (!facts.isFile())
        return fault('file-not-plain', `"${name}" is not an ordinary file; choose another one.`);
      if (facts.size > JSON_FILE_BYTES_MAX)
        return fault(
          'file-too-large',
          `"${name}" has ${facts.size} bytes; such a file has at most ${JSON_FILE_BYTES_MAX}. Choose another one.`,
        );
      return { ok: true, value: { path, name, text: await file.readFile('utf8') } };
    } finally {
      await file.close();
    }
  } catch (error) {
    const cause = error instanceof Error ? error.message : String(error);
    return fault('file-unreadable', `"${name}" could not be read (${cause}). Nothing was changed.`);
  }
}

function fault(code: string, sentence: string): Answer<never> {
  return { ok: false, fault: { code, sentence } };
}
