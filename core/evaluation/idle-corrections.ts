/** Corrections that the rest of the options leaves without effect: recorded, they would claim what was not done. */
import type { EvaluationOptions } from '../results/evaluation.ts';

/** A sentence, or null where every correction has something to correct. */
export function idleCorrection({ corrections: c = {}, strainFrom }: EvaluationOptions): string | null {
  const fromTravel = strainFrom === 'travel';
  if (!fromTravel && (c.frameCompliance !== undefined || (c.travelZeroMm ?? 0) !== 0))
    return 'The crosshead travel is to be corrected, but strain is taken from the extensometer, so that it would change nothing; take strain from the crosshead travel, or leave that correction out.';
  if (fromTravel && (c.extensionTable !== undefined || (c.extensionZeroMm ?? 0) !== 0))
    return 'The extension is to be corrected, but strain is taken from the crosshead travel, so that it would change nothing; take strain from the extensometer, or leave that correction out.';
  return null;
}
