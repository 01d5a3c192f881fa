/** Rows that a table must not show like others, as data: the sentence is written where the language of the paper is known. */
import { z } from 'zod';
import { atFirstUse } from '../../at-first-use.ts';
import { READINGS_ORIGINS } from '../../pull/readings-origin.ts';
import type { TabledPull } from './results-table.ts';

/** Readings of no frame, so of no specimen; a pull that counts no more. */
export const ROW_MARKS = [...READINGS_ORIGINS, 'void'] as const;
export type RowMark = (typeof ROW_MARKS)[number];
/** Of one mark; all are counted. */
export const MARKED_ROWS_NAMED_MAX = 60;

/** The pulls of one mark. */
export const markedRowsForm = atFirstUse(() =>
  z.strictObject({
    mark: z.enum(ROW_MARKS),
    /** The first of them; the file where pulls of several stand together. */
    named: z
      .array(z.strictObject({ pullId: z.int().positive(), archive: z.string().exactOptional() }))
      .max(MARKED_ROWS_NAMED_MAX),
    count: z.int().positive(),
  }),
);
export type MarkedRows = z.infer<typeof markedRowsForm>;

export const markedRows = (pulls: readonly TabledPull[]): MarkedRows[] =>
  ROW_MARKS.flatMap((mark) => {
    const those = pulls.filter(({ source, voidReason }) =>
      mark === 'void' ? voidReason !== null && voidReason !== undefined : source === mark,
    );
    if (those.length === 0) return [];
    const named = those
      .slice(0, MARKED_ROWS_NAMED_MAX)
      .map(({ pullId, archive }) => ({ pullId, ...(archive === undefined ? {} : { archive }) }));
    return [{ mark, named, count: those.length }];
  });
