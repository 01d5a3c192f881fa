/** A source typed as one text: each kind has its form, a path is a port, and what is no address is answered with its form. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addressOf, sourceFromAddress } from '../../../core/contract/source-address.ts';
import type { Source } from '../../../core/contract/source.ts';

describe('a typed source', () => {
  it.each<[string, Source]>([
    ['/dev/ttyUSB0', { kind: 'serial', path: '/dev/ttyUSB0' }],
    ['  COM3 ', { kind: 'serial', path: 'COM3' }],
    ['tcp:10.0.0.7:4001', { kind: 'tcp', host: '10.0.0.7', port: 4001 }],
    // A host with colons stands in brackets: RFC 3986, section 3.2.2 (from memory).
    ['tcp:[::1]:4001', { kind: 'tcp', host: '::1', port: 4001 }],
    ['modbus-tcp:frame.shop:1502#7', { kind: 'modbus-tcp', host: 'frame.shop', port: 1502, unitId: 7 }],
    // Port 502 is the one registered for Modbus (IANA service names and port numbers: mbap; from memory).
    ['modbus-tcp:frame.shop', { kind: 'modbus-tcp', host: 'frame.shop', port: 502, unitId: 1 }],
    ['modbus-rtu:/dev/ttyUSB0#12', { kind: 'modbus-rtu', path: '/dev/ttyUSB0', unitId: 12 }],
    ['modbus-rtu:COM4', { kind: 'modbus-rtu', path: 'COM4', unitId: 1 }],
    ['replay:/data/pull 7#a.bin', { kind: 'replay', file: '/data/pull 7#a.bin' }],
  ])('%s', (text, source) => {
    expect(sourceFromAddress(text)).toEqual({ ok: true, source });
  });

  it.each([
    ['', /needs a path/],
    ['tcp:10.0.0.7', /tcp:HOST:PORT/],
    ['tcp:10.0.0.7:0', /tcp:HOST:PORT/],
    ['tcp:10.0.0.7:70000', /tcp:HOST:PORT/],
    ['tcp:::1:4001', /tcp:HOST:PORT/],
    // A unit is one byte: Modbus messaging on TCP/IP V1.0b, 3.1.3 (from memory).
    ['modbus-tcp:host:502#256', /modbus-tcp:HOST:PORT#UNIT/],
    // Unit 0 is the broadcast address of a serial line, which nobody answers: Modbus over serial line V1.02, 2.2 (from memory).
    ['modbus-rtu:/dev/ttyUSB0#0', /modbus-rtu:PATH#UNIT/],
    ['modbus-rtu:#1', /modbus-rtu:PATH#UNIT/],
    ['replay:', /replay:FILE/],
  ])('"%s" is refused with the form', (text, words) => {
    expect(sourceFromAddress(text)).toEqual({ ok: false, sentence: expect.stringMatching(words) as string });
  });

  it('comes back from what is written for it', () => {
    const host = fc.constantFrom('10.0.0.7', 'frame.shop', '::1', 'fe80::2');
    const port = fc.integer({ min: 1, max: 65_535 });
    const path = fc.constantFrom('/dev/ttyUSB0', 'COM3', '/dev/serial/by-id/a b');
    const unitId = fc.integer({ min: 1, max: 247 });
    fc.assert(
      fc.property(
        fc.oneof(
          fc.record({ kind: fc.constant('serial' as const), path }),
          fc.record({ kind: fc.constant('tcp' as const), host, port }),
          fc.record({ kind: fc.constant('modbus-tcp' as const), host, port, unitId }),
          fc.record({ kind: fc.constant('modbus-rtu' as const), path, unitId }),
          fc.record({ kind: fc.constant('replay' as const), file: path }),
        ),
        (source) => {
          expect(sourceFromAddress(addressOf(source) ?? '')).toEqual({ ok: true, source });
        },
      ),
    );
  });
});
