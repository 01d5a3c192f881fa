/** A laboratory's own rule packs, from a folder. A file that is wrong is told with what is wrong, and never used. */
import { createHash } from 'node:crypto';
import { open, readdir } from 'node:fs/promises';
import { homedir } from 'node:os';
import { constants } from 'node:fs';
import { join, resolve } from 'node:path';
import { packsWith } from '../../core/acceptance/packs.ts';
import { type RulePack, readRulePackText } from '../../core/acceptance/read-rule-pack.ts';
import type { ReplyOf } from '../../core/contract/index.ts';
import type { RefusedPackFile } from '../../core/contract/rule-pack-requests.ts';
import { JSON_FILE_BYTES_MAX } from '../../core/limits.ts';
import { usualRulesFolder } from './rules-folder-place.ts';

/** Packs read from one folder; a laboratory has a handful. */
export const FOLDER_PACKS_MAX = 200;
/** All packs of a folder together; one has a few kilobytes. */
const FOLDER_BYTES_MAX = 16 * 1_048_576;

export interface RulesFolder {
  readonly folder: string;
  /** Why the folder itself can't be read; null also where the usual one isn't there. */
  readonly fault: string | null;
  readonly packs: readonly RulePack[];
  readonly refused: readonly RefusedPackFile[];
}

/** @param named the folder that a person named; absent for the usual one, which need not be there. Never throws. */
export async function readRulesFolder(named?: string): Promise<RulesFolder> {
  const folder =
    named === undefined
      ? usualRulesFolder({ platform: process.platform, home: homedir(), environment: process.env })
      : resolve(named);
  let names: string[];
  try {
    names = (await readdir(folder)).filter((name) => name.toLowerCase().endsWith('.json')).sort();
  } catch (error) {
    const missing = named === undefined && codeOf(error) === 'ENOENT';
    const fault = missing
      ? null
      : `${folder}: this folder can't be read (${codeOf(error)}); name a folder that holds rule packs.`;
    return { folder, fault, packs: [], refused: [] };
  }
  if (names.length > FOLDER_PACKS_MAX) {
    const fault = `${folder}: there are ${String(names.length)} files, at most ${String(FOLDER_PACKS_MAX)} are read; name a folder that holds rule packs only. None of them is used.`;
    return { folder, fault, packs: [], refused: [] };
  }
  return { folder, fault: null, ...(await readPacks(folder, names)) };
}

/** The program's packs and those of the folder. */
export async function packsWithRulesFolder(named?: string): Promise<readonly RulePack[]> {
  return packsWith((await readRulesFolder(named)).packs);
}

/** As the contract says it. */
export const ownRulePacks = ({ packs, ...rest }: RulesFolder): ReplyOf<'rules.folder'> => ({
  ...rest,
  refused: [...rest.refused],
  packs: packs.flatMap(({ file, origin }) => (origin === undefined ? [] : [{ origin, pack: file }])),
});

async function readPacks(
  folder: string,
  names: readonly string[],
): Promise<Pick<RulesFolder, 'packs' | 'refused'>> {
  const read: (RulePack & { readonly origin: NonNullable<RulePack['origin']> })[] = [];
  const refused: RefusedPackFile[] = [];
  let bytesLeft = FOLDER_BYTES_MAX;
  for (const file of names) {
    const bytes = await bytesOf(join(folder, file), Math.min(JSON_FILE_BYTES_MAX, bytesLeft));
    if (typeof bytes === 'string') {
      refused.push({ file, sentences: [bytes] });
      continue;
    }
    bytesLeft -= bytes.length;
    const outcome = readRulePackText(bytes.toString('utf8'));
    if (outcome.ok)
      read.push({
        ...outcome.pack,
        origin: { file, sha256: createHash('sha256').update(bytes).digest('hex') },
      });
    else refused.push({ file, sentences: outcome.faults.map(({ sentence }) => sentence) });
  }
  const { once, twice } = byId(read);
  return { packs: once, refused: [...refused, ...twice] };
}

/** Of two files with one id nobody can say which is meant, so neither is used. */
function byId<Pack extends RulePack & { readonly origin: { readonly file: string } }>(
  read: readonly Pack[],
): { readonly once: Pack[]; readonly twice: RefusedPackFile[] } {
  const others = (pack: Pack): Pack[] =>
    read.filter((other) => other !== pack && other.file.id === pack.file.id);
  return {
    once: read.filter((pack) => others(pack).length === 0),
    twice: read.flatMap((pack) => {
      const [other] = others(pack);
      return other === undefined
        ? []
        : [
            {
              file: pack.origin.file,
              sentences: [
                `id: "${pack.file.id}" is the id of ${other.origin.file} too; keep one of the files, or give each its own id.`,
              ],
            },
          ];
    }),
  };
}

/** The bytes, or why they can't be read. */
async function bytesOf(path: string, bytesMax: number): Promise<Buffer | string> {
  try {
    // Without O_NONBLOCK a named pipe would hold the program until somebody writes to it.
    const file = await open(path, constants.O_RDONLY | ((constants.O_NONBLOCK as number | undefined) ?? 0));
    try {
      const facts = await file.stat();
      if (!facts.isFile()) return 'This is no file but a folder or device; take it out of the folder.';
      if (facts.size > bytesMax)
        return `It has ${String(facts.size)} bytes, at most ${String(bytesMax)} are read here; a rule pack has a few kilobytes.`;
      return await file.readFile();
    } finally {
      await file.close();
    }
  } catch (error) {
    return `It can't be read (${codeOf(error)}); check its permissions.`;
  }
}

const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error ? String(error.code) : 'unknown reason';
