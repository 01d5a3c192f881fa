/** Columns of what is held in memory as bytes, and back. Whatever is not what was written is null, never a guess. */
import { z } from 'zod';

type Numbers = Uint16Array | Int32Array | Uint32Array | Float64Array;
interface Kind<T extends Numbers> {
  readonly BYTES_PER_ELEMENT: number;
  new (buffer: ArrayBuffer): T;
}

/** In the byte order of all systems that the program runs on. */
export const bytesOf = (numbers: Numbers | Uint8Array): Uint8Array =>
  new Uint8Array(numbers.buffer, numbers.byteOffset, numbers.byteLength).slice();

export function numbersOf<T extends Numbers>(bytes: Uint8Array | null, kind: Kind<T>): T | null {
  if (bytes === null || bytes.byteLength % kind.BYTES_PER_ELEMENT !== 0) return null;
  // Numbers must begin at a multiple of their size, which bytes need not.
  return new kind(Uint8Array.from(bytes).buffer);
}

const saved = z.strictObject({ texts: z.array(z.string()), at: z.array(z.int().nonnegative()).optional() });

/** Texts that many pulls have stand once. */
export function textsAsBytes(texts: readonly string[]): Uint8Array {
  const places = new Map<string, number>();
  for (const text of texts) if (!places.has(text)) places.set(text, places.size);
  const body =
    places.size * 2 > texts.length
      ? { texts }
      : { texts: [...places.keys()], at: texts.map((text) => places.get(text) ?? 0) };
  return Buffer.from(JSON.stringify(body), 'utf8');
}

export function textsFromBytes(bytes: Uint8Array | null): readonly string[] | null {
  if (bytes === null) return null;
  try {
    const { texts, at } = saved.parse(JSON.parse(Buffer.from(bytes).toString('utf8')));
    if (at === undefined) return texts;
    return at.every((one) => one < texts.length) ? at.map((one) => texts[one] ?? '') : null;
  } catch {
    return null;
  }
}
