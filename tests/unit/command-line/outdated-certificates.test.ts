/**
 * Certificates of a set, of its specimen and of a pull, each in two languages: once a pull is evaluated anew, every newest
 * one that says something else by now is named, and no other; issued again it is named no more.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { beforeAll, describe, expect, it } from 'vitest';
import { Archive } from '../../../core/archive/archive.ts';
import { certificatesOn } from '../../../core/archive/certificate-store.ts';
import type { Certified } from '../../../core/contract/certificate-requests.ts';
import type { Ask } from '../../../core/contract/index.ts';
import { outdatedCertificatesOf, subjectOf } from '../../../core/evaluation/outdated-certificate.ts';
import { CERTIFICATES_LOOKED_AT_MAX } from '../../../core/limits.ts';
import type { PaperLanguage } from '../../../core/words/paper-words.ts';
import { recorderAccess } from '../../../electron/command-line/recorder-access.ts';
import { openArchive, scratchFolder, keptPull, WALL_MS } from '../archive/made-archive.ts';
import { ran } from './in-process.ts';

let archive = '';
let ask: Ask;

beforeAll(async () => {
  const folder = mkdtempSync(join(tmpdir(), 'gaugemark-test-'));
  archive = join(folder, 'a.gaugemark');
  const opened = new Archive(archive, { programVersion: '9.9.9', wallMs: () => WALL_MS });
  keptPull(opened);
  keptPull(opened);
  opened.close();
  const recorder = await recorderAccess({ archive, toRecord: true, note: () => undefined });
  ({ ask } = recorder);
  return async () => {
    await recorder.end();
    rmSync(folder, { recursive: true, force: true });
  };
});

/** Moments are whole milliseconds, and what is of the same one is not before it. */
async function later<T>(act: () => Promise<T>): Promise<T> {
  await wait(2);
  const done = await act();
  await wait(2);
  return done;
}

const issued = (about: Certified, language: PaperLanguage): Promise<string> =>
  later(async () => (await ask('certificate.issue', { about, language })).number);

async function evaluatedAnew(pullId: number): Promise<void> {
  const { evaluations } = await ask('evaluation.history', { pullId });
  const supersedes = evaluations.at(-1)?.evaluationId ?? null;
  await later(() => ask('evaluation.keep', { pullId, options: {}, supersedes, reason: 'looked at again' }));
}

const named = async (pullId: number): Promise<string[]> =>
  (await outdatedCertificatesOf(ask, pullId)).outdated.map(({ number }) => number);

const inSet = async (name: string, pullId: number): Promise<{ setId: number; setMemberId: number }> => {
  const { setId } = await ask('set.save', {
    form: {
      name,
      purpose: 'class-exercise',
      rulePackId: 'shop-practice',
      specimenType: 'transverse-flat',
      baseMetals: [{ designation: 'plate', minimum: '10 MPa' }],
    },
  });
  const { specimenId } = await ask('pull.get', { pullId });
  const { setMemberId } = await ask('set.join', { setId, specimenId });
  return { setId, setMemberId };
};

describe('certificates about a pull that was evaluated anew', () => {
  it('are named whatever they are about and in whatever language, in window and command line', async () => {
    const { setId, setMemberId } = await inSet('Bracket', 1);
    const old = await issued({ setId }, 'en');
    await ask('laboratory.save', { name: 'Test house', lines: [] });
    const numbers = [
      await issued({ setId }, 'en'),
      await issued({ setId }, 'es'),
      await issued({ setId, setMemberId }, 'en'),
      await issued({ setId, setMemberId }, 'es'),
    ];
    expect(new Set([old, ...numbers]).size).toBe(5);
    expect(await named(1)).toEqual([]);
    await evaluatedAnew(1);
    const { outdated, beyond } = await outdatedCertificatesOf(ask, 1);
    expect(beyond).toBe(0);
    expect(outdated.map((one) => [one.number, subjectOf(one), one.setName, one.language])).toEqual([
      [numbers[3], 'specimen', 'Bracket', 'es'],
      [numbers[2], 'specimen', 'Bracket', 'en'],
      [numbers[1], 'set', 'Bracket', 'es'],
      [numbers[0], 'set', 'Bracket', 'en'],
    ]);

    const text = (await ran('archive', 'show', '1', '--archive', archive)).out;
    expect(text.match(/^Certificate .* issue it again\.$/gm)).toHaveLength(4);
    expect(text).toContain(`Certificate ${numbers[1] ?? ''} (of the set "Bracket", Spanish) was issued`);
    expect(text).toContain(
      `Certificate ${numbers[2] ?? ''} (of its specimen, in the set "Bracket", English) was issued`,
    );
    expect(text).not.toContain(old);
    const document = JSON.parse((await ran('archive', 'show', '1', '--archive', archive, '--json')).out) as {
      outdatedCertificates: unknown;
    };
    expect(document.outdatedCertificates).toEqual(outdated);

    await issued({ setId }, 'es');
    expect(await named(1)).toEqual([numbers[3], numbers[2], numbers[0]]);
    await issued({ setId, setMemberId }, 'es');
    await issued({ setId, setMemberId }, 'en');
    await issued({ setId }, 'en');
    expect(await named(1)).toEqual([]);
    expect((await ran('archive', 'show', '1', '--archive', archive)).out).not.toContain('issue it again');
  });

  it('of a pull in no set is named until it is issued by the rules of the set that it was put into', async () => {
    const alone = [await issued({ pullId: 2 }, 'en'), await issued({ pullId: 2 }, 'es')];
    await evaluatedAnew(2);
    expect(await named(2)).toEqual([alone[1], alone[0]]);
    const { setId, setMemberId } = await inSet('Later', 2);
    expect(await named(2)).toEqual([alone[1], alone[0]]);
    await issued({ setId, setMemberId }, 'en');
    expect(await named(2)).toEqual([alone[1]]);
    await issued({ pullId: 2 }, 'es');
    expect(await named(2)).toEqual([]);
  });
});

it('looks at the newest ones of a pull in very many sets, and counts the others', () => {
  const opened = openArchive(join(scratchFolder(), 'a.gaugemark'));
  keptPull(opened);
  const { connection } = opened;
  const [sets, more] = [CERTIFICATES_LOOKED_AT_MAX + 3, 2];
  const put = (sql: string, ...values: (string | number)[]) => connection.prepare(sql).run(...values);
  for (let set = 1; set <= sets; set++) {
    put('INSERT INTO specimen_set (set_id, begun_wall_ms) VALUES (?, 1)', set);
    for (let time = 1; time <= more; time++) {
      const { lastInsertRowid } = put(
        `INSERT INTO certificate (number, set_id, issued_wall_ms, utc_offset_minutes, content_sha256, program_version)
         VALUES (?, ?, 1, 0, zeroblob(32), '9.9.9')`,
        `${String(set)}-${String(time)}`,
        set,
      );
      put(
        `INSERT INTO certificate_result (certificate_id, pull_id, specimen_id, options_json, values_json, method_version)
         VALUES (?, 1, 1, '{}', '[]', '1')`,
        Number(lastInsertRowid),
      );
    }
  }
  const { newest, beyond } = certificatesOn(connection, 1);
  expect(beyond).toBe(3);
  expect(newest).toHaveLength(CERTIFICATES_LOOKED_AT_MAX);
  expect(newest[0]).toEqual({
    number: `${String(sets)}-${String(more)}`,
    issuedWallMs: 1,
    about: { setId: sets },
    setName: null,
    language: 'en',
  });
});
