/**
 * Laying curves over each other: what is added to x so that they begin alike. Nothing is changed but the drawing's
 * offset, and where a curve can't be aligned as asked the reason is handed back.
 */

export type Alignment =
  /** The first reading of the pull with both values lies at zero. */
  | { readonly kind: 'start' }
  /** The first reading, on the way up to the maximum, at which this load is reached lies at zero. */
  | { readonly kind: 'load'; readonly load: number }
  /** The elastic line's crossing of zero stress lies at zero. */
  | { readonly kind: 'elastic-zero' }
  | { readonly kind: 'as-recorded' };

export interface AlignSource {
  readonly length: number;
  readonly x: ArrayLike<number>;
  /** Load or stress, in the unit of the alignment's load. */
  readonly y: ArrayLike<number>;
  /** x at which the elastic line meets zero; absent where no line was found. */
  readonly elasticZeroX?: number | undefined;
  /** Reading at which the pull began; what came before is not looked at. Default 0. */
  readonly from?: number;
}

export type AlignOutcome =
  | { readonly ok: true; readonly shift: number }
  | { readonly ok: false; readonly reason: string };

/** What to add to x. */
export function alignmentShift(source: AlignSource, alignment: Alignment): AlignOutcome {
  switch (alignment.kind) {
    case 'as-recorded':
      return { ok: true, shift: 0 };
    case 'start': {
      const first = firstWithBoth(source);
      return first === -1
        ? { ok: false, reason: 'The curve has no reading with both values.' }
        : { ok: true, shift: -(source.x[first] ?? 0) };
    }
    case 'elastic-zero':
      return source.elasticZeroX === undefined
        ? {
            ok: false,
            reason: 'No elastic line was found on this curve; align it at its start or at a load.',
          }
        : { ok: true, shift: -source.elasticZeroX };
    case 'load':
      return atLoad(source, alignment.load);
  }
}

function firstWithBoth({ length, x, y, from = 0 }: AlignSource): number {
  for (let i = from; i < length; i++)
    if (Number.isFinite(x[i] ?? Number.NaN) && Number.isFinite(y[i] ?? Number.NaN)) return i;
  return -1;
}

/** Between the two readings about the load the place is read off a straight line. */
function atLoad({ length, x, y, from: begun = 0 }: AlignSource, load: number): AlignOutcome {
  let before = -1;
  for (let i = begun; i < length; i++) {
    const value = y[i] ?? Number.NaN;
    const place = x[i] ?? Number.NaN;
    if (!Number.isFinite(value) || !Number.isFinite(place)) continue;
    if (value >= load) {
      if (before === -1) return { ok: true, shift: -place };
      const low = y[before] ?? 0;
      const from = x[before] ?? 0;
      const part = value === low ? 1 : (load - low) / (value - low);
      return { ok: true, shift: -(from + part * (place - from)) };
    }
    before = i;
  }
  return { ok: false, reason: 'The curve never reaches this load; choose a smaller one.' };
}
