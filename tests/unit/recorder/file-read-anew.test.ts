/** The file of an imported pull read again by another plan: side by side, kept in the place of what stood, its rows untouched. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { choicesOfPlan } from '../../../core/exchange/import/choices-of-plan.ts';
import type { Evaluation } from '../../../core/results/evaluation.ts';
import { PROFILE, keptPull, openArchive, scratchFolder } from '../archive/made-archive.ts';
import { ran } from '../command-line/in-process.ts';
import { begunRecorder } from './begun-recorder.ts';

const ROUND = { kind: 'round', diameter: '10 mm' } as const;
const POUND_N = 4.4482216152605;

const valueOf = ({ results }: Evaluation, symbol: string): number =>
  results.find((one) => one.symbol === symbol)?.value ?? Number.NaN;

/** Loads to 11.7 of whatever its second column is in, with a clock that does not begin at nought. */
function fileOfRows(): string {
  const file = join(scratchFolder(), 'press.csv');
  const rows = Array.from(
    { length: 40 },
    (_, i) => `${String(5 + i / 2)};${(i * 0.3).toFixed(1)};${String(i)}`,
  );
  writeFileSync(file, `t;F;d\n${rows.join('\n')}\n`);
  return file;
}

async function imported() {
  const begun = await begunRecorder();
  const { pullId } = await begun.ask('archive.import', {
    file: fileOfRows(),
    specimen: { id: 'P-1', geometry: ROUND },
    choices: { columnsText: 'time_s;force_kN;extension_mm' },
  });
  return { ...begun, pullId };
}

it('gives the results of the other unit, and of the same plan the very results of the import', async () => {
  const { ask, pullId } = await imported();
  const { plan, proposal, byteCount } = await ask('pull.preview-plan', { pullId });
  expect(byteCount).toBeGreaterThan(200);
  // The names of the file say no unit, so that without a word of anybody it would be asked.
  expect(proposal.readyWithoutAsking).toBe(false);
  const asImported = await ask('pull.evaluate', { pullId });
  expect(valueOf(asImported, 'Fmax')).toBeCloseTo(11_700, 6);

  const same = await ask('pull.evaluate', { pullId, options: { importPlan: plan } });
  expect(same.results).toEqual(asImported.results);

  const { proposal: said } = await ask('pull.preview-plan', {
    pullId,
    choices: { ...choicesOfPlan(plan), columnsText: 'time_s;force_lbf;extension_mm' },
  });
  if (said.plan === null) throw new Error(said.questions.join(' '));
  const anew = await ask('pull.evaluate', { pullId, options: { importPlan: said.plan } });
  expect(valueOf(anew, 'Fmax')).toBeCloseTo(11.7 * POUND_N, 6);
  expect(anew.readFromFile).toBe(true);
  expect(anew.readBy).toContain('force lbf (column 2)');
  expect(anew.remarks[0]).toMatch(/^The imported file is read again by another plan: 40 readings \(40 as/);
});

it('is kept in the place of what stood; rows, bytes and the check stay as they were', async () => {
  const { ask, pullId } = await imported();
  const rows = await ask('pull.readings', { pullId, fromSeq: 0, count: 100 });
  const { plan } = await ask('pull.preview-plan', { pullId });
  const first = await ask('evaluation.keep', {
    ...{ pullId, options: { offsetsPercent: [0.1] }, supersedes: null, reason: 'asked for' },
  });
  const columns = plan.columns.map((one) =>
    one.quantity === 'force' ? { ...one, unit: 'lbf' as const } : one,
  );
  const second = await ask('evaluation.keep', {
    ...{ pullId, options: { importPlan: { ...plan, columns } }, supersedes: first.evaluationId },
    reason: 'the press shows pounds',
  });
  const { evaluations } = await ask('evaluation.history', { pullId });
  expect(evaluations.map(({ evaluationId, supersedes }) => [evaluationId, supersedes])).toEqual([
    [first.evaluationId, null],
    [second.evaluationId, first.evaluationId],
  ]);
  expect(valueOf(await ask('pull.evaluate', { pullId }), 'Fmax')).toBeCloseTo(11.7 * POUND_N, 6);
  expect(await ask('pull.readings', { pullId, fromSeq: 0, count: 100 })).toEqual(rows);
  // The list says what opening the pull gives, not the peak in the unit that it turned out not to have.
  const { items } = await ask('archive.search', { query: {} });
  expect(items[0]?.strengthMpa).toBeCloseTo((11.7 * POUND_N) / (25 * Math.PI), 6);
  expect((await ask('pull.get', { pullId })).source).toMatchObject({ kind: 'imported', plan });
  // Each kept evaluation comes out again from the bytes.
  const check = await ask('archive.check', {});
  expect(check.lines.filter(({ ok }) => !ok)).toEqual([]);
});

it('refuses a plan that fits no row, and either way of reading for what it is not of', async () => {
  const { ask, answered, pullId } = await imported();
  const { plan } = await ask('pull.preview-plan', { pullId });
  const decimalComma = { ...plan, decimalSign: ',' as const, firstRowLine: 900 };
  expect(await answered('pull.evaluate', { pullId, options: { importPlan: decimalComma } })).toMatchObject({
    ok: false,
    fault: { field: 'options.importPlan' },
  });
  const byProfile = await answered('pull.evaluate', { pullId, options: { lineFormat: PROFILE } });
  expect(byProfile).toMatchObject({ ok: false, fault: { code: 'line-format-without-effect' } });

  const path = join(scratchFolder(), 'recorded.gaugemark');
  const archive = openArchive(path);
  const recordedId = keptPull(archive);
  archive.close();
  const recorded = await begunRecorder({ archivePath: path });
  for (const answer of [
    await recorded.answered('pull.evaluate', { pullId: recordedId, options: { importPlan: plan } }),
    await recorded.answered('pull.preview-plan', { pullId: recordedId }),
  ])
    expect(answer).toMatchObject({ ok: false, fault: { code: 'import-plan-without-effect' } });
});

it('is said on the command line by the words of the import; what is not said stays', async () => {
  const file = fileOfRows();
  const specimen = join(scratchFolder(), 'p.json');
  writeFileSync(specimen, JSON.stringify({ id: 'P-1', geometry: ROUND }));
  const archive = join(scratchFolder(), 'a.gaugemark');
  const columns = 'time_s;force_kN;extension_mm';
  const taken = await ran(
    'archive',
    'import',
    file,
    '--archive',
    archive,
    '--specimen',
    specimen,
    '--columns',
    columns,
  );
  expect(taken.code, taken.err).toBe(0);
  const told = await ran(
    ...['archive', 'evaluate', '1', '--archive', archive, '--columns', 'time_s;force_lbf'],
    ...['--reason', 'pounds', '--json'],
  );
  expect(told.code, told.err).toBe(0);
  expect(told.out).toContain('force lbf (column 2)');
  expect(told.err).toContain('Column 3 was not named and is left out.');
  const history = await ran('archive', 'history', '1', '--archive', archive);
  expect(history.out).toMatch(
    /The imported file is read again: time s \(column 1\); force lbf \(column 2\); decimal sign “\.”; rows from line 2\./,
  );
});
