/**
 * A verification of a force-measuring system as it is written down at the frame: forces applied by a reference and what
 * the system indicated, going up in several runs, coming down where that was done, and what stayed when the force was off.
 */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import type { Exact } from '../quantity/exact.ts';
import { figureFromText, typedFigure } from '../quantity/typed-figure.ts';
import { type ShapeFault, shapeFault, shapeFaults } from '../shape-faults.ts';

export const WORKSHEET_UNITS = ['N', 'kN', 'MN', 'lbf', 'kip', 'kgf', 'tf'] as const;
export type WorksheetUnit = (typeof WORKSHEET_UNITS)[number];

/** Forces of one verification; the standards ask for five a decade, and no frame has ten decades. */
export const STEPS_MAX = 50;
/** Runs of one verification; the standards ask for two or three. */
export const RUNS_MAX = 10;

/** In the unit of the worksheet, one of each run. */
const figures = z.array(typedFigure).min(1).max(RUNS_MAX);
const remark = z.string().trim().max(TEXT_LENGTH_MAX).optional();

const step = atFirstUse(() =>
  z.strictObject({
    /** One force for all runs (weights, or the reference brought to the same force), or one of each run. */
    applied: z.union([typedFigure, figures]),
    /** What the system indicated, one of each run; a single figure stands for all runs (constant indicated force). */
    indicated: z.union([typedFigure, figures]),
    /** Coming down again, in the last run. Without `applied` the force is the one of the way up. */
    descending: z.strictObject({ applied: typedFigure.optional(), indicated: typedFigure }).optional(),
  }),
);

export const verificationWorksheet = atFirstUse(() =>
  z.strictObject({
    unit: z.enum(WORKSHEET_UNITS),
    /** One digit of the indicator, or half of its fluctuation plus one digit where it does not stand still. */
    resolution: typedFigure,
    /** Largest force of the range that is verified; where it is absent, the largest force applied. */
    capacity: typedFigure.optional(),
    steps: z.array(step).min(1).max(STEPS_MAX),
    /** Indicated after the force was taken off, one of each run. */
    zeros: figures.optional(),
    /** The reference with its own certificate: "proving ring 100 kN, certificate 0815". */
    reference: z.string().trim().max(NAME_LENGTH_MAX).optional(),
    temperature: z.string().trim().max(NAME_LENGTH_MAX).optional(),
    notes: remark,
  }),
);
export type VerificationWorksheet = z.output<typeof verificationWorksheet>;

export interface Figure {
  readonly text: string;
  readonly exact: Exact;
}

export interface ReadStep {
  /** One of each run, on the way up. */
  readonly runs: readonly { readonly applied: Figure; readonly indicated: Figure }[];
  readonly descending: { readonly applied: Figure; readonly indicated: Figure } | null;
}

export interface ReadWorksheet {
  readonly unit: WorksheetUnit;
  readonly resolution: Figure;
  readonly capacity: Figure | null;
  readonly runCount: number;
  /** Ascending in the mean applied force. */
  readonly steps: readonly ReadStep[];
  readonly zeros: readonly Figure[];
}

export type WorksheetOutcome =
  | { readonly ok: true; readonly worksheet: VerificationWorksheet; readonly read: ReadWorksheet }
  | { readonly ok: false; readonly faults: readonly ShapeFault[] };

/** What is applied: forces, or the displacements of an extensometer. */
export type AppliedKind = 'force' | 'displacement';

/** A worksheet from outside in the form of its kind, before anything is read from its figures. */
export function shapedWorksheet<T>(
  schema: z.ZodType<T>,
  input: unknown,
):
  | { readonly ok: true; readonly worksheet: T }
  | { readonly ok: false; readonly faults: readonly ShapeFault[] } {
  const checked = schema.safeParse(input);
  if (checked.success) return { ok: true, worksheet: checked.data };
  return {
    ok: false,
    faults: shapeFaults(checked.error.issues, input, {
      whole: 'The worksheet',
      schema,
      example: (field) => (FIGURES.test(field) ? '"10.02"' : null),
    }),
  };
}

/** Fields that hold figures, in a worksheet of any kind. */
const FIGURES = /(applied|indicated|resolution|capacity|zeros|Length)/;

/** Reads a worksheet from outside; says what is wrong, where, what to do. Never throws. */
export function readWorksheet(input: unknown, what: AppliedKind = 'force'): WorksheetOutcome {
  const checked = shapedWorksheet(verificationWorksheet, input);
  if (!checked.ok) return checked;
  const { worksheet } = checked;
  const faults = [...figureFaults(worksheet, what), ...runFaults(worksheet)];
  if (faults.length > 0) return { ok: false, faults };
  const read = readFigures(worksheet);
  const unsorted = read.steps.findIndex((one, i) => {
    const before = read.steps[i - 1];
    return before !== undefined && meanApplied(one).compare(meanApplied(before)) <= 0;
  });
  return unsorted === -1
    ? { ok: true, worksheet, read }
    : {
        ok: false,
        faults: [
          shapeFault(
            `steps[${String(unsorted)}].applied`,
            `the ${what}s do not ascend here; put the steps in rising order, each ${what} once, and what was read on the way down under "descending"`,
          ),
        ],
      };
}

export const meanApplied = (step: ReadStep): Exact => meanOf(step.runs.map(({ applied }) => applied.exact));

/** Throws a RangeError where there is nothing to take the mean of. */
export function meanOf(values: readonly Exact[]): Exact {
  const [first, ...others] = values;
  if (first === undefined) throw new RangeError('a mean needs a value');
  return others.reduce((sum, value) => sum.add(value), first).div(values.length);
}

const list = <T>(given: T | readonly T[]): readonly T[] =>
  Array.isArray(given) ? (given as readonly T[]) : [given as T];

/** Forces applied must be forces: nothing is divided by zero, and a percentage of a negative one says nothing. */
function figureFaults(
  { resolution, capacity, steps }: VerificationWorksheet,
  what: AppliedKind,
): ShapeFault[] {
  const positive: readonly (readonly [string, string | undefined])[] = [
    ['resolution', resolution],
    ['capacity', capacity],
    ...steps.flatMap(({ applied, descending }, place): (readonly [string, string | undefined])[] => [
      ...list(applied).map((text, run): readonly [string, string] => [
        `steps[${String(place)}].applied${Array.isArray(applied) ? `[${String(run)}]` : ''}`,
        text,
      ]),
      [`steps[${String(place)}].descending.applied`, descending?.applied],
    ]),
  ];
  return positive.flatMap(([field, text]) =>
    text === undefined || figureFromText(text).compare(0) > 0
      ? []
      : [
          shapeFault(
            field,
            `"${text}" is not greater than zero; ${field.startsWith('steps') ? `what stayed without ${what} belongs under "zeros"` : 'correct it'}`,
          ),
        ],
  );
}

/** Every list has one figure of each run. */
function runFaults(worksheet: VerificationWorksheet): ShapeFault[] {
  const runs = runCountOf(worksheet);
  const wrong = (field: string, given: readonly unknown[]): ShapeFault[] =>
    given.length === 1 || given.length === runs
      ? []
      : [
          shapeFault(
            field,
            `${String(given.length)} figures stand here, but the worksheet has ${String(runs)} runs; give one of each run`,
          ),
        ];
  return [
    ...worksheet.steps.flatMap(({ applied, indicated }, place) => [
      ...wrong(`steps[${String(place)}].applied`, list(applied)),
      ...(list(indicated).length === 1 && runs > 1 && list(applied).length === 1
        ? wrong(`steps[${String(place)}].indicated`, [...list(indicated), 'missing'])
        : wrong(`steps[${String(place)}].indicated`, list(indicated))),
    ]),
    ...(worksheet.zeros === undefined ? [] : wrong('zeros', worksheet.zeros)),
  ];
}

const runCountOf = ({ steps }: VerificationWorksheet): number =>
  Math.max(...steps.map(({ applied, indicated }) => Math.max(list(applied).length, list(indicated).length)));

function readFigures(worksheet: VerificationWorksheet): ReadWorksheet {
  const runCount = runCountOf(worksheet);
  const { unit, resolution, capacity, steps, zeros } = worksheet;
  return {
    unit,
    resolution: figureOf(resolution),
    capacity: capacity === undefined ? null : figureOf(capacity),
    runCount,
    steps: steps.map(({ applied, indicated, descending }) => {
      const runs = Array.from({ length: runCount }, (_, run) => ({
        applied: figureOf(ofRun(applied, run)),
        indicated: figureOf(ofRun(indicated, run)),
      }));
      return {
        runs,
        descending:
          descending === undefined
            ? null
            : {
                applied: figureOf(descending.applied ?? ofRun(applied, runCount - 1)),
                indicated: figureOf(descending.indicated),
              },
      };
    }),
    zeros: (zeros ?? []).map(figureOf),
  };
}

function ofRun(given: string | readonly string[], run: number): string {
  const all = list(given);
  return all[run] ?? all[0] ?? '';
}

export const figureOf = (text: string): Figure => ({ text: text.trim(), exact: figureFromText(text) });
