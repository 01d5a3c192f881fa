/** What is said of one displacement of a verification, as paper and terminal write it. */
import type { VerifiedDisplacement } from './verify-extension.ts';

export const EXTENSION_HEADS = ['q, %', 'q, µm', 'strain error', 'a, %', 'ISO 9513', 'E83'] as const;

/** The cells under EXTENSION_HEADS. */
export const extensionFigures = ({
  bias,
  resolution,
  isoClass,
  e83Class,
}: VerifiedDisplacement): string[] => [
  bias.percent.toFixed(3),
  bias.um.toFixed(2),
  bias.strain.toFixed(6),
  resolution.percent.toFixed(3),
  isoClass ?? 'none',
  e83Class ?? 'none',
];
