/** Dialogs for files: asynchronous and attached to the window, so that nothing else waits for them. */
import { type BrowserWindow, dialog, type FileFilter } from 'electron';
import { open } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { Answer } from '../../core/contract/message.ts';
import type { ChosenFor } from '../../core/contract/file-requests.ts';
import type { FileKind } from '../../core/contract/window-requests.ts';
import { JSON_FILE_BYTES_MAX } from '../../core/limits.ts';
import { fileNameFrom } from './file-name.ts';
import { shellWords } from './words/shell-words.ts';

function filterOf(kind: FileKind): FileFilter {
  const { files } = shellWords();
  const filters: Readonly<Record<FileKind, FileFilter>> = {
    archive: { name: files.archive, extensions: ['gaugemark'] },
    curve: { name: files.curve, extensions: ['csv', 'txt', 'tsv'] },
    'pull-json': { name: files.everything, extensions: ['json'] },
    'pull-json-ld': { name: files.linkedData, extensions: ['jsonld'] },
    specimen: { name: files.specimen, extensions: ['json'] },
    profile: { name: files.profile, extensions: ['json'] },
    rules: { name: files.rules, extensions: ['json'] },
    scenario: { name: files.scenario, extensions: ['json'] },
    certificate: { name: files.certificate, extensions: ['pdf'] },
    'certificate-csv': { name: files.certificateCsv, extensions: ['csv'] },
    'certificate-json': { name: files.certificateJson, extensions: ['json'] },
    'picture-svg': { name: files.pictureSvg, extensions: ['svg'] },
    'picture-png': { name: files.picturePng, extensions: ['png'] },
    'picture-pdf': { name: files.picturePdf, extensions: ['pdf'] },
    'results-pdf': { name: files.resultsPdf, extensions: ['pdf'] },
  };
  return filters[kind];
}

export const anyFile = (): FileFilter => ({ name: shellWords().files.any, extensions: ['*'] });

export async function chooseArchive(window: BrowserWindow, how: 'open' | 'new'): Promise<string | null> {
  const { dialogs } = shellWords();
  const filters = [filterOf('archive'), anyFile()];
  if (how === 'open') {
    const { filePaths } = await dialog.showOpenDialog(window, {
      title: dialogs.openArchive,
      filters,
      properties: ['openFile'],
    });
    return filePaths[0] ?? null;
  }
  const { filePath } = await dialog.showSaveDialog(window, {
    title: dialogs.newArchive,
    filters,
    defaultPath: 'pulls.gaugemark',
  });
  return filePath === '' ? null : filePath;
}

/** Null where the person thought better of it. */
export async function chooseFolder(window: BrowserWindow, title: string): Promise<string | null> {
  const { filePaths } = await dialog.showOpenDialog(window, { title, properties: ['openDirectory'] });
  return filePaths[0] ?? null;
}

function askedFile(what: Exclude<ChosenFor, 'years' | `results-${string}`>): {
  title: string;
  filters: FileFilter[];
} {
  const { dialogs, files } = shellWords();
  switch (what) {
    case 'curve':
      return {
        title: dialogs.readings,
        filters: [{ name: files.readings, extensions: ['csv', 'txt', 'tsv', 'dat', 'asc'] }, anyFile()],
      };
    case 'bytes':
      return { title: dialogs.bytes, filters: [anyFile()] };
    case 'archive':
      return { title: dialogs.takeFrom, filters: [filterOf('archive'), anyFile()] };
    case 'backup':
      return { title: dialogs.backup, filters: [filterOf('archive'), anyFile()] };
  }
}

/** A file to read, the place of a table of results, or the folder for files of years; null where the person thought better of it. */
export async function chooseFor(
  window: BrowserWindow,
  { what, suggestedName, folder }: { what: ChosenFor; suggestedName: string | undefined; folder: string },
): Promise<string | null> {
  if (what === 'results-csv' || what === 'results-xlsx') {
    const { filePath } = await dialog.showSaveDialog(window, {
      title: shellWords().dialogs.results,
      filters: [
        what === 'results-xlsx'
          ? { name: shellWords().files.workbook, extensions: ['xlsx'] }
          : filterOf('certificate-csv'),
        anyFile(),
      ],
      defaultPath: join(folder, fileNameFrom(suggestedName ?? `results.${what.slice('results-'.length)}`)),
    });
    return filePath === '' ? null : filePath;
  }
  if (what === 'years') return chooseFolder(window, shellWords().dialogs.yearsFolder);
  const { filePaths } = await dialog.showOpenDialog(window, { ...askedFile(what), properties: ['openFile'] });
  return filePaths[0] ?? null;
}

/** @param suggestedName comes from the page; only its last part, without signs that a file system minds, is used */
export async function chooseSavePath(
  window: BrowserWindow,
  { kind, suggestedName, folder }: { kind: FileKind; suggestedName: string; folder: string },
): Promise<string | null> {
  const { filePath } = await dialog.showSaveDialog(window, {
    title: shellWords().dialogs.saveAs,
    filters: [filterOf(kind), anyFile()],
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
    title: shellWords().dialogs.open,
    filters: [filterOf(kind), anyFile()],
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
