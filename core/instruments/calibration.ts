/** A calibration of an instrument, as its certificate says it, and whether it covers a day. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { isDay } from '../calendar-day.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { toNumber } from '../quantity/exact.ts';
import { figureFromText, typedFigure } from '../quantity/typed-figure.ts';
import { CORE_UNIT, UNITS, type UnitSymbol, convertExact } from '../quantity/units.ts';
import type { CalibrationPoint } from '../results/evaluation.ts';
import { extensionWorksheet } from '../verification/extension-worksheet.ts';
import { verificationWorksheet } from '../verification/worksheet.ts';
import { type InstrumentKind, KIND_WORDS, MEASURES, quantityRange, rangeFaults } from './instrument.ts';

/** Points of a correction table; a calibration has ten. */
export const CORRECTION_POINTS_MAX = 200;

const name = z.string().trim().min(1).max(NAME_LENGTH_MAX);

/** A day of the calendar, "2026-03-31". */
export const day = z
  .string()
  .refine(isDay, 'write a day of the calendar as year-month-day, like "2026-03-31"');

const tableUnit = z.enum(
  (Object.keys(UNITS) as UnitSymbol[]).filter((unit) =>
    ['force', 'length'].includes(UNITS[unit].dimension),
  ) as [UnitSymbol, ...UnitSymbol[]],
);

/** What the readout showed and what it should have shown, from the certificate. */
export const correctionTable = atFirstUse(() =>
  z
    .strictObject({
      unit: tableUnit,
      points: z
        .array(z.strictObject({ shown: typedFigure, actual: typedFigure }))
        .min(2)
        .max(CORRECTION_POINTS_MAX),
    })
    .superRefine(({ points }, context) => {
      for (const column of ['shown', 'actual'] as const) {
        const values = points.map((point) => figureFromText(point[column]));
        const place = values.findIndex((value, i) => {
          const before = values[i - 1];
          return before !== undefined && value.compare(before) <= 0;
        });
        if (place !== -1)
          context.addIssue({
            code: 'custom',
            path: ['points', place, column],
            message: 'the figures must grow from point to point; put the points in that order, each once',
          });
      }
    }),
);
export type CorrectionTable = z.infer<typeof correctionTable>;

export const calibrationForm = atFirstUse(() =>
  z
    .strictObject({
      certificateNumber: name,
      calibratedOn: day,
      /** The last day on which it still counts. */
      dueOn: day,
      /** Who calibrated. */
      by: name.exactOptional(),
      class: name.exactOptional(),
      verifiedRange: quantityRange.exactOptional(),
      correction: correctionTable.exactOptional(),
      /** The worksheet that the calibration rests on, where it was made here. */
      worksheet: verificationWorksheet.exactOptional(),
      /** The same of an extensometer. */
      extensionSheet: extensionWorksheet.exactOptional(),
      notes: z.string().trim().min(1).max(TEXT_LENGTH_MAX).exactOptional(),
    })
    .refine(({ calibratedOn, dueOn }) => dueOn > calibratedOn, {
      path: ['dueOn'],
      message: 'the due date must lie after the day of the calibration; correct one of them',
    }),
);
export type CalibrationForm = z.output<typeof calibrationForm>;

/** True where it rests on a verification that was worked out here, so that its certificate can be written. */
export const holdsWorksheet = ({ worksheet, extensionSheet }: CalibrationForm): boolean =>
  worksheet !== undefined || extensionSheet !== undefined;

/** What of a calibration can't be so for the kind of its instrument: field and sentence. */
export function calibrationFaults(
  kind: InstrumentKind,
  { verifiedRange, correction, worksheet, extensionSheet }: CalibrationForm,
): { readonly field: string; readonly sentence: string }[] {
  const dimension = MEASURES[kind];
  return [
    ...(worksheet === undefined || dimension === 'force'
      ? []
      : [
          {
            field: 'worksheet',
            sentence: `the worksheet is one of forces, and the instrument is of another kind: ${KIND_WORDS[kind]}; leave it out`,
          },
        ]),
    ...(extensionSheet === undefined || kind === 'extensometer'
      ? []
      : [
          {
            field: 'extensionSheet',
            sentence: `the worksheet is one of an extensometer, and the instrument is of another kind: ${KIND_WORDS[kind]}; leave it out`,
          },
        ]),
    ...rangeFaults(verifiedRange, dimension).map(([end, sentence]) => ({
      field: `verifiedRange.${end}`,
      sentence,
    })),
    ...(correction === undefined || UNITS[correction.unit].dimension === dimension
      ? []
      : [
          {
            field: 'correction.unit',
            sentence: `${correction.unit} is no unit of ${dimension}, which this instrument measures; correct the unit`,
          },
        ]),
  ];
}

/** The table in N or mm, as an evaluation takes it. */
export function correctionPoints({ unit, points }: CorrectionTable): CalibrationPoint[] {
  const { dimension } = UNITS[unit];
  const core = (text: string): number =>
    toNumber(convertExact(figureFromText(text), unit, CORE_UNIT[dimension]));
  return points.map(({ shown, actual }) => ({ shown: core(shown), actual: core(actual) }));
}

/** `valid` up to and with the due date · `overdue` after it · `none` where no calibration is on record for that day. */
export const CALIBRATION_STATES = ['valid', 'overdue', 'none'] as const;
export type CalibrationState = (typeof CALIBRATION_STATES)[number];

interface Dated {
  readonly calibratedOn: string;
  readonly dueOn: string;
}

/** The calibration that counts on a day: of those made until then the newest; of one day the one entered last. */
export function calibrationOn<T extends Dated>(calibrations: readonly T[], on: string): T | null {
  return calibrations
    .filter(({ calibratedOn }) => calibratedOn <= on)
    .reduce<T | null>(
      (newest, one) => (newest === null || one.calibratedOn >= newest.calibratedOn ? one : newest),
      null,
    );
}

export function calibrationState(calibration: Dated | null, on: string): CalibrationState {
  if (calibration === null) return 'none';
  return on <= calibration.dueOn ? 'valid' : 'overdue';
}

const DAY_MS = 86_400_000;

/** Whole days from one day to another; negative where the second lies before. */
export const daysBetween = (from: string, to: string): number =>
  Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / DAY_MS);
