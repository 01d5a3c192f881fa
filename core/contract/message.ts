/** What every message has in common: faults as data, the envelope of a reply, typed columns. */
import { z } from 'zod';
import { TEXT_LENGTH_MAX } from '../limits.ts';

/** An operating fault: what happened, what is safe, what to do. The code is for programs, the sentence for people. */
export const fault = z.strictObject({
  code: z.string().regex(/^[a-z0-9-]{1,60}$/),
  sentence: z.string().min(1).max(TEXT_LENGTH_MAX),
  /** Dotted path of the field in the request that is at fault, "specimen.geometry.width[1]". */
  field: z.string().max(TEXT_LENGTH_MAX).optional(),
  /** What a library or the system itself said, in one line; shown apart from the sentence, if at all. */
  detail: z.string().max(TEXT_LENGTH_MAX).optional(),
});
export type Fault = z.infer<typeof fault>;

/** What a request comes back as, on the socket and over the bridge. */
export type Answer<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly fault: Fault };

/** A request or a reply without content. */
export const nothing = z.strictObject({});

/** Milliseconds since 1970 on the wall clock; for people, never for intervals. */
export const wallMs = z.number().int().nonnegative();
/** Minutes that the local clock was ahead of UTC at a moment. */
export const utcOffsetMinutes = z.number().int().min(-1080).max(1080);
/** Microseconds on the monotonic clock since the pull's record began. */
export const elapsedUs = z.number().int().nonnegative();
/** A row's number in the archive. */
export const rowId = z.number().int().positive();
/** Number of a reading within its pull, from 0. */
export const readingSeq = z.number().int().nonnegative();

type TypedArrayName = 'Float64Array' | 'Int8Array' | 'Uint8Array' | 'Int32Array';
interface TypedArrays {
  Float64Array: Float64Array;
  Int8Array: Int8Array;
  Uint8Array: Uint8Array;
  Int32Array: Int32Array;
}

/** A typed array by its name rather than by its constructor, which differs from one context of a page to the next. */
export function column<N extends TypedArrayName>(name: N): z.ZodType<TypedArrays[N], TypedArrays[N]> {
  return z.custom<TypedArrays[N]>(
    (value) =>
      ArrayBuffer.isView(value) && (value as unknown as Record<symbol, unknown>)[Symbol.toStringTag] === name,
    `must be a ${name}`,
  );
}
