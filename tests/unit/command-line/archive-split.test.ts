/** `gaugemark archive split --by-year`: identities, hashes and sets kept, the original as it was, and a search through all. */
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, readdirSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import { Archive } from '../../../core/archive/archive.ts';
import { issueCertificate } from '../../../core/archive/certificate-store.ts';
import { joinSet } from '../../../core/archive/member-store.ts';
import { people, savePerson } from '../../../core/archive/people-store.ts';
import { saveSet } from '../../../core/archive/set-store.ts';
import { signCertificate } from '../../../core/archive/signature-store.ts';
import type { Connection } from '../../../core/archive/sql.ts';
import type { Certified } from '../../../core/contract/certificate-requests.ts';
import {
  SPECIMEN,
  keptPull,
  newPull,
  openArchive,
  scratchFolder,
  batch,
  END,
} from '../archive/made-archive.ts';
import { ran } from './in-process.ts';

const NEW_YEAR = Date.UTC(2025, 0, 1);
const SET = {
  name: 'Coupon over New Year',
  purpose: 'procedure-qualification',
  rulePackId: 'asme-ix',
  baseMetals: [{ designation: 'SA-36', minimum: '58 ksi' }],
  specimenType: 'transverse-flat',
} as const;

/** Begun at that moment; an hour east of Greenwich it is a year later for the last hour of a year. */
function pullAt(archive: Archive, name: string, startedWallMs: number): number {
  const specimenId = archive.saveSpecimen({ specimen: { ...SPECIMEN, id: name } });
  const pullId = archive.beginPull(newPull(specimenId, { startedWallMs, startedUtcOffsetMinutes: 60 }));
  archive.closePull(batch(pullId), END);
  return pullId;
}

/** By a person of the register. */
function signedCertificate(connection: Connection, about: Certified, pullIds: readonly number[]): void {
  const contentSha256 = new Uint8Array(32);
  const { number } = issueCertificate(connection, {
    ...{ about, contentSha256, wallMs: NEW_YEAR, utcOffsetMinutes: 60, programVersion: '9.9.9' },
    results: pullIds.map((pullId) => ({
      pullId,
      specimenId: pullId,
      options: {},
      values: [],
      methodVersion: '1',
    })),
  });
  const personId =
    people(connection)[0]?.person.personId ??
    savePerson(connection, { name: 'A. Person', sign: 'AP', roles: [], pin: null, retired: false }, NEW_YEAR);
  signCertificate(
    connection,
    {
      ...{ number, contentSha256, printedName: 'A. Person', meaning: 'tested by' },
      ...{ personId, byPin: false, utcOffsetMinutes: 60 },
    },
    NEW_YEAR,
  );
}

it('writes a file a year, checked, with identities and whole sets, and leaves the original as it was', async () => {
  const path = join(scratchFolder(), 'shop.gaugemark');
  const archive = openArchive(path);
  keptPull(archive);
  pullAt(archive, 'before', NEW_YEAR - 2 * 3_600_000);
  pullAt(archive, 'after', NEW_YEAR - 1_800_000);
  const inSet = [
    pullAt(archive, 'set a', NEW_YEAR - 86_400_000),
    pullAt(archive, 'set b', NEW_YEAR + 86_400_000),
  ];
  const identity = archive.identity();
  archive.sets((connection) => {
    const keeping = { wallMs: NEW_YEAR, programVersion: '9.9.9', packs: builtInPacks() };
    const setId = saveSet(connection, { form: { ...SET, baseMetals: [...SET.baseMetals] } }, keeping);
    for (const pullId of inSet)
      joinSet(connection, { setId, specimenId: archive.getPull(pullId).specimenId }, NEW_YEAR);
    const unpulled = archive.saveSpecimen({ specimen: { ...SPECIMEN, id: 'set c' } });
    joinSet(connection, { setId, specimenId: unpulled }, NEW_YEAR);
    signedCertificate(connection, { setId }, inSet);
    // Rests on pulls of two years.
    signedCertificate(connection, { pullId: 2 }, [2, 3]);
  });
  archive.close();
  const hash = (): string => createHash('sha256').update(readFileSync(path)).digest('hex');
  const before = hash();
  const into = join(dirname(path), 'years');
  mkdirSync(into);

  const told = await ran('archive', 'split', '--by-year', '--archive', path, '--into', into);
  expect(told.code, told.err).toBe(0);
  expect(told.out).toContain('Nothing was written');
  expect(readdirSync(into)).toEqual([]);

  const done = await ran('archive', 'split', '--by-year', '--archive', path, '--into', into, '--yes');
  expect(done.code, done.err).toBe(0);
  const parts = readdirSync(into);
  expect(parts).toEqual(['shop-2024.gaugemark', 'shop-2025.gaugemark', 'shop-2026.gaugemark']);
  expect(hash(), 'the original is only read').toBe(before);

  const numbers: unknown[][] = [];
  const names = parts.map((name) => {
    const part = new Archive(join(into, name), {
      programVersion: '9.9.9',
      wallMs: Date.now,
      purpose: 'read',
    });
    try {
      const origins = part.connection.prepare('SELECT archive_identity FROM pull_origin').pluck().all();
      expect(new Set(origins)).toEqual(new Set([identity]));
      expect(part.sets(people).map(({ person }) => person.name)).toEqual(['A. Person']);
      numbers.push(part.connection.prepare('SELECT number FROM certificate').pluck().all());
      expect(part.check({}).lines.filter(({ ok }) => !ok)).toEqual([]);
      const said = part.connection
        .prepare("SELECT detail_json FROM audit WHERE what LIKE '%split%'")
        .pluck()
        .all();
      expect(String(said)).toContain(identity);
      return part
        .listPulls({ limit: 50 })
        .items.map((pull) => pull.specimenName)
        .sort();
    } finally {
      part.close();
    }
  });
  expect(names[0]).toEqual(['before', 'set a', 'set b']);
  expect(names[1]).toEqual(['after']);
  // The one of the set, with its number; the one that rests on two years is in the original only.
  expect(numbers).toEqual([[expect.stringMatching(/^2025-0001-/)], [], []]);
  expect(told.out).toContain('Certificates that rest on pulls of several years are in the original only: 1.');
  const shown = await ran('set', 'show', '1', '--archive', join(into, parts[0] ?? ''));
  expect(shown.out).toContain('set c');

  const [first = '', ...others] = parts.map((name) => join(into, name));
  const search = await ran(
    'archive',
    'search',
    'set',
    '--archive',
    first,
    ...others.flatMap((one) => ['--with', one]),
    '--json',
  );
  expect(search.code, search.err).toBe(0);
  const { pulls } = JSON.parse(search.out) as { pulls: { archive: string; specimenName: string }[] };
  expect(pulls.map((pull) => `${basename(pull.archive)} ${pull.specimenName}`)).toEqual([
    'shop-2024.gaugemark set b',
    'shop-2024.gaugemark set a',
  ]);

  const again = await ran('archive', 'split', '--by-year', '--archive', path, '--into', into, '--yes');
  expect(again.code).toBe(2);
  expect(again.err).toMatch(/exists already and is not written over/);
});
