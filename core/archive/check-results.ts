/** Results that were kept or certified, worked out once more from the record: by this program, with the same options. */
import { z } from 'zod';
import { type KeptValue, keptValues } from '../contract/evaluation-requests.ts';
import { standingOptions } from '../evaluation/standing-options.ts';
import { METHOD_VERSION, type EvaluationOptions } from '../results/evaluation.ts';
import { ArchiveFault, ArchiveRefusal } from './archive-fault.ts';
import { BlockDamagedError } from './codec/varint.ts';
import type { CheckLine } from '../contract/archive-requests.ts';
import type { LastRows } from './check-statements.ts';
import { firstStated, statedPulls } from './first-stated.ts';
import { keptOptions } from './kept-options.ts';
import { getPull } from './pull-reader.ts';
import { type Connection, RowDamagedError, allRows, sqlInteger, sqlJson } from './sql.ts';

export interface RecomputeTask {
  readonly pullId: number;
  readonly specimenId: number;
  readonly options: EvaluationOptions;
}

/** Evaluates a kept pull; handed in, since it takes the whole curve. */
export type Recompute = (task: RecomputeTask) => readonly KeptValue[];

/** The same method on the same record gives the same number; the last bits may differ from machine to machine. */
const RELATIVE_DIFFERENCE_MAX = 1e-9;

const keptRow = z.object({
  name: z.string(),
  pull_id: sqlInteger,
  specimen_id: sqlInteger,
  options_json: keptOptions,
  values_json: sqlJson(keptValues),
  method_version: z.string(),
});

interface Looked {
  readonly pullId: number | undefined;
  /** The last evaluation and the last result of a certificate that are looked at. */
  readonly until: LastRows;
}

export function* checkResults(
  connection: Connection,
  looked: Looked,
  recompute: Recompute,
): Generator<CheckLine> {
  yield* checkKeptResults(connection, looked, recompute);
  yield* checkFirstStated(connection, looked.pullId, recompute);
}

function* checkKeptResults(
  connection: Connection,
  { pullId, until }: Looked,
  recompute: Recompute,
): Generator<CheckLine> {
  const kept = allRows(
    connection,
    keptRow,
    `SELECT * FROM (
       SELECT 'evaluation ' || evaluation_id AS name, pull_id, specimen_id, options_json, values_json, method_version
       FROM evaluation WHERE evaluation_id <= ?
       UNION ALL
       SELECT 'certificate ' || c.number || ', pull ' || r.pull_id, r.pull_id, r.specimen_id, r.options_json,
         r.values_json, r.method_version
       FROM certificate_result r JOIN certificate c USING (certificate_id) WHERE r.rowid <= ?
     ) WHERE ? IS NULL OR pull_id = ?`,
    until.of.get('evaluation') ?? 0,
    until.of.get('certificate_result') ?? 0,
    pullId ?? null,
    pullId ?? null,
  );
  for (const one of kept) {
    // As they were used: with the break as it was marked, where they say no other.
    // Lines or rows that are read again have a numbering of their own, in which the break is found by its time.
    const options =
      one.options_json.lineFormat === undefined && one.options_json.importPlan === undefined
        ? standingOptions(getPull(connection, one.pull_id), { options: one.options_json })
        : one.options_json;
    const now = again(recompute, { pullId: one.pull_id, specimenId: one.specimen_id, options });
    if (typeof now === 'string') {
      yield { name: one.name, ok: false, words: `it can't be worked out again: ${now}` };
      continue;
    }
    const differ = differences(one.values_json, now);
    const sameMethod = one.method_version === METHOD_VERSION;
    yield {
      name: one.name,
      // Another method may give other values; that is told, and is no damage.
      ok: differ.length === 0 || !sameMethod,
      words:
        differ.length === 0
          ? `its ${String(one.values_json.length)} results come out again from the record`
          : `${sameMethod ? 'its results do not come out again' : `kept by method ${one.method_version}, this program has method ${METHOD_VERSION}`}: ${differ.join(', ')}`,
    };
  }
}

/** What each pull was first worked out as; a note beside the record, so that a difference is told and is no damage. */
function* checkFirstStated(
  connection: Connection,
  pullId: number | undefined,
  recompute: Recompute,
): Generator<CheckLine> {
  for (const one of statedPulls(connection, pullId)) {
    const stated = firstStated(connection, one.pullId, one.specimenId);
    if (stated === null) continue;
    const options = standingOptions(getPull(connection, one.pullId), { options: {} });
    const now = again(recompute, { ...one, options });
    const differ = typeof now === 'string' ? [now] : differences(stated.values, now);
    yield {
      name: `pull ${String(one.pullId)}, as first worked out`,
      ok: true,
      words:
        differ.length === 0
          ? `its ${String(stated.values.length)} results come out again from the record`
          : `first worked out by method ${stated.methodVersion}, this program has method ${METHOD_VERSION}: ${differ.join(', ')}`,
    };
  }
}

/** What stands in the way, in words, where the record is damaged. */
function again(recompute: Recompute, task: RecomputeTask): readonly KeptValue[] | string {
  try {
    return recompute(task);
  } catch (error) {
    const told =
      error instanceof ArchiveFault ||
      error instanceof ArchiveRefusal ||
      error instanceof BlockDamagedError ||
      error instanceof RowDamagedError;
    if (!told) throw error;
    return error.message;
  }
}

function differences(kept: readonly KeptValue[], now: readonly KeptValue[]): string[] {
  const missing = now.filter(({ symbol }) => !kept.some((one) => one.symbol === symbol));
  return [
    ...kept.flatMap(({ symbol, value, unit }) => {
      const again = now.find((one) => one.symbol === symbol);
      if (again === undefined) return [`${symbol} ${String(value)} ${unit} was kept, none comes out`];
      const bound = RELATIVE_DIFFERENCE_MAX * Math.max(Math.abs(value), Math.abs(again.value));
      return again.unit === unit && Math.abs(again.value - value) <= bound
        ? []
        : [`${symbol} ${String(value)} ${unit} was kept, ${String(again.value)} ${again.unit} comes out`];
    }),
    ...missing.map(({ symbol }) => `${symbol} comes out, none was kept`),
  ];
}
