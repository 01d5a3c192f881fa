/** What the recorder tells by itself. */
import { z } from 'zod';
import { exchangeProgress } from './exchange-requests.ts';
import { learning } from './learn-requests.ts';
import { readingSeq, rowId } from './message.ts';
import { notice } from './notice.ts';
import { preview } from './readout-requests.ts';
import { readingColumns } from './reading.ts';
import { session } from './session.ts';

export const events = {
  /** On every change of state and at most 10 times a second otherwise. */
  session,
  /**
   * New readings of the open pull, at most 60 times a second, in order. A client that was slow is told from
   * where it missed readings (`missedFromSeq` up to `columns.firstSeq`) and asks for them with `pull.readings`.
   */
  readings: z.strictObject({
    pullId: rowId,
    basis: z.number().int(),
    missedFromSeq: readingSeq.nullable(),
    columns: readingColumns,
  }),
  /** While the readout is open: the newest lines since the last preview, at most 10 times a second. */
  preview,
  notice,
  /** While the lines of a readout are learned, at each step. */
  learning,
  /** While long work on the archive is under way, a few times a second. */
  'exchange-progress': exchangeProgress,
} as const;
