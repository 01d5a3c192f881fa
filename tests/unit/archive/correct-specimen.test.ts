/** A correction and the evaluations that go with it: both in the archive, or neither. */
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { Archive } from '../../../core/archive/archive.ts';
import { type EvaluationOfCorrected, correctSpecimen } from '../../../core/archive/correct-specimen.ts';
import { evaluationHistory, keepEvaluation } from '../../../core/archive/evaluation-store.ts';
import { SPECIMEN, keptPull, openArchive, scratchFolder } from './made-archive.ts';

const worked = (pullId: number, supersedes: number): EvaluationOfCorrected => ({
  pullId,
  options: {},
  sources: [],
  values: [{ symbol: 'Rm', value: 480, unit: 'MPa' }],
  methodVersion: '1',
  supersedes,
});
const keep = (archive: Archive, pullId: number, supersedes: number | null): number =>
  archive.sets((connection, keeping) =>
    keepEvaluation(
      connection,
      { ...worked(pullId, 0), specimenId: 1, supersedes, reason: 'by contract' },
      keeping,
    ),
  );
const correct = (archive: Archive, evaluations: readonly EvaluationOfCorrected[]) =>
  archive.sets((connection, keeping) =>
    correctSpecimen(
      connection,
      { save: { specimen: SPECIMEN, supersedes: 1, reason: 'read wrongly', by: 'operator 2' }, evaluations },
      keeping,
    ),
  );

it('keeps neither where an evaluation was kept while they were worked out', () => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  const pullId = keptPull(archive);
  const first = keep(archive, pullId, null);
  expect(() => correct(archive, [])).toThrow(`Evaluation ${first} of pull ${pullId} was kept meanwhile`);
  const second = keep(archive, pullId, first);
  expect(() => correct(archive, [worked(pullId, first)])).toThrow(/was kept meanwhile/);
  expect(archive.getSpecimen(1).supersededBy).toBeNull();
  const { specimenId, evaluations } = correct(archive, [worked(pullId, second)]);
  expect(archive.getSpecimen(1).supersededBy).toBe(specimenId);
  const history = archive.sets((connection) => evaluationHistory(connection, pullId));
  expect(history.at(-1)).toMatchObject({
    evaluationId: evaluations[0]?.evaluationId,
    specimenId,
    supersedes: second,
    reason: 'read wrongly',
    by: 'operator 2',
  });
  expect(archive.check({}).sound).toBe(true);
});
