/** `gaugemark archive evaluate-again`: what changed in a whole search, listed first, kept with a reason when asked. */
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { keepEvaluation } from '../../../core/archive/evaluation-store.ts';
import { keptPull, openArchive, scratchFolder } from '../archive/made-archive.ts';
import { ran } from './in-process.ts';

interface Answer {
  readonly evaluated: number;
  readonly nothingStatedBefore: readonly { readonly pullId: number; readonly specimen: string }[];
  readonly changed: readonly {
    readonly pullId: number;
    readonly against: { readonly from: string; readonly methodVersion: string };
    readonly changes: readonly { readonly symbol: string; readonly before: { value: number } | null }[];
    readonly kept: number | null;
  }[];
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
  expect(told).toMatch(/1 changed, nothing kept; 1 had nothing stated before\.$/);
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
