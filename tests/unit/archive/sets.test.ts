import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import type { Archive } from '../../../core/archive/archive.ts';
import { issueCertificate, lastIssued } from '../../../core/archive/certificate-store.ts';
import { joinSet, overrideMember, overridesOf, voidMember } from '../../../core/archive/member-store.ts';
import { getSet, listSets, saveSet } from '../../../core/archive/set-store.ts';
import { SPECIMEN, WALL_MS, newPull, openArchive, scratchFolder } from './made-archive.ts';

const FORM = {
  name: 'Bridge post 12',
  purpose: 'procedure-qualification',
  rulePackId: 'iso-15614-1',
  baseMetals: [{ designation: 'S355' }],
  specimenType: 'transverse-flat',
};

const archiveWithSet = (): { archive: Archive; setId: number } => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  return { archive, setId: save(archive, FORM) };
};

const save = (archive: Archive, form: unknown, more: { setId?: number; reason?: string } = {}): number =>
  archive.sets((connection, keeping) =>
    saveSet(connection, { form, ...more }, { ...keeping, packs: builtInPacks() }),
  );
const set = (archive: Archive, setId: number) => archive.sets((connection) => getSet(connection, setId));
const putIn = (archive: Archive, given: Parameters<typeof joinSet>[1]): number =>
  archive.sets((connection) => joinSet(connection, given, WALL_MS));

describe('a set in the archive', () => {
  it('keeps the whole rule pack of that day, so that packs of later programs change nothing', () => {
    const { archive, setId } = archiveWithSet();
    const kept = set(archive, setId);
    expect(kept.set.form.name).toBe('Bridge post 12');
    expect(kept.set.pack.id).toBe('iso-15614-1');
    expect(JSON.stringify(kept.set.pack)).toContain('S355');
  });

  it('is corrected with a reason only, and then the correction is what stands', () => {
    const { archive, setId } = archiveWithSet();
    expect(() => save(archive, { ...FORM, position: 'PA' }, { setId })).toThrow(/reason/);
    save(archive, { ...FORM, position: 'PA' }, { setId, reason: 'position was missing' });
    expect(set(archive, setId)).toMatchObject({
      reason: 'position was missing',
      set: { form: { position: 'PA' } },
    });
    expect(archive.sets((connection) => listSets(connection, { limit: 10 })).items).toHaveLength(1);
  });

  it('is refused with the field where the form is wrong, and nothing is kept', () => {
    const { archive } = archiveWithSet();
    expect(() => save(archive, { ...FORM, rulePackId: 'nobody-knows-it' })).toThrow(/rulePackId/);
    expect(archive.sets((connection) => listSets(connection, { limit: 10 })).items).toHaveLength(1);
  });

  it('finds the newest correction of a member and the newest pull of any of them', () => {
    const { archive, setId } = archiveWithSet();
    const first = archive.saveSpecimen({ specimen: SPECIMEN });
    putIn(archive, { setId, specimenId: first });
    const pullId = archive.beginPull(newPull(first));
    const corrected = archive.saveSpecimen({
      specimen: { ...SPECIMEN, gaugeLength: '51 mm' },
      supersedes: first,
      reason: 'measured again',
    });
    expect(set(archive, setId).members).toMatchObject([
      { specimenId: corrected, firstSpecimenId: first, specimenName: 'T-1', pullId },
    ]);
  });

  it('finds the pull of a specimen that was corrected before it was put into the set', () => {
    const { archive, setId } = archiveWithSet();
    const first = archive.saveSpecimen({ specimen: SPECIMEN });
    const pullId = archive.beginPull(newPull(first));
    const measuredAfter = archive.saveSpecimen({
      specimen: { ...SPECIMEN, gaugeLength: '51 mm' },
      supersedes: first,
      reason: 'measured after the break',
    });
    putIn(archive, { setId, specimenId: measuredAfter });
    expect(set(archive, setId).members).toMatchObject([{ specimenId: measuredAfter, pullId }]);
  });

  it('takes a specimen once, and a retest only of one that is in it, with a reason', () => {
    const { archive, setId } = archiveWithSet();
    const first = archive.saveSpecimen({ specimen: SPECIMEN });
    const second = archive.saveSpecimen({ specimen: { ...SPECIMEN, id: 'T-2' } });
    const member = putIn(archive, { setId, specimenId: first });
    expect(() => putIn(archive, { setId, specimenId: first })).toThrow(/in the set already/);
    expect(() => putIn(archive, { setId, specimenId: second, retestOf: member })).toThrow(/reason/);
    expect(() => putIn(archive, { setId, specimenId: second, retestOf: member + 7, reason: 'slag' })).toThrow(
      /no member/,
    );
    putIn(archive, { setId, specimenId: second, retestOf: member, reason: 'slag line' });
    expect(set(archive, setId).members[1]).toMatchObject({ retestOf: member, retestReason: 'slag line' });
  });

  it('never loses a member: one made void stays with who and why, and is made void once', () => {
    const { archive, setId } = archiveWithSet();
    const member = putIn(archive, { setId, specimenId: archive.saveSpecimen({ specimen: SPECIMEN }) });
    const makeVoid = () =>
      archive.sets((connection) =>
        voidMember(connection, { setMemberId: member, by: 'operator 2', reason: 'wrong plate' }, WALL_MS),
      );
    makeVoid();
    expect(set(archive, setId).members[0]?.voided).toEqual({ by: 'operator 2', reason: 'wrong plate' });
    expect(makeVoid).toThrow(/already, by operator 2/);
    expect(() => archive.connection.prepare('DELETE FROM set_member').run()).toThrow(/never deleted/);
  });

  it('keeps every override in order, with the time of the place', () => {
    const { archive, setId } = archiveWithSet();
    const setMemberId = putIn(archive, { setId, specimenId: archive.saveSpecimen({ specimen: SPECIMEN }) });
    for (const to of ['reject', 'accept'] as const)
      archive.sets((connection) =>
        overrideMember(
          connection,
          { setMemberId, to, person: 'Q. Inspector', reason: `now ${to}`, utcOffsetMinutes: 120 },
          WALL_MS,
        ),
      );
    expect(archive.sets((connection) => overridesOf(connection, setMemberId))).toEqual([
      { to: 'reject', person: 'Q. Inspector', reason: 'now reject', at: '2026-03-04T11:30:00.000+02:00' },
      { to: 'accept', person: 'Q. Inspector', reason: 'now accept', at: '2026-03-04T11:30:00.000+02:00' },
    ]);
  });

  it('gives each certificate a number of its own, and the same content the number it had', () => {
    const { archive, setId } = archiveWithSet();
    const [a, b] = [Buffer.alloc(32, 1), Buffer.alloc(32, 2)];
    const issue = (contentSha256: Uint8Array) =>
      archive.sets((connection, keeping) =>
        issueCertificate(connection, {
          about: { setId },
          contentSha256,
          utcOffsetMinutes: 60,
          results: [],
          ...keeping,
        }),
      );
    const first = issue(a);
    expect(first.number).toMatch(/^2026-0001-[0-9a-f]{4}$/);
    expect(archive.sets((c) => lastIssued(c, { setId }, a))).toMatchObject({
      number: first.number,
      saysTheSame: true,
    });
    expect(archive.sets((c) => lastIssued(c, { setId }, b))).toMatchObject({
      number: first.number,
      saysTheSame: false,
    });
    expect(issue(b).number).toMatch(/^2026-0002-/);
  });

  it('stands in the audit chain, which stays whole', () => {
    const { archive, setId } = archiveWithSet();
    putIn(archive, { setId, specimenId: archive.saveSpecimen({ specimen: SPECIMEN }) });
    expect(archive.check({}).lines.find((line) => line.name === 'audit chain')).toMatchObject({ ok: true });
  });
});
