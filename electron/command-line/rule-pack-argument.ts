/** `--rules ID|FILE`: a pack of the program by tolerant name, of a laboratory's folder, or a file. */
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { builtInPacks, findPack } from '../../core/acceptance/packs.ts';
import { type RulePack, readRulePack } from '../../core/acceptance/read-rule-pack.ts';
import type { ShapeFault } from '../../core/shape-faults.ts';
import { readJsonFile } from './input-files.ts';
import { InputError } from './verb.ts';

/** Packs read from one folder; a laboratory has a handful. */
const FOLDER_PACKS_MAX = 200;

/** The program's packs and those of a folder; one of the folder takes the place of the program's with the same id. */
export function packsWithFolder(folder: string | undefined): readonly RulePack[] {
  if (folder === undefined) return builtInPacks();
  const own = packFilesOf(folder).map(readRulePackFile);
  const ids = own.map((pack) => pack.file.id);
  const twice = ids.find((id, index) => ids.indexOf(id) !== index);
  if (twice !== undefined) {
    throw new InputError(
      'pack-twice',
      `${folder}: two files hold a rule pack "${twice}"; keep one of them.`,
      'folder',
    );
  }
  return [...builtInPacks().filter((pack) => !ids.includes(pack.file.id)), ...own];
}

/** The pack that the text asks for. Throws an InputError where it is ambiguous, unknown or wrong. */
export function packFromArgument(text: string, packs: readonly RulePack[]): RulePack {
  const isFileName = text.toLowerCase().endsWith('.json');
  const found = isFileName ? ({ kind: 'none', near: [] } as const) : findPack(text, packs);
  switch (found.kind) {
    case 'found':
      return found.item;
    case 'ambiguous':
      throw new InputError(
        'rules-ambiguous',
        `--rules "${text.slice(0, 80)}" could be ${found.candidates.map((pack) => pack.file.id).join(' or ')}; name one of them.`,
        'rules',
      );
    case 'none':
      if (isFileName || existsSync(text)) return readRulePackFile(text);
      throw new InputError(
        'rules-unknown',
        `There is no rule pack "${text.slice(0, 80)}" and no such file; ${found.near.length > 0 ? `near are ${found.near.map((pack) => pack.file.id).join(', ')}` : `the packs are ${packs.map((pack) => pack.file.id).join(', ')}`}.`,
        'rules',
      );
  }
}

/** Reads a pack file. Throws an InputError that names file, field, what is wrong and how many faults more there are. */
export function readRulePackFile(path: string): RulePack {
  const read = readRulePack(readJsonFile(path, 'rule pack'));
  if (read.ok) return read.pack;
  throw packFaultsError(path, read.faults);
}

export function packFaultsError(path: string, faults: readonly ShapeFault[]): InputError {
  const [first] = faults;
  const more = faults.length - 1;
  return new InputError(
    'rule-pack-wrong',
    `${path}: ${first?.sentence ?? 'the rule pack is wrong.'}${more > 0 ? ` (${String(more)} more; "gaugemark rules check" lists them.)` : ''}`,
    first?.field ?? 'rules',
  );
}

function packFilesOf(folder: string): string[] {
  let names: string[];
  try {
    names = readdirSync(folder).filter((name) => name.toLowerCase().endsWith('.json'));
  } catch {
    throw new InputError(
      'folder-not-read',
      `${folder}: this folder can't be read; give a folder with rule packs.`,
      'folder',
    );
  }
  if (names.length > FOLDER_PACKS_MAX) {
    throw new InputError(
      'folder-too-large',
      `${folder}: there are more than ${String(FOLDER_PACKS_MAX)} files; give a folder that holds rule packs only.`,
      'folder',
    );
  }
  return names.sort().map((name) => join(folder, name));
}
