/** Rows that stand beside the readings of a pull: marks, gaps, operator acts, fracture notes. Append-only. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { SOUNDNESS } from '../acceptance/fracture.ts';
import { DISCONTINUITIES_MAX, DISCONTINUITY_KINDS, FRACTURE_MARKS } from '../acceptance/fracture-details.ts';
import { QUANTITY_TEXT_LENGTH_MAX, parseQuantity } from '../quantity/parse-quantity.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { elapsedUs, readingSeq, rowId, wallMs } from './message.ts';

/**
 * Marks on the record; none of them cuts data off. `trigger` and `break` name the first reading of the pull
 * and the first reading after the break; `undo-break` and `continue` take back the last `break` or `stop`.
 */
export const MARK_KINDS = [
  'record-begins',
  'trigger',
  'break',
  'undo-break',
  'stop',
  'continue',
  'zero',
  'unit-changed',
  'recovered',
  'record-ends',
] as const;
export type MarkKind = (typeof MARK_KINDS)[number];

export const mark = z.strictObject({
  kind: z.enum(MARK_KINDS),
  /** Reading that the mark stands on; the next one to come where none fits. */
  seq: readingSeq,
  elapsedUs,
  /** `rule` (trigger or break detector) or `person`, `program` for recovery and the record's ends. */
  cause: z.enum(['rule', 'person', 'program']),
  /** The rule with its figures, or what was done, in one line. */
  words: z.string().max(TEXT_LENGTH_MAX),
});
export type Mark = z.infer<typeof mark>;

export const GAP_CAUSES = [
  'silence',
  'signal-lost',
  'recorder-restarted',
  'computer-slept',
  'readings-not-kept',
] as const;

/** A stretch in which nothing was received (or could be kept). `toElapsedUs` is null while it lasts. */
export const gap = atFirstUse(() =>
  z.strictObject({
    gapId: rowId,
    cause: z.enum(GAP_CAUSES),
    beforeSeq: readingSeq,
    fromElapsedUs: elapsedUs,
    toElapsedUs: elapsedUs.nullable(),
    /** Set where only the second of two instruments was not heard. */
    instrument: z.literal(1).optional(),
    words: z.string().max(TEXT_LENGTH_MAX),
  }),
);
export type Gap = z.infer<typeof gap>;

/** Something a person did, or a clock note: kept with the time, for whoever reads the record later. */
export const act = atFirstUse(() =>
  z.strictObject({
    kind: z.string().max(60),
    elapsedUs,
    wallMs,
    by: z.string().max(NAME_LENGTH_MAX).nullable(),
    words: z.string().max(TEXT_LENGTH_MAX),
  }),
);
export type Act = z.infer<typeof act>;

export const FRACTURE_PLACES = [
  'weld-metal',
  'fusion-line',
  'heat-affected-zone',
  'base-metal',
  'outside-gauge-marks',
  'in-grips',
  'not-told',
] as const;

/** Base metals of a joint, a branch among them. */
const BASE_METALS_MAX = 10;

const discontinuity = atFirstUse(() =>
  z.strictObject({
    kind: z.enum(DISCONTINUITY_KINDS),
    /** Largest extent as measured, "2.5 mm". */
    size: z
      .string()
      .trim()
      .min(1)
      .max(QUANTITY_TEXT_LENGTH_MAX)
      .refine(
        (text) => parseQuantity(text, { dimension: 'length', positive: true }).ok,
        'write a length with its unit, for example "2.5 mm"',
      )
      .optional(),
  }),
);

/** Where and how it broke, as seen. A correction is a new note that names the one it supersedes. */
export const fractureNote = atFirstUse(() =>
  z.strictObject({
    place: z.enum(FRACTURE_PLACES),
    appearance: z.string().max(TEXT_LENGTH_MAX).optional(),
    remarks: z.string().max(TEXT_LENGTH_MAX).optional(),
    /** Which base metal broke, counted from 1 as the set names them. */
    baseMetal: z.int().min(1).max(BASE_METALS_MAX).optional(),
    atMark: z.enum(FRACTURE_MARKS).optional(),
    /** Whether the exposed fracture meets what the code says of soundness. */
    soundness: z.enum(SOUNDNESS).optional(),
    discontinuities: z.array(discontinuity).max(DISCONTINUITIES_MAX).optional(),
  }),
);
export type FractureNote = z.infer<typeof fractureNote>;

export const keptFractureNote = atFirstUse(() =>
  z.strictObject({
    fractureNoteId: rowId,
    note: fractureNote,
    by: z.string().max(NAME_LENGTH_MAX).nullable(),
    wallMs,
    supersedes: rowId.nullable(),
    reason: z.string().max(TEXT_LENGTH_MAX).nullable(),
  }),
);
export type KeptFractureNote = z.infer<typeof keptFractureNote>;
