/** People of a machine and signatures under certificates. */
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import type { Archive } from '../../../core/archive/archive.ts';
import { issueCertificate } from '../../../core/archive/certificate-store.ts';
import { people, personNamed, savePerson } from '../../../core/archive/people-store.ts';
import { saveSet } from '../../../core/archive/set-store.ts';
import { signCertificate, signaturesOf } from '../../../core/archive/signature-store.ts';
import { PIN_PAUSE_MS, PIN_TRIES_MAX, PinGate, hashPin } from '../../../electron/recorder/pin-gate.ts';
import { WALL_MS, openArchive, scratchFolder } from './made-archive.ts';

const archiveHere = (): Archive => openArchive(join(scratchFolder(), 'a.gaugemark'));
const PERSON = { name: 'Operator Two', sign: 'OP2', roles: ['operator'], pin: null, retired: false } as const;
const keep = (archive: Archive, given: Partial<Parameters<typeof savePerson>[1]> = {}): number =>
  archive.sets((connection, { wallMs }) => savePerson(connection, { ...PERSON, ...given }, wallMs));

describe('the people of a machine', () => {
  it('are corrected with a reason, found by name or sign, and shown as text whatever they are called', () => {
    const archive = archiveHere();
    const first = keep(archive);
    expect(() => keep(archive, { name: 'Another' })).toThrow(/OP2 belongs to another person/);
    expect(() => keep(archive, { supersedes: first })).toThrow(/reason/);
    const name = `<script>\u202Ex\u0007</script>${'n'.repeat(270)}`;
    const second = keep(archive, { name, supersedes: first, reason: 'married' });
    expect(archive.sets(people)).toMatchObject([{ person: { personId: second, name, hasPin: false } }]);
    expect(archive.sets((connection) => personNamed(connection, ' op2 '))?.person.personId).toBe(second);
    keep(archive, { name, supersedes: second, retired: true, reason: 'left' });
    expect(archive.sets((connection) => personNamed(connection, 'OP2'))).toBeNull();
    expect(archive.check({}).sound).toBe(true);
  });

  it('have their PIN kept as a salted hash, which the audit chain does not repeat', async () => {
    const archive = archiveHere();
    const [one, other] = [await hashPin('4711'), await hashPin('4711')];
    expect(Buffer.from(one.hash).equals(other.hash)).toBe(false);
    keep(archive, { pin: one });
    const [found] = archive.sets(people);
    expect(found?.person.hasPin).toBe(true);
    const chain = archive.connection.prepare('SELECT group_concat(detail_json) FROM audit').pluck().get();
    expect(String(chain)).not.toContain(Buffer.from(one.hash).toString('hex'));
  });

  it('have a few tries in a row, then a pause, also for the right PIN', async () => {
    let nowMs = 0;
    const gate = new PinGate(() => nowMs);
    const person = {
      personId: 1,
      name: 'Operator Two',
      sign: 'OP2',
      roles: [],
      hasPin: true,
      retired: false,
    };
    const who = { person, pin: await hashPin('4711') };
    await expect(gate.pass(who, undefined)).rejects.toThrow(/signs with a PIN/);
    for (let i = 0; i < PIN_TRIES_MAX; i++)
      await expect(gate.pass(who, '0000')).rejects.toThrow(/not the PIN/);
    await expect(gate.pass(who, '4711')).rejects.toThrow(/none is taken for 60 s/);
    nowMs = PIN_PAUSE_MS + 1;
    expect(await gate.pass(who, '4711')).toBe(true);
    expect(await gate.pass({ person, pin: null }, undefined)).toBe(false);
  });
});

describe('a signature', () => {
  const FORM = {
    name: 'Bridge post 12',
    purpose: 'procedure-qualification',
    rulePackId: 'iso-15614-1',
    baseMetals: [{ designation: 'S355' }],
    specimenType: 'transverse-flat',
  };
  const CONTENT = new Uint8Array(32).fill(1);
  const issued = (): { archive: Archive; setId: number; number: string } => {
    const archive = archiveHere();
    const setId = archive.sets((connection, keeping) =>
      saveSet(connection, { form: FORM }, { ...keeping, packs: builtInPacks() }),
    );
    const { number } = issue(archive, setId, CONTENT);
    return { archive, setId, number };
  };
  const issue = (archive: Archive, setId: number, contentSha256: Uint8Array) =>
    archive.sets((connection, keeping) =>
      issueCertificate(connection, {
        about: { setId },
        contentSha256,
        utcOffsetMinutes: 60,
        results: [],
        ...keeping,
      }),
    );
  const sign = (archive: Archive, number: string, contentSha256 = CONTENT, printedName = 'A. Person') =>
    archive.sets((connection) =>
      signCertificate(
        connection,
        {
          number,
          contentSha256,
          printedName,
          meaning: 'tested by',
          personId: null,
          byPin: false,
          utcOffsetMinutes: 60,
        },
        WALL_MS,
      ),
    );

  it('names the certificate, the hash of what it says, the moment with its offset, and the meaning', () => {
    const { archive, number } = issued();
    const name = `<b>\u202EA. Person</b>`;
    sign(archive, number, CONTENT, name);
    expect(archive.sets((connection) => signaturesOf(connection, number))).toMatchObject([
      {
        number,
        contentSha256: '01'.repeat(32),
        printedName: name,
        meaning: 'tested by',
        wallMs: WALL_MS,
        utcOffsetMinutes: 60,
      },
    ]);
    expect(() => sign(archive, number, CONTENT, name)).toThrow(/is signed "tested by".* already/);
    for (const sql of ["UPDATE signature SET printed_name = 'x'", 'DELETE FROM signature'])
      expect(() => archive.connection.prepare(sql).run()).toThrow(/never (?:changed|deleted)/);
    expect(archive.check({}).sound).toBe(true);
  });

  it('is refused for what the certificate did not say, and does not pass on to a later one', () => {
    const { archive, setId, number } = issued();
    const later = new Uint8Array(32).fill(2);
    expect(() => sign(archive, number, later)).toThrow(/has changed since/);
    expect(() => sign(archive, '2026-9999-beef')).toThrow(/No certificate/);
    sign(archive, number);
    const next = issue(archive, setId, later);
    expect(archive.sets((connection) => signaturesOf(connection, next.number))).toEqual([]);
  });
});
