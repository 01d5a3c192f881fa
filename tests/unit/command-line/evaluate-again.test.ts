/** `gaugemark archive evaluate-again`: what changed in a whole search, listed first, kept with a reason when asked. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { keepEvaluation } from '../../../core/archive/evaluation-store.ts';
import { recorderAccess } from '../../../electron/command-line/recorder-access.ts';
import { keptPull, openArchive, scratchFolder } from '../archive/made-archive.ts';
import { ran } from './in-process.ts';

const SET = {
  purpose: 'procedure-qualification',
  rulePackId: 'asme-ix',
  specimenType: 'transverse-flat',
} as const;

interface Answer {
  readonly evaluated: number;
  readonly nothingStatedBefore: readonly { readonly pullId: number; readonly specimen: string }[];
  readonly changed: readonly {
    readonly pullId: number;
    readonly against: { readonly from: string; readonly methodVersion: string };
    readonly changes: readonly { readonly symbol: string; readonly before: { value: number } | null }[];
    readonly kept: number | null;
  }[];
  readonly sets: readonly unknown[];
}

async function again(path: string, ...args: string[]): Promise<Answer> {
  const { code, out, err } = await ran('archive', 'evaluate-again', ...args, '--archive', path, '--json');
  expect(code, err).toBe(0);
  return JSON.parse(out) as Answer;
}

it('a value that an earlier program gave otherwise is listed; kept, it names what it supersedes and changes no more', async () => {
  const path = join(scratchFolder(), 'a.gaugemark');
  const archive = openArchive(path);
  const pulls = [keptPull(archive, 20, 100), keptPull(archive, 20, 100)];
  expect(pulls).toHaveLength(2);
  // As an earlier program would have kept it: another method, one value that this one does not give.
  archive.sets((connection, keeping) =>
    keepEvaluation(
      connection,
      {
        pullId: 1,
        specimenId: archive.getPull(1).specimenId,
        options: {},
        sources: [],
        values: [{ symbol: 'Fmax', value: 1, unit: 'N' }],
        methodVersion: '1',
        supersedes: null,
        reason: 'first year',
      },
      keeping,
    ),
  );
  archive.close();

  const listed = await again(path);
  expect(listed.evaluated).toBe(2);
  expect(listed.changed.map(({ pullId }) => pullId)).toEqual([1]);
  expect(listed.changed[0]?.against).toEqual({ from: 'evaluation', number: '1', methodVersion: '1' });
  expect(listed.changed[0]?.changes[0]).toMatchObject({ symbol: 'Fmax', before: { value: 1 } });
  // The other one has no earlier statement: it is no pull that was compared and found the same.
  expect(listed.nothingStatedBefore).toEqual([{ pullId: 2, specimen: 'T-1' }]);
  const told = (await ran('archive', 'evaluate-again', '--archive', path)).out;
  expect(told).toContain('nothing stated before: pull 2 T-1\n');
  expect(told).toMatch(
    /1 changed, nothing kept; 1 had nothing stated before; 0 of 0 sets touched are judged otherwise\.$/,
  );
  // Nothing is kept unless asked.
  expect((await ran('archive', 'history', '1', '--archive', path)).out).not.toContain(
    'supersedes evaluation 1',
  );

  const kept = await again(path, '--keep', '--reason', 'program of this year', '--operator', 'Okafor');
  expect(kept.changed[0]?.kept).toBe(2);
  const history = (await ran('archive', 'history', '1', '--archive', path)).out;
  expect(history).toMatch(/Okafor: program of this year {2}\(stands\)\n.*supersedes evaluation 1;/);
  expect((await again(path)).changed).toEqual([]);

  // By other options both change against what they are without them.
  const other = await again(path, '--zero-load', '10 N');
  expect(other.changed.map(({ against }) => against.from).sort()).toEqual(['as-it-stands', 'evaluation']);
  expect(other.nothingStatedBefore).toEqual([]);
  const refused = await ran('archive', 'evaluate-again', '--keep', '--archive', path);
  expect([refused.code, refused.err]).toEqual([2, expect.stringMatching(/--reason TEXT is missing/)]);
});

it('tells of each set that a changed pull is in what its rules said by the stated value, and what they say now', async () => {
  const folder = scratchFolder();
  const path = join(folder, 'a.gaugemark');
  const access = await recorderAccess({ archive: path, toRecord: true, note: () => undefined });
  for (const id of ['S-1', 'S-2']) {
    // Fm 249 · 60 N = 14 940 N over 20 mm · 2.5 mm: 298.8 MPa.
    const rows = Array.from({ length: 300 }, (_, i) => `${String(i)},${String(i < 250 ? i * 60 : 50)}`);
    const file = join(folder, `${id}.csv`);
    writeFileSync(file, [`# ${id}`, 'time_s,force_N', ...rows].join('\n'));
    const geometry = { kind: 'flat', width: '20 mm', thickness: '2.5 mm' } as const;
    await access.ask('archive.import', { file, specimen: { id, geometry, gaugeLength: '50 mm' } });
  }
  const baseMetals = [{ designation: 'plate of our own', minimum: '350 MPa' }];
  for (const name of ['Bracket', 'Not touched']) {
    const form = { ...SET, name, baseMetals };
    const { setId } = await access.ask('set.save', { form });
    const pullId = name === 'Bracket' ? 1 : 2;
    const { specimenId } = await access.ask('pull.specimen', { pullId });
    await access.ask('set.join', { setId, specimenId });
    await access.ask('pull.note-fracture', { pullId, note: { place: 'weld-metal', soundness: 'sound' } });
  }
  const { specimenId } = await access.ask('pull.specimen', { pullId: 1 });
  await access.end();
  const archive = openArchive(path);
  // As an earlier program would have kept it: 360 MPa, above the minimum of 350 MPa.
  archive.sets((connection, keeping) =>
    keepEvaluation(
      connection,
      {
        pullId: 1,
        specimenId,
        options: {},
        sources: [],
        values: [{ symbol: 'Rm', value: 360, unit: 'MPa' }],
        methodVersion: '1',
        supersedes: null,
        reason: 'first year',
      },
      keeping,
    ),
  );
  archive.close();
  const { sets } = await again(path);
  expect(sets).toMatchObject([
    {
      setId: 1,
      setName: 'Bracket',
      flips: true,
      after: { outcome: 'reject' },
      members: [{ specimenName: 'S-1', pullId: 1, before: 'accept', after: 'reject' }],
    },
  ]);
  const told = (await ran('archive', 'evaluate-again', '--archive', path)).out;
  expect(told).toMatch(/^set 1 Bracket: undecided → rejected\n {2}S-1: accepted → rejected$/m);
  expect(told).toMatch(/1 of 1 sets touched are judged otherwise\.$/);
  // Kept, both are what stands, and nothing is stated otherwise any more.
  expect((await again(path, '--keep', '--reason', 'program of this year')).sets).toHaveLength(1);
  expect((await again(path)).sets).toEqual([]);
});

it('takes the words of the search behind --search too, as the list does, and not both ways at once', async () => {
  const path = join(scratchFolder(), 'a.gaugemark');
  const archive = openArchive(path);
  keptPull(archive, 20, 100);
  archive.close();
  expect((await again(path, '--search', 't-1')).evaluated).toBe(1);
  expect((await again(path, '--search', 'T-2')).evaluated).toBe(0);
  const refused = await ran('archive', 'evaluate-again', 'T-1', '--search', 'T-2', '--archive', path);
  expect([refused.code, refused.err]).toEqual([2, expect.stringMatching(/behind --search, not both/)]);
});
