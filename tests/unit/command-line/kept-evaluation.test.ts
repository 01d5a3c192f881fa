/** `gaugemark archive evaluate|history|show`: another evaluation of an archived pull, kept with its reason, and the way back. */
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { keptPull, openArchive, scratchFolder } from '../archive/made-archive.ts';
import { ran } from './in-process.ts';

interface Shown {
  readonly results: Readonly<Record<string, { value: number }>>;
  readonly options: object;
  readonly standingEvaluation: { evaluationId: number; reason: string; by: string | null } | null;
}

function archiveWithPull(): string {
  const path = join(scratchFolder(), 'a.gaugemark');
  const archive = openArchive(path);
  // To 2 000 lbf, still rising: the largest force recorded is what it tells.
  keptPull(archive, 20, 100);
  archive.close();
  return path;
}

async function asked(path: string, action: string, ...args: string[]): Promise<Shown> {
  const { code, out, err } = await ran('archive', action, '1', '--archive', path, ...args, '--json');
  expect(err).toBe('');
  expect(code).toBe(0);
  return JSON.parse(out) as Shown;
}
const force = ({ results }: Shown): number => results.Fmax?.value ?? Number.NaN;

it('an archived pull is evaluated anew with a reason, stands so wherever it is shown, and goes back as recorded', async () => {
  const path = archiveWithPull();
  const recorded = force(await asked(path, 'show'));
  const kept = await asked(
    path,
    ...(['evaluate', '--zero-load', '10 N', '--reason', 'grip not zeroed', '--operator', 'shift 2'] as const),
  );
  expect(force(kept)).toBeCloseTo(recorded - 10, 9);
  expect(kept.standingEvaluation).toMatchObject({ reason: 'grip not zeroed', by: 'shift 2' });

  // Other options are laid over what stands, shown and not kept.
  const shown = await asked(path, 'show', '--offset', '1');
  expect(shown.options).toEqual({ offsetsPercent: [1], corrections: { forceZeroN: 10 } });
  expect(force(shown)).toBeCloseTo(recorded - 10, 9);

  const back = await asked(path, 'evaluate', '--as-recorded', '--reason', 'it was zeroed after all');
  expect([force(back), back.options]).toEqual([recorded, {}]);
  const { out } = await ran('archive', 'history', '1', '--archive', path);
  expect(out).toMatch(/shift 2: grip not zeroed\n.*supersedes the pull as recorded.*\n.*10 N is taken off/);
  expect(out).toMatch(
    /it was zeroed after all {2}\(stands\)\n.*supersedes evaluation 1;.*\n.*nothing corrected/,
  );

  const refused = await ran('archive', 'evaluate', '1', '--archive', path, '--reason', 'x');
  expect([refused.code, refused.err]).toEqual([2, expect.stringMatching(/Nothing is asked for/)]);
});
