/** What is said of one force of a verification, in the order in which page, paper and terminal say it. */
import type { PercentFinding, VerifiedStep } from './verify-force.ts';

/** Every figure that has a working. */
export const stepFindings = ({
  error,
  repeatability,
  reversibility,
  resolution,
  e4,
}: VerifiedStep): PercentFinding[] => [
  error,
  repeatability,
  ...(reversibility === null ? [] : [reversibility]),
  resolution,
  e4.error,
  e4.repeatability,
];

export const STEP_HEADS = ['q, %', 'b, %', 'v, %', 'a, %', 'class', 'E, %', 'R, %', 'E4'] as const;

/** The cells under STEP_HEADS but the last. */
export const stepFigures = ({
  error,
  repeatability,
  reversibility,
  resolution,
  isoClass,
  e4,
}: VerifiedStep): string[] => [
  error.text,
  repeatability.text,
  reversibility?.text ?? '–',
  resolution.text,
  isoClass ?? 'none',
  e4.error.text,
  e4.repeatability.text,
];
