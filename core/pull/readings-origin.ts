/** Readings that no specimen gave for this record: made by the simulated frame, or given out again from a file. */
import type { PullSource } from '../contract/source.ts';

export const READINGS_ORIGINS = ['simulated', 'replay'] as const;
export type ReadingsOrigin = (typeof READINGS_ORIGINS)[number];

/** Null where a frame sent them or a person typed them. */
export function readingsOrigin({ kind }: Pick<PullSource, 'kind'>): ReadingsOrigin | null {
  return READINGS_ORIGINS.find((origin) => origin === kind) ?? null;
}

/** In a word, to stand beside a verdict. */
export const ORIGIN_MARKS: Readonly<Record<ReadingsOrigin, string>> = {
  simulated: 'SIMULATED',
  replay: 'REPLAYED',
};

export const ORIGIN_NOTICES: Readonly<Record<ReadingsOrigin, string>> = {
  simulated: 'SIMULATED readings: no specimen was pulled. Not evidence of any property.',
  replay:
    'REPLAYED readings: given out again from a file that was recorded earlier; no specimen was pulled for this record. Evidence of nothing but what that file holds.',
};
