/** The rule packs that come with the program, and how one is asked for. */
import api110420 from './packs/api-1104-20.json' with { type: 'json' };
import api110421 from './packs/api-1104-21.json' with { type: 'json' };
import asmeIx from './packs/asme-ix.json' with { type: 'json' };
import a51 from './packs/aws-a5.1.json' with { type: 'json' };
import a518 from './packs/aws-a5.18.json' with { type: 'json' };
import a518m from './packs/aws-a5.18m.json' with { type: 'json' };
import a51m from './packs/aws-a5.1m.json' with { type: 'json' };
import a520 from './packs/aws-a5.20.json' with { type: 'json' };
import a520m from './packs/aws-a5.20m.json' with { type: 'json' };
import a528 from './packs/aws-a5.28.json' with { type: 'json' };
import a528m from './packs/aws-a5.28m.json' with { type: 'json' };
import a54 from './packs/aws-a5.4.json' with { type: 'json' };
import a54m from './packs/aws-a5.4m.json' with { type: 'json' };
import a55 from './packs/aws-a5.5.json' with { type: 'json' };
import a55m from './packs/aws-a5.5m.json' with { type: 'json' };
import d11 from './packs/aws-d1.1.json' with { type: 'json' };
import d12 from './packs/aws-d1.2.json' with { type: 'json' };
import igc from './packs/imo-igc.json' with { type: 'json' };
import iso156141 from './packs/iso-15614-1.json' with { type: 'json' };
import shopPracticeLocation from './packs/shop-practice-location.json' with { type: 'json' };
import shopPractice from './packs/shop-practice.json' with { type: 'json' };
import { type Found, findByDesignation } from './designation.ts';
import { type RulePack, readRulePack } from './read-rule-pack.ts';

const FILES: readonly unknown[] = [
  asmeIx,
  d11,
  d12,
  api110420,
  api110421,
  iso156141,
  igc,
  a51,
  a51m,
  a54,
  a54m,
  a55,
  a55m,
  a518,
  a518m,
  a520,
  a520m,
  a528,
  a528m,
  shopPractice,
  shopPracticeLocation,
];

let checked: readonly RulePack[] | null = null;

/** The packs of the program, codes first. Throws where one of them is wrong: that is a bug. */
export function builtInPacks(): readonly RulePack[] {
  checked ??= FILES.map((file) => {
    const read = readRulePack(file);
    if (!read.ok)
      throw new Error(`a built-in rule pack is wrong: ${read.faults.map((f) => f.sentence).join(' ')}`);
    return read.pack;
  });
  return checked;
}

/** The program's packs with a laboratory's own; one of its own takes the place of the program's with the same id. */
export function packsWith(own: readonly RulePack[]): readonly RulePack[] {
  const ids = new Set(own.map((pack) => pack.file.id));
  return [...builtInPacks().filter((pack) => !ids.has(pack.file.id)), ...own];
}

/** Finds a pack by id, name or other spelling; ambiguity is handed back, never resolved by a guess. */
export function findPack(text: string, packs: readonly RulePack[] = builtInPacks()): Found<RulePack> {
  const named = packs.map((pack) => ({ ...pack.file, pack }));
  const found = findByDesignation(named, text);
  switch (found.kind) {
    case 'found':
      return { kind: 'found', item: found.item.pack };
    case 'ambiguous':
      return { kind: 'ambiguous', candidates: found.candidates.map((candidate) => candidate.pack) };
    case 'none':
      return { kind: 'none', near: found.near.map((near) => near.pack) };
  }
}

/** One line of `rules list`. */
export interface PackListing {
  readonly id: string;
  readonly name: string;
  readonly edition: string;
  readonly kind: 'code' | 'practice';
}

export function packListing(pack: RulePack): PackListing {
  const { id, name, edition, kind } = pack.file;
  return { id, name, edition, kind };
}
