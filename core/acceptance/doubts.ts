/** Why a pull may not be a test of the weld at all. Validity comes before every comparison. */

export const DOUBTS = {
  'broke-in-grips':
    'it broke in the grips, so the strength of the weld was not reached and is only known to be at least the value measured',
  'broke-at-machining-mark': 'it broke at a machining mark, which may have started the fracture',
  'broke-at-stamp-mark': 'it broke at a stamp mark, which may have started the fracture',
  'calibration-overdue': 'the calibration of an instrument was overdue on the day of the pull',
  'calibration-unknown': 'the calibration of an instrument is not on record for the day of the pull',
  'force-outside-verified-range':
    'the maximum force lies outside the verified range of the force measurement',
  'speed-outside': 'the testing speed was outside the range that the test method allows',
  'wrong-proportion': 'the specimen does not have the proportions that the test method asks for',
  'readings-lost': 'readings were lost during the pull, so the maximum may have been missed',
  other: 'the pull was marked as doubtful',
} as const satisfies Record<string, string>;
export type DoubtCode = keyof typeof DOUBTS;
export const DOUBT_CODES = Object.keys(DOUBTS) as readonly DoubtCode[];

export interface Doubt {
  readonly code: DoubtCode;
  /** What was found, with numbers, where more is known than the code says. */
  readonly detail?: string;
}

export function doubtSentence(doubt: Doubt): string {
  return doubt.detail === undefined ? DOUBTS[doubt.code] : `${DOUBTS[doubt.code]} (${doubt.detail})`;
}
