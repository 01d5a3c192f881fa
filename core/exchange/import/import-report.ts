/** What happened to every row of an imported file: nothing is dropped without being counted and, within bounds, listed. */
import { z } from 'zod';
import { atFirstUse } from '../../at-first-use.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../../limits.ts';
import { importPlan } from './import-plan.ts';

/** Rows that don't fit are listed up to here, and counted beyond. */
export const MISFITS_LISTED_MAX = 200;

export const importReport = atFirstUse(() =>
  z.strictObject({
    lines: z.int().min(0),
    /** Rows that became readings. */
    rows: z.int().min(0),
    blankLines: z.int().min(0),
    commentLines: z.int().min(0),
    misfits: z.strictObject({
      count: z.int().min(0),
      first: z
        .array(z.strictObject({ line: z.int().min(1), reason: z.string().max(TEXT_LENGTH_MAX) }))
        .max(MISFITS_LISTED_MAX),
    }),
    /** Cells of used columns that held no value, by quantity. */
    absent: z.record(z.string(), z.int().min(1)),
    /** What a person should know, each a sentence. */
    notes: z.array(z.string().max(TEXT_LENGTH_MAX)),
  }),
);
export type ImportReport = z.infer<typeof importReport>;

/** Kept with the pull beside the bytes of the file as they were. */
export const importRecord = atFirstUse(() =>
  z.strictObject({
    fileName: z.string().max(NAME_LENGTH_MAX),
    byteCount: z.int().min(0),
    /** Of the bytes as they were, lower case. */
    sha256: z.string().regex(/^[0-9a-f]{64}$/),
    plan: importPlan,
    report: importReport,
  }),
);
export type ImportRecord = z.infer<typeof importRecord>;
