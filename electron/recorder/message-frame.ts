/**
 * Messages on the recorder's socket: u32 total length, u32 header length, a JSON header, then the bytes of the
 * typed columns that the header names (little-endian). No serialisation of any one engine: main runs another.
 */
import { z } from 'zod';
import { MESSAGE_BYTES_MAX } from '../../core/limits.ts';

const LENGTH_BYTES = 8;
const ALIGNMENT = 8;
const COLUMNS_MAX = 4_096;

const COLUMN_TYPES = { Float64Array, Int32Array, Int8Array, Uint8Array } as const;
type ColumnType = keyof typeof COLUMN_TYPES;
type Column = InstanceType<(typeof COLUMN_TYPES)[ColumnType]>;

/** What a message is; the body is checked by the contract afterwards. */
export const messageKind = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('request'), id: z.int().nonnegative(), name: z.string().max(100) }),
  z.strictObject({ kind: z.literal('answer'), id: z.int().nonnegative() }),
  z.strictObject({ kind: z.literal('event'), name: z.string().max(100) }),
  /** The client has taken the last `readings` event and wants the next. */
  z.strictObject({ kind: z.literal('taken') }),
]);
export type MessageKind = z.infer<typeof messageKind>;

export interface Message {
  readonly head: MessageKind;
  readonly body: unknown;
}

const header = z.strictObject({
  head: messageKind,
  body: z.unknown(),
  columns: z
    .array(
      z.tuple([
        z.enum(Object.keys(COLUMN_TYPES) as [ColumnType, ...ColumnType[]]),
        z.int().nonnegative().max(MESSAGE_BYTES_MAX),
      ]),
    )
    .max(COLUMNS_MAX),
});

/** What came is no message of this program; the connection must be ended. */
export class FrameError extends Error {
  override readonly name = 'FrameError';
}

/** One message as bytes. Typed arrays anywhere in the body become columns. Throws a RangeError when it is too long. */
export function encodeMessage({ head, body }: Message): Uint8Array {
  const columns: Column[] = [];
  const text = JSON.stringify({
    head,
    body: body === undefined ? null : withReferences(body, columns),
    columns: columns.map((column) => [typeOf(column), column.length]),
  });
  const headerBytes = Buffer.from(text, 'utf8');
  const columnsAt = padded(LENGTH_BYTES + headerBytes.length);
  let total = columnsAt;
  for (const column of columns) total = padded(total + column.byteLength);
  if (total > MESSAGE_BYTES_MAX) throw new RangeError(`a message of ${total} bytes is too long`);
  const frame = Buffer.alloc(total);
  frame.writeUInt32LE(total, 0);
  frame.writeUInt32LE(headerBytes.length, 4);
  frame.set(headerBytes, LENGTH_BYTES);
  let at = columnsAt;
  for (const column of columns) {
    frame.set(new Uint8Array(column.buffer, column.byteOffset, column.byteLength), at);
    at = padded(at + column.byteLength);
  }
  return frame;
}

function withReferences(value: unknown, columns: Column[]): unknown {
  if (isColumn(value)) return { $column: columns.push(value) - 1 };
  if (Array.isArray(value)) return value.map((item) => withReferences(item, columns));
  if (typeof value === 'object' && value !== null)
    return Object.fromEntries(
      Object.entries(value).map(([key, item]) => [key, withReferences(item, columns)]),
    );
  return value;
}

function isColumn(value: unknown): value is Column {
  return Object.values(COLUMN_TYPES).some((type) => value instanceof type);
}

function typeOf(column: Column): ColumnType {
  if (column instanceof Float64Array) return 'Float64Array';
  if (column instanceof Int32Array) return 'Int32Array';
  return column instanceof Int8Array ? 'Int8Array' : 'Uint8Array';
}

const padded = (at: number): number => Math.ceil(at / ALIGNMENT) * ALIGNMENT;

function decodeFrame(frame: Buffer): Message {
  const headerLength = frame.readUInt32LE(4);
  if (headerLength > frame.length - LENGTH_BYTES) throw new FrameError('a message names too long a header');
  let json: unknown;
  try {
    json = JSON.parse(frame.toString('utf8', LENGTH_BYTES, LENGTH_BYTES + headerLength));
  } catch {
    throw new FrameError('the header of a message is no JSON');
  }
  const checked = header.safeParse(json);
  if (!checked.success) throw new FrameError(`the header of a message is wrong: ${checked.error.message}`);
  const { head, body, columns: told } = checked.data;
  let at = padded(LENGTH_BYTES + headerLength);
  const columns = told.map(([type, length]) => {
    const bytes = length * COLUMN_TYPES[type].BYTES_PER_ELEMENT;
    if (at + bytes > frame.length) throw new FrameError('a message is shorter than its columns');
    // Copied: a view on the frame would keep the whole frame alive and might not be aligned.
    const copy = frame.buffer.slice(frame.byteOffset + at, frame.byteOffset + at + bytes);
    at = padded(at + bytes);
    return new COLUMN_TYPES[type](copy as ArrayBuffer);
  });
  return { head, body: withColumns(body, columns) };
}

function withColumns(value: unknown, columns: readonly Column[]): unknown {
  if (Array.isArray(value)) return value.map((item) => withColumns(item, columns));
  if (typeof value !== 'object' || value === null) return value;
  if ('$column' in value) {
    const column = typeof value.$column === 'number' ? columns[value.$column] : undefined;
    if (column === undefined) throw new FrameError('a message names a column that it has not');
    return column;
  }
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, withColumns(item, columns)]));
}

/** Puts messages together from the pieces that a socket gives. */
export class MessageReader {
  #pieces: Buffer[] = [];
  #length = 0;

  /** Messages that ended in this piece. Throws a FrameError where the stream is no stream of messages. */
  push(piece: Buffer): Message[] {
    this.#pieces.push(piece);
    this.#length += piece.length;
    const messages: Message[] = [];
    while (this.#length >= LENGTH_BYTES) {
      const total = this.#join(LENGTH_BYTES).readUInt32LE(0);
      if (total < LENGTH_BYTES || total > MESSAGE_BYTES_MAX)
        throw new FrameError(`a message of ${total} bytes is not possible`);
      if (this.#length < total) break;
      const joined = this.#join(total);
      messages.push(decodeFrame(joined.subarray(0, total)));
      const rest = joined.subarray(total);
      this.#pieces[0] = rest;
      this.#length -= total;
    }
    return messages;
  }

  /** The first piece, at least so long; joined only when needed. */
  #join(least: number): Buffer {
    const [first] = this.#pieces;
    if (first !== undefined && first.length >= least) return first;
    const joined = Buffer.concat(this.#pieces);
    this.#pieces = [joined];
    return joined;
  }
}
