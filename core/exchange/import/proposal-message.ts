/** Choices and proposal of an import as they cross between processes. */
import { z } from 'zod';
import { atFirstUse } from '../../at-first-use.ts';
import { CSV_COLUMNS_MAX } from '../../curve/csv-header.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../../limits.ts';
import { UNITS, type UnitSymbol } from '../../quantity/units.ts';
import { statedDay } from '../../pull/stated-day.ts';
import { COLUMNS_TEXT_LENGTH_MAX } from './columns-text.ts';
import { DATES_IN_FILE_MAX } from './dates-in-head.ts';
import {
  GROUP_SIGNS,
  IMPORT_DELIMITERS,
  IMPORT_QUANTITIES,
  TEXT_ENCODINGS,
  TIME_FORMS,
  importPlan,
} from './import-plan.ts';
import { IMPORT_LINE_LENGTH_MAX } from './line-splitter.ts';
import { CONFIDENCES } from './name-column.ts';
import {
  type ImportChoices,
  type ImportProposal,
  PREAMBLE_LINES_MAX,
  SAMPLE_ROWS_MAX,
} from './propose-import.ts';

export const importChoices = z.strictObject({
  encoding: z.enum(TEXT_ENCODINGS).exactOptional(),
  delimiter: z.enum(IMPORT_DELIMITERS).exactOptional(),
  decimalSign: z.enum(['.', ',']).exactOptional(),
  groupSign: z.enum(GROUP_SIGNS).exactOptional(),
  firstRowLine: z.int().min(1).exactOptional(),
  columnsText: z.string().max(COLUMNS_TEXT_LENGTH_MAX).exactOptional(),
}) satisfies z.ZodType<ImportChoices>;

const columnProposal = atFirstUse(() =>
  z.strictObject({
    name: z.string().max(NAME_LENGTH_MAX),
    quantity: z.enum(IMPORT_QUANTITIES).nullable(),
    unit: z.enum(Object.keys(UNITS) as [UnitSymbol, ...UnitSymbol[]]).nullable(),
    confidence: z.enum(CONFIDENCES),
    evidence: z.string().max(TEXT_LENGTH_MAX),
    written: z.enum(TIME_FORMS),
    used: z.boolean(),
  }),
);

const sentences = z.array(z.string().max(TEXT_LENGTH_MAX)).max(CSV_COLUMNS_MAX + 10);

export const importProposal = z.strictObject({
  plan: importPlan.nullable(),
  columns: z.array(columnProposal).max(CSV_COLUMNS_MAX),
  readyWithoutAsking: z.boolean(),
  questions: sentences,
  evidence: sentences,
  notes: sentences,
  preamble: z.array(z.strictObject({ line: z.int().min(1), text: z.string() })).max(PREAMBLE_LINES_MAX),
  sample: z.array(z.array(z.string().max(IMPORT_LINE_LENGTH_MAX))).max(SAMPLE_ROWS_MAX),
  dates: z
    .array(z.strictObject({ line: z.int().min(1), text: z.string(), days: z.array(statedDay).min(1).max(2) }))
    .max(DATES_IN_FILE_MAX),
}) satisfies z.ZodType<ImportProposal>;
