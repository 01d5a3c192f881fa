/** Messages between processes: whole and exact through any cutting, and never misread. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MESSAGE_BYTES_MAX } from '../../../core/limits.ts';
import {
  FrameError,
  type Message,
  MessageReader,
  encodeMessage,
} from '../../../electron/recorder/message-frame.ts';

const column = fc.oneof(
  fc.float64Array({ maxLength: 20 }),
  fc.int32Array({ maxLength: 20 }),
  fc.int8Array({ maxLength: 20 }),
  fc.uint8Array({ maxLength: 20 }),
);
const body = fc.record({
  text: fc.string({ unit: 'grapheme' }),
  columns: fc.array(column, { maxLength: 5 }),
  deep: fc.record({ inside: fc.oneof(column, fc.constant(null), fc.integer()) }),
});
const message: fc.Arbitrary<Message> = fc.record({
  head: fc.oneof(
    fc.record({ kind: fc.constant('answer' as const), id: fc.nat() }),
    fc.record({ kind: fc.constant('event' as const), name: fc.constant('readings') }),
  ),
  body,
});

describe('messages', () => {
  it('come out as they went in, however the stream is cut', () => {
    fc.assert(
      fc.property(fc.array(message, { maxLength: 4 }), fc.integer({ min: 1, max: 97 }), (messages, size) => {
        const stream = Buffer.concat(messages.map((m) => encodeMessage(m)));
        const reader = new MessageReader();
        const got: Message[] = [];
        for (let at = 0; at < stream.length; at += size)
          got.push(...reader.push(stream.subarray(at, at + size)));
        expect(got).toEqual(messages);
      }),
      { numRuns: 150 },
    );
  });

  it('keep NaN, negative zero and every bit of a double', () => {
    const values = new Float64Array([Number.NaN, -0, 5e-324, 1 / 3, Number.MAX_VALUE]);
    const [got] = new MessageReader().push(
      Buffer.from(encodeMessage({ head: { kind: 'answer', id: 1 }, body: { values } })),
    );
    expect((got?.body as { values: Float64Array } | undefined)?.values).toEqual(values);
  });

  it('end the connection when they name an impossible length or header', () => {
    const lengths = (total: number, header: number): Buffer => {
      const bytes = Buffer.alloc(64);
      bytes.writeUInt32LE(total, 0);
      bytes.writeUInt32LE(header, 4);
      return bytes;
    };
    expect(() => new MessageReader().push(lengths(MESSAGE_BYTES_MAX + 1, 10))).toThrow(FrameError);
    expect(() => new MessageReader().push(lengths(3, 1))).toThrow(FrameError);
    expect(() => new MessageReader().push(lengths(64, 4000))).toThrow(FrameError);
    expect(() => new MessageReader().push(lengths(64, 20))).toThrow(FrameError);
    expect(() => new MessageReader().push(Buffer.from('GET / HTTP/1.1\r\nHost: x\r\n\r\n'))).toThrow(
      FrameError,
    );
  });

  it('end the connection when a column is named that is not there', () => {
    const whole = Buffer.from(
      encodeMessage({ head: { kind: 'answer', id: 1 }, body: { a: new Uint8Array(8) } }),
    );
    const swapped = Buffer.from(whole.toString('latin1').replace('"$column":0', '"$column":7'), 'latin1');
    expect(() => new MessageReader().push(swapped)).toThrow(FrameError);
  });

  it('are refused when they are too long to be sent', () => {
    expect(() =>
      encodeMessage({ head: { kind: 'answer', id: 1 }, body: new Uint8Array(MESSAGE_BYTES_MAX) }),
    ).toThrow(RangeError);
  });
});
