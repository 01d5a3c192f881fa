/** `gaugemark certificate --sign` and `gaugemark people`: a certificate signed, printed again, and changed later. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import { joinSet } from '../../../core/archive/member-store.ts';
import { saveSet } from '../../../core/archive/set-store.ts';
import { WALL_MS, keptPull, openArchive, scratchFolder } from '../archive/made-archive.ts';
import { ran } from './in-process.ts';

const FORM = {
  name: 'Bridge post 12',
  purpose: 'procedure-qualification',
  rulePackId: 'iso-15614-1',
  baseMetals: [{ designation: 'S355' }],
  specimenType: 'transverse-flat',
};

it('a signature stands on the certificate when it is printed again, and not on the next one', async () => {
  const folder = scratchFolder();
  const path = join(folder, 'a.gaugemark');
  const made = openArchive(path);
  keptPull(made, 20, 100);
  made.sets((connection, keeping) => {
    const setId = saveSet(connection, { form: FORM }, { ...keeping, packs: builtInPacks() });
    joinSet(connection, { setId, specimenId: 1 }, WALL_MS);
  });
  made.close();
  const file = (name: string, text: string): string => {
    writeFileSync(join(folder, name), text);
    return join(folder, name);
  };
  const right = file('pin', '4711\n');
  const person = ['--name', 'Operator Two', '--sign', 'OP2', '--role', 'operator', '--new-pin-file', right];
  expect((await ran('people', 'add', '--archive', path, ...person)).out).toMatch(/Operator Two.*with a PIN/);

  const certificate = (out: string, ...args: string[]) =>
    ran('certificate', '--set', '1', '--archive', path, '--out', join(folder, out), ...args);
  const sign = ['--sign', 'op2', '--meaning', 'tested by'];
  expect((await certificate('0.csv', ...sign)).err).toMatch(/signs with a PIN here/);
  const wrong = await certificate('0.csv', ...sign, '--pin-file', file('wrong', '0000'));
  expect(wrong.err).toMatch(/not the PIN/);
  const signed = await certificate('1.csv', ...sign, '--pin-file', right);
  expect([signed.code, signed.err]).toEqual([0, '']);
  const line = /signatures.*tested by.*Operator Two, .*T.*(?:Z|[+-]\d\d:\d\d)/;
  expect(readFileSync(join(folder, '1.csv'), 'utf8')).toMatch(line);
  await certificate('2.csv');
  expect(readFileSync(join(folder, '2.csv'), 'utf8')).toMatch(line);

  expect((await ran('archive', 'check', '--archive', path)).out).toMatch(
    /certificate \S+, pull 1: its \d+ results come out again/,
  );
  await ran('archive', 'void', '--pull', '1', '--reason', 'the grips slipped', '--archive', path);
  await certificate('3.csv');
  const next = readFileSync(join(folder, '3.csv'), 'utf8');
  expect(next).toMatch(/pull 1 is void .*the grips slipped/);
  expect(next).not.toMatch(/tested by/);
});
