/** A pull made void: kept as it was, told everywhere, counted nowhere. */
import { copyFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import type { Archive } from '../../../core/archive/archive.ts';
import { joinSet } from '../../../core/archive/member-store.ts';
import { getSet, saveSet } from '../../../core/archive/set-store.ts';
import { type VoidPull, voidPull } from '../../../core/archive/void-store.ts';
import { importFile } from '../../../electron/recorder/import-file.ts';
import { ran } from '../command-line/in-process.ts';
import {
  END,
  SPECIMEN,
  WALL_MS,
  batch,
  keptPull,
  newPull,
  openArchive,
  scratchFolder,
} from './made-archive.ts';

const FORM = {
  name: 'Bridge post 12',
  purpose: 'procedure-qualification',
  rulePackId: 'iso-15614-1',
  baseMetals: [{ designation: 'S355' }],
  specimenType: 'transverse-flat',
};

const makeVoid = (archive: Archive, given: Partial<VoidPull> & { pullId: number }): void => {
  archive.sets((connection, { wallMs }) =>
    voidPull(
      connection,
      { reason: 'the grips slipped', by: 'operator 2', utcOffsetMinutes: 60, ...given },
      wallMs,
    ),
  );
};
const archiveWithPull = (): { archive: Archive; pullId: number } => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  return { archive, pullId: keptPull(archive) };
};

describe('a void pull', () => {
  it('says by whom, when and why, and is otherwise what it was', () => {
    const { archive, pullId } = archiveWithPull();
    const before = archive.getPull(pullId);
    expect(before.voided).toBeNull();
    makeVoid(archive, { pullId });
    const voided = { reason: 'the grips slipped', by: 'operator 2', wallMs: WALL_MS, utcOffsetMinutes: 60 };
    expect(archive.getPull(pullId)).toEqual({ ...before, voided });
    expect(archive.listPulls({ limit: 5 }).items[0]?.voided).toEqual(voided);
    expect(archive.check({}).sound).toBe(true);
  });

  it('stays void, by other means too', () => {
    const { archive, pullId } = archiveWithPull();
    makeVoid(archive, { pullId });
    expect(() => makeVoid(archive, { pullId, reason: 'again' })).toThrow(/void already: the grips slipped/);
    for (const sql of ["UPDATE pull_void SET reason = 'none'", 'DELETE FROM pull_void'])
      expect(() => archive.connection.prepare(sql).run()).toThrow(/never (?:changed|deleted)/);
    const row = archive.connection
      .prepare("SELECT detail_json FROM audit WHERE subject = 'pull_void'")
      .pluck();
    expect(row.get()).toContain('the grips slipped');
  });

  it('is refused for a record that is open or not there', () => {
    const { archive } = archiveWithPull();
    const open = archive.beginPull(newPull(1));
    expect(() => makeVoid(archive, { pullId: open })).toThrow(/still open/);
    expect(() => makeVoid(archive, { pullId: 99 })).toThrow(/no pull 99/);
  });

  it('counts in no set: the pull before it does, or none', () => {
    const { archive, pullId } = archiveWithPull();
    const setId = archive.sets((connection, keeping) =>
      saveSet(connection, { form: FORM }, { ...keeping, packs: builtInPacks() }),
    );
    archive.sets((connection) => joinSet(connection, { setId, specimenId: 1 }, WALL_MS));
    const again = archive.beginPull(newPull(1));
    archive.closePull(batch(again), END);
    const member = () => archive.sets((connection) => getSet(connection, setId)).members[0];
    expect(member()).toMatchObject({ pullId: again, voidedPulls: [] });
    makeVoid(archive, { pullId: again });
    expect(member()).toMatchObject({
      pullId,
      voidedPulls: [{ pullId: again, voided: { by: 'operator 2' } }],
    });
    makeVoid(archive, { pullId });
    expect(member()?.pullId).toBeNull();
  });

  it('has to be one before a file is imported in its place in a set', () => {
    const { archive, pullId } = archiveWithPull();
    const setId = archive.sets((connection, keeping) =>
      saveSet(connection, { form: FORM }, { ...keeping, packs: builtInPacks() }),
    );
    const setMemberId = archive.sets((connection) => joinSet(connection, { setId, specimenId: 1 }, WALL_MS));
    // What is measured again is the same specimen.
    const corrected = archive.saveSpecimen({ specimen: SPECIMEN, supersedes: 1, reason: 'measured again' });
    const file = join(scratchFolder(), 'curve.csv');
    writeFileSync(file, 'time_s,force_kN\n0,1\n1,2\n2,1\n');
    const imports = (specimen: number) => importFile(archive, { file, specimen }).pullId;
    for (const specimen of [1, corrected])
      expect(() => imports(specimen)).toThrow(
        /pull 1 counts in the set “Bridge post 12”; make that pull void/,
      );
    expect(archive.info().pullCount).toBe(1);
    makeVoid(archive, { pullId });
    const pull = imports(corrected);
    expect(archive.sets((connection) => getSet(connection, setId)).members).toMatchObject([
      { setMemberId, pullId: pull },
    ]);
  });

  it('can be in an archive that the first version left', () => {
    const path = join(scratchFolder(), 'old.gaugemark');
    copyFileSync(new URL('../../../fixtures/archives/form-1.gaugemark', import.meta.url), path);
    const archive = openArchive(path);
    makeVoid(archive, { pullId: 1 });
    expect(archive.getPull(1).voided?.reason).toBe('the grips slipped');
  });
});

describe('gaugemark archive void', () => {
  const onDisk = (): string => {
    const path = join(scratchFolder(), 'a.gaugemark');
    const archive = openArchive(path);
    keptPull(archive);
    archive.close();
    return path;
  };

  it('makes a pull void with its reason, as list, show and their documents then say', async () => {
    const path = onDisk();
    const reason = '<b>slipped</b> \u202Eback';
    const done = await ran(
      'archive',
      'void',
      '--pull',
      '1',
      '--reason',
      reason,
      '--operator',
      'OP2',
      '--archive',
      path,
    );
    expect([done.code, done.out]).toEqual([0, expect.stringContaining('pull 1 is void (OP2, ')]);
    expect((await ran('archive', 'list', '--archive', path)).out).toContain('VOID: <b>slipped</b>');
    expect((await ran('archive', 'show', '1', '--archive', path)).out).toMatch(
      /^VOID: pull 1 is void \(OP2/m,
    );
    const { out } = await ran('archive', 'show', '1', '--archive', path, '--json');
    expect(JSON.parse(out)).toMatchObject({ pull: { voided: { reason, by: 'OP2' } } });
    const again = await ran('archive', 'void', '--pull', '1', '--reason', 'x', '--archive', path);
    expect([again.code, again.err]).toEqual([2, expect.stringContaining('void already')]);
  });

  it('asks for the number and the reason', async () => {
    const path = onDisk();
    const told = async (...args: string[]) => (await ran('archive', 'void', '--archive', path, ...args)).err;
    expect(await told('--reason', 'x')).toMatch(/--pull ID is missing/);
    expect(await told('--pull', '1', '--reason', '  ')).toMatch(/--reason TEXT is missing/);
    expect(await told('--pull=-1', '--reason', 'x')).toMatch(/no number of a pull/);
    expect(await told('--pull', '-1', '--reason', 'x')).toMatch(
      /--pull is followed by .* begins with a dash/,
    );
  });
});
