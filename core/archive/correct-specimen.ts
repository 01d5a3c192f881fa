/**
 * A specimen corrected together with the evaluations that rest on it: each that stands on one of its pulls is superseded
 * by one worked out with the corrected sizes. All of it is kept in one transaction, or nothing.
 */
import { z } from 'zod';
import type { EvaluatedAnew, PullOfSpecimen } from '../contract/specimen-requests.ts';
import { PULLS_PER_SPECIMEN_MAX } from '../limits.ts';
import { ArchiveRefusal } from './archive-fault.ts';
import type { SetKeeping } from './archive.ts';
import { type KeepEvaluation, keepEvaluation } from './evaluation-store.ts';
import { type SaveSpecimen, saveSpecimen } from './specimen-store.ts';
import { withSpecimenChain } from './specimen-chain.ts';
import { type Connection, allRows, sqlInteger } from './sql.ts';

/** Worked out before the correction has a number; reason and person are the correction's. */
export type EvaluationOfCorrected = Omit<KeepEvaluation, 'specimenId' | 'supersedes' | 'reason' | 'by'> & {
  readonly supersedes: number;
};

export interface CorrectSpecimen {
  readonly save: SaveSpecimen & { readonly supersedes: number };
  /** One for each evaluation that stands on a pull of the specimen. */
  readonly evaluations: readonly EvaluationOfCorrected[];
}

const pullRow = z
  .object({ pull_id: sqlInteger, standing: sqlInteger.nullable() })
  .transform((row): PullOfSpecimen => ({ pullId: row.pull_id, standing: row.standing }));

/**
 * Pulls of a specimen, in any of its corrections, that are not void: those with a kept evaluation first, then the newest
 * first. Throws an ArchiveRefusal where more evaluations stand than a correction can take with it.
 */
export function pullsOfSpecimen(connection: Connection, specimenId: number): PullOfSpecimen[] {
  const found = allRows(
    connection,
    pullRow,
    `${withSpecimenChain('?')}
     SELECT p.pull_id, (SELECT max(e.evaluation_id) FROM evaluation e WHERE e.pull_id = p.pull_id) AS standing
     FROM chain CROSS JOIN pull p USING (specimen_id)
     WHERE p.pull_id NOT IN (SELECT pull_id FROM pull_void)
     ORDER BY standing IS NULL, p.pull_id DESC LIMIT ${PULLS_PER_SPECIMEN_MAX + 1}`,
    specimenId,
  );
  if ((found[PULLS_PER_SPECIMEN_MAX]?.standing ?? null) !== null)
    throw new ArchiveRefusal(
      'too-many-pulls',
      `More than ${PULLS_PER_SPECIMEN_MAX} pulls of specimen ${specimenId} have kept evaluations, more than are evaluated again with one correction; make void those that do not count, then correct it.`,
      'supersedes',
    );
  return found.slice(0, PULLS_PER_SPECIMEN_MAX);
}

/** Throws an ArchiveRefusal as saveSpecimen and keepEvaluation do, or where an evaluation was kept meanwhile. */
export function correctSpecimen(
  connection: Connection,
  { save, evaluations }: CorrectSpecimen,
  keeping: SetKeeping,
): { specimenId: number; evaluations: EvaluatedAnew[] } {
  return connection
    .transaction(() => {
      const specimenId = saveSpecimen(connection, save, keeping);
      const left = pullsOfSpecimen(connection, specimenId).find(
        ({ pullId, standing }) => standing !== null && !evaluations.some((one) => one.pullId === pullId),
      );
      if (left !== undefined)
        throw new ArchiveRefusal(
          'evaluation-kept-meanwhile',
          `Evaluation ${String(left.standing)} of pull ${left.pullId} was kept meanwhile; look at what the correction changes in it, then keep the correction.`,
          'supersedes',
        );
      const kept = evaluations.map((one) => ({
        pullId: one.pullId,
        evaluationId: keepEvaluation(
          connection,
          // A correction without a reason was refused above.
          { ...one, specimenId, reason: save.reason ?? '', by: save.by },
          keeping,
        ),
        supersedes: one.supersedes,
      }));
      return { specimenId, evaluations: kept };
    })
    .immediate();
}
