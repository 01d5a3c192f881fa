/** Readings that no frame sent to this program: made by the simulated frame, given out again, or taken over from a file. */
export const READINGS_ORIGINS = [
  'simulated',
  'imported-simulated',
  'replay',
  'imported-replay',
  'imported',
] as const;
export type ReadingsOrigin = (typeof READINGS_ORIGINS)[number];

/** Where one of two instruments was no frame's, all of the pull is marked by it: by the one that is first in the list above. */
export function originOfPull({ source, second }: PullKept): ReadingsOrigin | null {
  const origins = [source, ...(second === null ? [] : [second.source])].map(readingsOrigin);
  return READINGS_ORIGINS.find((origin) => origins.includes(origin)) ?? null;
}

interface PullKept {
  readonly source: SourceKept;
  /** The second instrument beside it. */
  readonly second: { readonly source: SourceKept } | null;
}

/** Of one source. Null where a frame sent them or a person typed them. */
export function readingsOrigin({ kind, readings }: SourceKept): ReadingsOrigin | null {
  const named = kind === 'imported' && readings ? `${kind}-${readings}` : kind;
  return READINGS_ORIGINS.find((origin) => origin === named) ?? null;
}

/** A source, or what of it stands in a row. */
interface SourceKept {
  readonly kind: string;
  /** What a file that was imported says of its own readings. */
  readonly readings?: string | null | undefined;
}

/** In a word, to stand beside a verdict. */
export const ORIGIN_MARKS: Readonly<Record<ReadingsOrigin, string>> = {
  simulated: 'SIMULATED',
  'imported-simulated': 'SIMULATED (imported)',
  replay: 'REPLAYED',
  'imported-replay': 'REPLAYED (imported)',
  imported: 'IMPORTED',
};

export const ORIGIN_NOTICES: Readonly<Record<ReadingsOrigin, string>> = {
  simulated: 'SIMULATED readings: no specimen was pulled. Not evidence of any property.',
  'imported-simulated':
    'SIMULATED (imported) readings: the file that they were taken over from says that a simulated frame made them; no specimen was pulled. Not evidence of any property.',
  replay:
    'REPLAYED readings: given out again from a file that was recorded earlier; no specimen was pulled for this record. Evidence of nothing but what that file holds.',
  'imported-replay':
    'REPLAYED (imported) readings: the file that they were taken over from says that they were given out again from an earlier recording; no specimen was pulled for it. Evidence of nothing but what that file holds.',
  imported:
    'IMPORTED readings: taken over from a file that is kept with them, not recorded by this program, which can not tell how they were measured.',
};
