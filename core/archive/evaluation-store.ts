/** Evaluations that a person kept of a pull. None is changed: the next names the one it supersedes, and why. */
import { z } from 'zod';
import {
  type KeptEvaluation,
  type KeptValue,
  type OptionSource,
  keptValues,
  optionSources,
} from '../contract/evaluation-requests.ts';
import { EVALUATIONS_PER_PULL_MAX } from '../limits.ts';
import type { EvaluationOptions } from '../results/evaluation.ts';
import { ArchiveRefusal } from './archive-fault.ts';
import { appendAudit } from './audit.ts';
import { keptOptions } from './kept-options.ts';
import { pullRowOf } from './pull-reader.ts';
import { type Connection, allRows, insert, sqlInteger, sqlJson } from './sql.ts';

export interface KeepEvaluation {
  readonly pullId: number;
  readonly specimenId: number;
  readonly options: EvaluationOptions;
  readonly sources: readonly OptionSource[];
  readonly values: readonly KeptValue[];
  readonly methodVersion: string;
  readonly supersedes: number | null;
  readonly reason: string;
  readonly by?: string | undefined;
}

interface Keeping {
  readonly wallMs: number;
  readonly programVersion: string;
}

/** Its number. Throws an ArchiveRefusal where the pull is unknown or open, or another evaluation stands meanwhile. */
export function keepEvaluation(
  connection: Connection,
  keep: KeepEvaluation,
  { wallMs, programVersion }: Keeping,
): number {
  const { pullId, specimenId, options, sources, supersedes, reason } = keep;
  return connection
    .transaction(() => {
      checkOrder(connection, keep);
      const row = {
        pull_id: pullId,
        specimen_id: specimenId,
        options_json: JSON.stringify(options),
        sources_json: JSON.stringify(sources),
        values_json: JSON.stringify(keep.values),
        method_version: keep.methodVersion,
        program_version: programVersion,
        kept_wall_ms: wallMs,
        kept_by: keep.by ?? null,
        supersedes,
        reason,
      };
      const evaluationId = insert(connection, 'evaluation', row);
      appendAudit(connection, wallMs, {
        what: supersedes === null ? 'evaluation kept' : 'evaluation superseded',
        subject: 'evaluation',
        subjectId: evaluationId,
        detail: {
          pullId,
          specimenId,
          options,
          sources,
          values: keep.values,
          by: keep.by ?? null,
          supersedes,
          reason,
        },
      });
      return evaluationId;
    })
    .immediate();
}

function checkOrder(connection: Connection, { pullId, supersedes }: KeepEvaluation): void {
  if (pullRowOf(connection, pullId).ended === 0)
    throw new ArchiveRefusal(
      'pull-open',
      `The record of pull ${pullId} is still open; close it, then keep an evaluation of it.`,
      'pullId',
    );
  const before = evaluationsOf(connection, pullId);
  const standing = before.at(-1)?.evaluationId ?? null;
  if (supersedes !== standing)
    throw new ArchiveRefusal(
      'not-the-standing-evaluation',
      standing === null
        ? `Pull ${pullId} stands as recorded, so there is no evaluation ${String(supersedes)} to supersede; open the pull again and look at what stands.`
        : `Evaluation ${standing} of pull ${pullId} was kept meanwhile; open the pull again, look at it, then decide anew.`,
      'supersedes',
    );
  if (before.length >= EVALUATIONS_PER_PULL_MAX)
    throw new ArchiveRefusal(
      'too-many-evaluations',
      `Pull ${pullId} has ${before.length} evaluations, as many as are kept of one; the last one goes on standing.`,
      'pullId',
    );
}

const evaluationRow = z
  .object({
    evaluation_id: sqlInteger,
    pull_id: sqlInteger,
    specimen_id: sqlInteger,
    options_json: keptOptions,
    sources_json: sqlJson(optionSources),
    values_json: sqlJson(keptValues),
    method_version: z.string(),
    program_version: z.string(),
    kept_wall_ms: sqlInteger,
    kept_by: z.string().nullable(),
    supersedes: sqlInteger.nullable(),
    reason: z.string(),
  })
  .transform((row): KeptEvaluation => ({
    evaluationId: row.evaluation_id,
    pullId: row.pull_id,
    specimenId: row.specimen_id,
    options: row.options_json,
    sources: row.sources_json,
    values: row.values_json,
    methodVersion: row.method_version,
    programVersion: row.program_version,
    keptWallMs: row.kept_wall_ms,
    by: row.kept_by,
    supersedes: row.supersedes,
    reason: row.reason,
  }));

/** Oldest first; the last one stands. Throws an ArchiveRefusal where there is no such pull. */
export function evaluationHistory(connection: Connection, pullId: number): KeptEvaluation[] {
  pullRowOf(connection, pullId);
  return evaluationsOf(connection, pullId);
}

/** The one that stands; null where the pull stands as recorded. */
export function standingEvaluation(connection: Connection, pullId: number): KeptEvaluation | null {
  return evaluationsOf(connection, pullId).at(-1) ?? null;
}

const evaluationsOf = (connection: Connection, pullId: number): KeptEvaluation[] =>
  allRows(
    connection,
    evaluationRow,
    'SELECT * FROM evaluation WHERE pull_id = ? ORDER BY evaluation_id',
    pullId,
  );
