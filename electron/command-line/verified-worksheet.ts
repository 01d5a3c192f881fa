/** A worksheet file of either kind worked out: what "verify" and "instruments verify" say of it and keep. */
import type { CalibrationForm, CorrectionTable } from '../../core/instruments/calibration.ts';
import {
  calibrationOfExtension,
  calibrationOfVerification,
  correctionOfWorksheet,
} from '../../core/instruments/calibration-of-verification.ts';
import { type ExtensionVerification, verifyExtension } from '../../core/verification/verify-extension.ts';
import { type Verification, verifyForce } from '../../core/verification/verify-force.ts';
import { extensionText } from './extension-text.ts';
import { verificationText } from './verification-text.ts';
import { extensionWorksheetFile, worksheetFile } from './worksheet-file.ts';

export interface VerifiedWorksheet {
  readonly verification: Verification | ExtensionVerification;
  readonly text: (how: { readonly working: boolean }) => string;
  readonly calibration: Partial<CalibrationForm>;
  /** Null where what was indicated does not grow. */
  readonly correction: CorrectionTable | null;
}

/** Throws an InputError that names the file and the field. */
export function verifiedWorksheet(path: string): VerifiedWorksheet {
  const extension = extensionWorksheetFile(path);
  if (extension !== null) {
    const found = verifyExtension(extension.read);
    return {
      verification: found,
      text: (how) => extensionText(found, how),
      calibration: calibrationOfExtension(extension.worksheet, found),
      correction: correctionOfWorksheet(extension.read),
    };
  }
  const { worksheet, read } = worksheetFile(path);
  const found = verifyForce(read);
  return {
    verification: found,
    text: (how) => verificationText(found, how),
    calibration: calibrationOfVerification(worksheet, found),
    correction: correctionOfWorksheet(read),
  };
}
