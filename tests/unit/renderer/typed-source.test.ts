/** What is typed where a port goes by its path: any source by its address, and nothing that can be opened before it is whole. */
import { describe, expect, it } from 'vitest';
import { addressOf } from '../../../core/contract/source-address.ts';
import { typedSource } from '../../../renderer/stations/readout/readout-choice.ts';

describe('the port typed by hand', () => {
  it('is a path, or the address of another source, which stands in the field again later', () => {
    expect(typedSource(' /dev/ttyUSB3 ')).toEqual({ kind: 'serial', path: '/dev/ttyUSB3' });
    const server = typedSource('tcp:10.0.0.7:4001');
    expect(server).toEqual({ kind: 'tcp', host: '10.0.0.7', port: 4001 });
    expect(addressOf(server)).toBe('tcp:10.0.0.7:4001');
  });

  it('has no path while the address is being typed', () => {
    for (const text of ['', 'tcp:', 'tcp:10.0.0.7', 'modbus-tcp:', 'replay:'])
      expect(typedSource(text), text).toEqual({ kind: 'serial', path: '' });
  });
});
