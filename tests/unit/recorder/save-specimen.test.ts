/**
 * A specimen corrected under a kept evaluation: what it would give is told before, and the correction is kept with the
 * evaluation that takes the place of the one that rests on the earlier sizes. Closed form: Rm = Fm / (b·t).
 */
import { expect, test } from 'vitest';
import type { SpecimenFile } from '../../../core/specimen/specimen-file.ts';
import { type BegunRecorder, begunRecorder } from './begun-recorder.ts';

const flat = (thickness: string): SpecimenFile => ({
  id: 'NP-1',
  geometry: { kind: 'flat', width: '20 mm', thickness },
  gaugeLength: '50 mm',
});
const OPTIONS = { rounding: 'iso-6892-1' } as const;

/** 48 kN typed from the display over 20 mm × 6 mm: 400 MPa. */
async function typed48kN(): Promise<BegunRecorder & { readonly pullId: number; readonly first: number }> {
  const begun = await begunRecorder();
  const { specimenId: first } = await begun.ask('specimen.save', { specimen: flat('6 mm') });
  const { pullId } = await begun.ask('pull.type', { specimenId: first, typed: { load: '48 kN' } });
  return { ...begun, pullId, first };
}

const strengthOf = (values: readonly { readonly symbol: string; readonly value: number }[]) =>
  values.find(({ symbol }) => symbol === 'Rm')?.value;

test('what a correction would give is worked out, and nothing is kept by asking', async () => {
  const { ask, answered, pullId, first } = await typed48kN();
  const specimen = flat('5 mm');
  expect(strengthOf((await ask('pull.evaluate', { pullId })).results)).toBeCloseTo(400, 9);
  expect(strengthOf((await ask('pull.evaluate', { pullId, specimen })).results)).toBeCloseTo(480, 9);
  expect(strengthOf((await ask('pull.evaluate', { pullId })).results)).toBeCloseTo(400, 9);
  expect((await ask('pull.specimen', { pullId })).specimenId).toBe(first);
  expect(await answered('pull.evaluate', { pullId, specimen: flat('5 kN') })).toMatchObject({
    ok: false,
    fault: { code: 'specimen-wrong', field: 'specimen.geometry.thickness' },
  });
  expect(
    await answered('pull.evaluate', { pullId, specimen: { ...specimen, colour: 'blue' } as SpecimenFile }),
  ).toMatchObject({ ok: false });
});

test('a correction supersedes the evaluation that stands, by the same options, with who and why', async () => {
  const { ask, pullId, first } = await typed48kN();
  const stood = await ask('evaluation.keep', {
    pullId,
    options: OPTIONS,
    sources: [{ what: 'options', name: 'rounding.json', sha256: 'ab'.repeat(32) }],
    supersedes: null,
    reason: 'rounded as the contract says',
  });
  expect(await ask('specimen.pulls', { specimenId: first })).toEqual({
    pulls: [{ pullId, standing: stood.evaluationId }],
  });
  const kept = await ask('specimen.save', {
    specimen: flat('5 mm'),
    supersedes: first,
    reason: 'thickness read wrongly',
    by: 'operator 2',
  });
  const { evaluations: history } = await ask('evaluation.history', { pullId });
  const [before, after] = history;
  expect(kept.evaluations).toEqual([
    { pullId, evaluationId: after?.evaluationId, supersedes: stood.evaluationId },
  ]);
  expect(strengthOf(before?.values ?? [])).toBe(400);
  expect(strengthOf(after?.values ?? [])).toBe(480);
  expect(history).toMatchObject([
    { evaluationId: stood.evaluationId, specimenId: first, reason: 'rounded as the contract says' },
    {
      specimenId: kept.specimenId,
      supersedes: stood.evaluationId,
      options: OPTIONS,
      sources: [{ name: 'rounding.json' }],
      reason: 'thickness read wrongly',
      by: 'operator 2',
    },
  ]);
  expect(await ask('specimen.get', { specimenId: kept.specimenId })).toMatchObject({
    supersedes: first,
    by: 'operator 2',
    reason: 'thickness read wrongly',
  });
  // The next correction takes the place of that one, whichever correction the pulls are asked by.
  expect(await ask('specimen.pulls', { specimenId: first })).toEqual(
    await ask('specimen.pulls', { specimenId: kept.specimenId }),
  );
  const again = await ask('specimen.save', {
    specimen: flat('6 mm'),
    supersedes: kept.specimenId,
    reason: 'read rightly at first',
  });
  expect(again.evaluations).toMatchObject([{ pullId, supersedes: after?.evaluationId }]);
});

test('where a pull stands as recorded, or is void, nothing is evaluated with the correction', async () => {
  const { ask, pullId, first } = await typed48kN();
  const corrected = await ask('specimen.save', {
    specimen: flat('5 mm'),
    supersedes: first,
    reason: 'thickness read wrongly',
  });
  expect(corrected.evaluations).toEqual([]);
  await ask('evaluation.keep', { pullId, options: OPTIONS, supersedes: null, reason: 'by contract' });
  await ask('pull.void', { pullId, reason: 'slipped in the grips' });
  const second = await ask('specimen.save', {
    specimen: flat('6 mm'),
    supersedes: corrected.specimenId,
    reason: 'read rightly at first',
  });
  expect(second.evaluations).toEqual([]);
  expect((await ask('evaluation.history', { pullId })).evaluations).toHaveLength(1);
});

test('a correction that is refused leaves the evaluation standing', async () => {
  const { ask, answered, pullId, first } = await typed48kN();
  await ask('evaluation.keep', { pullId, options: OPTIONS, supersedes: null, reason: 'by contract' });
  expect(await answered('specimen.save', { specimen: flat('5 mm'), supersedes: first })).toMatchObject({
    ok: false,
    fault: { field: 'reason' },
  });
  expect(
    await answered('specimen.save', { specimen: flat('5 kN'), supersedes: first, reason: 'wrong' }),
  ).toMatchObject({ ok: false, fault: { code: 'specimen-wrong' } });
  expect((await ask('evaluation.history', { pullId })).evaluations).toHaveLength(1);
  expect((await ask('pull.specimen', { pullId })).specimenId).toBe(first);
});
