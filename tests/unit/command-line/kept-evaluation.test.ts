/** `gaugemark archive evaluate|history|show`: another evaluation of an archived pull, kept with its reason, and the way back. */
import { writeFileSync } from 'node:fs';
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

it('frame and grips are taken off by a blank run that is a pull of the archive, as by its file', async () => {
  const folder = scratchFolder();
  const path = join(folder, 'a.gaugemark');
  const file = (name: string, text: string): string => {
    writeFileSync(join(folder, name), text);
    return join(folder, name);
  };
  const curve = (row: (i: number) => [number, number]): string =>
    ['time_s,force_N,travel_mm', ...Array.from({ length: 300 }, (_, i) => [i, ...row(i)].join(','))].join(
      '\n',
    );
  const blank = file(
    'blank.csv',
    curve((i) => [i * 100, 0.3 + i / 400]),
  );
  const bar = file(
    'bar.csv',
    curve((i) => (i < 250 ? [i * 80, i / 500 + i / 1000] : [20_000 - i * 60, 0.75])),
  );
  const size = { kind: 'flat', width: '20.00 mm', thickness: '5.00 mm' };
  const specimen = file('s.json', JSON.stringify({ id: 'T-2', geometry: size, gaugeLength: '50 mm' }));
  for (const one of [blank, bar])
    expect((await ran('archive', 'import', one, '--archive', path, '--specimen', specimen)).code).toBe(0);
  const shown = async (...args: string[]): Promise<string> =>
    (await ran('archive', 'show', '2', '--archive', path, '--strain-from', 'travel', ...args)).out;
  const corrected = await shown('--compliance', '1');
  expect(corrected).toBe((await shown('--compliance', blank)).replace('from blank.csv', 'from pull 1, T-2'));
  expect(corrected).not.toBe(await shown());
  const alone = await ran(
    'evaluate',
    bar,
    '--specimen',
    specimen,
    '--strain-from',
    'travel',
    '--compliance',
    '1',
  );
  expect([alone.code, alone.err]).toEqual([2, expect.stringContaining('pulls are in an archive')]);
});
