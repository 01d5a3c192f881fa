/** What a verification says for the calibration that is entered from it: class, verified range, correction table. */
import { exactFromNumber, exactFromDecimal } from '../quantity/exact.ts';
import type { ExtensionWorksheet } from '../verification/extension-worksheet.ts';
import type { ExtensionVerification } from '../verification/verify-extension.ts';
import type { Verification } from '../verification/verify-force.ts';
import { type ReadStep, type VerificationWorksheet, meanApplied, meanOf } from '../verification/worksheet.ts';
import type { CalibrationForm, CorrectionTable } from './calibration.ts';

/** Digits of a correction: more than any indicator has, so that rounding adds nothing. */
const CORRECTION_DIGITS = 9;

/** The range is that of the class that is stated, or else that within ASTM E4. */
export function calibrationOfVerification(
  worksheet: VerificationWorksheet,
  { iso, e4, unit }: Verification,
): Pick<CalibrationForm, 'class' | 'verifiedRange' | 'worksheet'> {
  const range = iso.class === null ? e4.range : iso.ranges[iso.class];
  const classWords = [
    ...(iso.class === null ? [] : [`class ${iso.class} (ISO 7500-1)`]),
    ...(e4.wholeRange ? ['within ±1 % (ASTM E4)'] : []),
  ].join(', ');
  return {
    ...(classWords === '' ? {} : { class: classWords }),
    ...(range === null
      ? {}
      : { verifiedRange: { from: `${range.fromText} ${unit}`, to: `${range.toText} ${unit}` } }),
    worksheet,
  };
}

/** The same of an extensometer: its classes, and the displacements between which they were found. */
export function calibrationOfExtension(
  worksheet: ExtensionWorksheet,
  { iso, e83, steps, unit }: ExtensionVerification,
): Pick<CalibrationForm, 'class' | 'verifiedRange' | 'extensionSheet'> {
  const classWords = [
    ...(iso.class === null ? [] : [`class ${iso.class} (ISO 9513)`]),
    ...(e83.class === null ? [] : [`class ${e83.class} (ASTM E83)`]),
  ].join(', ');
  const [first, last] = [steps[0], steps.at(-1)];
  return {
    ...(classWords === '' ? {} : { class: classWords }),
    ...(classWords === '' || first === undefined || last === undefined || first === last
      ? {}
      : { verifiedRange: { from: `${first.appliedText} ${unit}`, to: `${last.appliedText} ${unit}` } }),
    extensionSheet: worksheet,
  };
}

/**
 * What was indicated, mean of the runs, against what was applied, from zero on. Null where what was indicated does not
 * grow, and a table would say nothing.
 */
export function correctionOfWorksheet({
  unit,
  steps,
}: {
  readonly unit: CorrectionTable['unit'];
  readonly steps: readonly ReadStep[];
}): CorrectionTable | null {
  const points = [
    { shown: exactFromNumber(0), actual: exactFromNumber(0) },
    ...steps.map((step) => ({
      shown: meanOf(step.runs.map(({ indicated }) => indicated.exact)),
      actual: meanApplied(step),
    })),
  ];
  const grows = points.every((point, i) => {
    const before = points[i - 1];
    return before === undefined || point.shown.compare(before.shown) > 0;
  });
  if (!grows) return null;
  const text = (value: (typeof points)[number]['shown']): string =>
    value.round(CORRECTION_DIGITS).toString(CORRECTION_DIGITS);
  const written = points.map(({ shown, actual }) => ({ shown: text(shown), actual: text(actual) }));
  return written.every(
    ({ shown, actual }) => exactFromDecimal(shown) !== null && exactFromDecimal(actual) !== null,
  )
    ? { unit, points: written }
    : null;
}
