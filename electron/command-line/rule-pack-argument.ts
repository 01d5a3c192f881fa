/** `--rules ID|FILE`: a pack of the program by tolerant name, of a laboratory's folder, or a file. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { findPack, packsWith } from '../../core/acceptance/packs.ts';
import { type RulePack, readRulePack } from '../../core/acceptance/read-rule-pack.ts';
import type { ShapeFault } from '../../core/shape-faults.ts';
import { type RulesFolder, readRulesFolder } from '../rules/rules-folder.ts';
import { readJsonFile } from './input-files.ts';
import { InputError } from './verb.ts';

export const RULES_FOLDER_OPTION = { 'rules-folder': { type: 'string' } } as const;

export interface PacksAtHand {
  /** The program's packs and those of the rules folder; one of the folder takes the place of the program's with the same id. */
  readonly packs: readonly RulePack[];
  readonly folder: RulesFolder;
}

/** @param named `--rules-folder DIR`; without it the usual folder. Throws an InputError where it can't be read. */
export async function packsAtHand(named: string | undefined): Promise<PacksAtHand> {
  const folder = await readRulesFolder(named);
  if (folder.fault !== null) throw new InputError('folder-not-read', folder.fault, 'rules-folder');
  return { packs: packsWith(folder.packs), folder };
}

/** One line for each fault of each file that is not used. */
export const refusedLines = ({ folder, refused }: RulesFolder): string[] =>
  refused.flatMap(({ file, sentences }) =>
    sentences.map((sentence) => `${join(folder, file)} is not used: ${sentence}`),
  );

/** The pack that the text asks for. Throws an InputError where it is ambiguous, unknown or wrong. */
export function packFromArgument(text: string, { packs, folder }: PacksAtHand, option = 'rules'): RulePack {
  const isFileName = text.toLowerCase().endsWith('.json');
  const found = isFileName ? ({ kind: 'none', near: [] } as const) : findPack(text, packs);
  switch (found.kind) {
    case 'found':
      return found.item;
    case 'ambiguous':
      throw new InputError(
        'rules-ambiguous',
        `--${option} "${text.slice(0, 80)}" could be ${found.candidates.map((pack) => pack.file.id).join(' or ')}; name one of them.`,
        option,
      );
    case 'none':
      if (isFileName || existsSync(text)) return readRulePackFile(text);
      throw new InputError(
        'rules-unknown',
        `There is no rule pack "${text.slice(0, 80)}" and no such file; ${found.near.length > 0 ? `near are ${found.near.map((pack) => pack.file.id).join(', ')}` : `the packs are ${packs.map((pack) => pack.file.id).join(', ')}`}.${folder.refused.length === 0 ? '' : ` In ${folder.folder} ${folder.refused.map(({ file }) => file).join(', ')} can't be used ("gaugemark rules list" says why).`}`,
        option,
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
