/** `gaugemark archive evaluate ID --line-format FILE`: the raw bytes of a pull read again by another readout profile. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { PROFILE, keptPull, openArchive, scratchFolder } from '../archive/made-archive.ts';
import { ran } from './in-process.ts';

/** 1 lbf in N, exactly as NIST SP 811, B.8 gives it. */
const LBF_N = 4.4482216152605;

interface Shown {
  readonly results: Readonly<Record<string, { value: number }>>;
  readonly remarks: readonly string[];
}

function archiveWithPull() {
  const folder = scratchFolder();
  const path = join(folder, 'a.gaugemark');
  const archive = openArchive(path);
  keptPull(archive, 20, 100);
  archive.close();
  const profile = (name: string, change: object): string => {
    const file = join(folder, `${name}.json`);
    writeFileSync(file, JSON.stringify({ ...PROFILE, name, ...change }));
    return file;
  };
  return { path, profile };
}

async function asked(path: string, action: string, ...args: string[]): Promise<Shown> {
  const { code, out, err } = await ran('archive', action, '1', '--archive', path, ...args, '--json');
  expect(code, err).toBe(0);
  return JSON.parse(out) as Shown;
}
const force = ({ results }: Shown): number => results.Fmax?.value ?? Number.NaN;

it('a pull whose readout had been set to N is read again, stands so, is found sound, and goes back as recorded', async () => {
  const { path, profile } = archiveWithPull();
  const inN = profile('bench readout in N', {
    channels: [
      { field: 'load', quantity: 'force', unit: { kind: 'fixed', unit: 'N' } },
      { field: 'extension', quantity: 'extension', unit: { kind: 'fixed', unit: 'in' } },
    ],
  });
  const recorded = force(await asked(path, 'show'));
  // Shown first: nothing stands yet.
  expect(force(await asked(path, 'show', '--line-format', inN))).toBeCloseTo(recorded / LBF_N, 6);
  expect(force(await asked(path, 'show'))).toBe(recorded);

  const reason = ['--reason', 'the readout was set to N'] as const;
  const kept = await asked(path, 'evaluate', '--line-format', inN, ...reason);
  expect(force(kept)).toBeCloseTo(recorded / LBF_N, 6);
  expect(kept.remarks[0]).toMatch(/“bench readout in N”: 2000 readings \(2000 as recorded\), 0 lines/);
  expect(force(await asked(path, 'show'))).toBe(force(kept));
  const { out } = await ran('archive', 'history', '1', '--archive', path);
  expect(out).toMatch(/The lines of the record are read by the readout profile “bench readout in N”/);

  // What was recorded is as it was, and the kept results come out again.
  const check = await ran('archive', 'check', '--archive', path);
  expect([check.code, check.out]).toEqual([0, expect.stringMatching(/results come out again/)]);
  const back = await asked(path, 'evaluate', '--as-recorded', '--reason', 'it was lbf after all');
  expect(force(back)).toBe(recorded);
});

it('a profile that no line fits, and a file without lines, are refused with what to do', async () => {
  const { path, profile } = archiveWithPull();
  const other = profile('semicolons', {
    format: { kind: 'delimited', delimiter: ';', fields: ['load', 'extension'] },
  });
  const none = await ran('archive', 'show', '1', '--archive', path, '--line-format', other);
  expect([none.code, none.err]).toEqual([1, expect.stringMatching(/No line of pull 1 fits .*semicolons/)]);
  const curve = new URL('../../../fixtures/curves/42crmos4-46NT71.csv', import.meta.url).pathname;
  const file = await ran('evaluate', curve, '--line-format', other);
  expect([file.code, file.err]).toEqual([2, expect.stringMatching(/no lines of a readout/)]);
});
