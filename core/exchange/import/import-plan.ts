/** How a file of delimited text is to be read: proposed by the program, settled by a person, kept with the record. */
import { z } from 'zod';
import { atFirstUse } from '../../at-first-use.ts';
import { CSV_COLUMNS_MAX } from '../../curve/csv-header.ts';
import { QUANTITIES } from '../../curve/curve.ts';
import { NAME_LENGTH_MAX } from '../../limits.ts';
import { type Dimension, UNITS, type UnitSymbol } from '../../quantity/units.ts';

export const IMPORT_PLAN_SCHEMA = 'gaugemark.import-plan/1';

export const TEXT_ENCODINGS = ['utf-8', 'utf-16le', 'utf-16be', 'windows-1252'] as const;
export type TextEncoding = (typeof TEXT_ENCODINGS)[number];

/** `blanks`: one or more blanks or tabs between the cells; never taken where another delimiter fits. */
export const IMPORT_DELIMITERS = [',', ';', '\t', '|', 'blanks'] as const;
export type ImportDelimiter = (typeof IMPORT_DELIMITERS)[number];

export const GROUP_SIGNS = [',', '.', ' ', "'"] as const;
export type GroupSign = (typeof GROUP_SIGNS)[number];

/** Beside a curve's own quantities the two that become engineering values on the way in. */
export const IMPORT_QUANTITIES = [...QUANTITIES, 'true-stress', 'true-strain'] as const;
export type ImportQuantity = (typeof IMPORT_QUANTITIES)[number];

export const IMPORT_DIMENSION: Readonly<Record<ImportQuantity, Dimension>> = {
  time: 'time',
  force: 'force',
  extension: 'length',
  travel: 'length',
  stress: 'stress',
  strain: 'strain',
  'true-stress': 'stress',
  'true-strain': 'strain',
};

/** `clock`: [hh:]mm:ss with decimals. `date-time`: ISO 8601, as seconds since the first row. */
export const TIME_FORMS = ['decimal', 'clock', 'date-time'] as const;
export type TimeForm = (typeof TIME_FORMS)[number];

const unitSymbol = z.enum(Object.keys(UNITS) as [UnitSymbol, ...UnitSymbol[]]);

export const importColumn = atFirstUse(() =>
  z.strictObject({
    /** Place of the cell in a row, from 0. */
    cell: z.int().min(0).max(CSV_COLUMNS_MAX),
    /** As the file names it. */
    name: z.string().max(NAME_LENGTH_MAX),
    quantity: z.enum(IMPORT_QUANTITIES),
    unit: unitSymbol,
    written: z.enum(TIME_FORMS).default('decimal'),
  }),
);
export type ImportColumn = z.output<typeof importColumn>;

export const importPlan = atFirstUse(() =>
  z
    .strictObject({
      schema: z.literal(IMPORT_PLAN_SCHEMA),
      encoding: z.enum(TEXT_ENCODINGS),
      delimiter: z.enum(IMPORT_DELIMITERS),
      decimalSign: z.enum(['.', ',']),
      groupSign: z.enum(GROUP_SIGNS).optional(),
      /** The line at which the rows begin, from 1; what stands above is kept as text. */
      firstRowLine: z.int().min(1),
      /** Cells that a full row has. */
      cells: z.int().min(1).max(CSV_COLUMNS_MAX),
      columns: z.array(importColumn).min(1).max(IMPORT_QUANTITIES.length),
    })
    .superRefine((plan, context) => {
      const issue = (path: (string | number)[], message: string): void => {
        context.addIssue({ code: 'custom', path, message });
      };
      plan.columns.forEach((column, index) => {
        const dimension = IMPORT_DIMENSION[column.quantity];
        if (UNITS[column.unit].dimension !== dimension)
          issue(['columns', index, 'unit'], `${column.unit} is no unit of ${column.quantity}`);
        if (column.cell >= plan.cells)
          issue(['columns', index, 'cell'], `a row has ${String(plan.cells)} cells only`);
        if (plan.columns.findIndex((other) => other.quantity === column.quantity) !== index)
          issue(['columns', index, 'quantity'], `${column.quantity} is given twice`);
      });
      const has = (quantity: ImportQuantity): boolean => plan.columns.some((c) => c.quantity === quantity);
      if (has('true-stress') && !has('true-strain') && !has('strain'))
        issue(['columns'], 'true stress needs a strain beside it to become engineering stress');
      if ((has('true-stress') && has('stress')) || (has('true-strain') && has('strain')))
        issue(['columns'], 'give the true value or the engineering value, not both');
      if (plan.groupSign === plan.decimalSign)
        issue(['groupSign'], 'the decimal sign and the sign between thousands must differ');
    }),
);
export type ImportPlan = z.output<typeof importPlan>;

/** "force kN (column 2); extension mm (column 3); decimal sign “,”; rows from line 3": what of a plan makes other readings of the same bytes. */
export function importPlanText({ columns, decimalSign, firstRowLine }: ImportPlan): string {
  const each = columns.map(({ cell, quantity, unit }) => `${quantity} ${unit} (column ${String(cell + 1)})`);
  return `${each.join('; ')}; decimal sign “${decimalSign}”; rows from line ${String(firstRowLine)}`;
}
