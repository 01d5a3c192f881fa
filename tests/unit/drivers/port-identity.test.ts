import { describe, expect, it } from 'vitest';
import type { ListedPort, PortIdentity } from '../../../core/contract/source.ts';
import { placeOfIdentity } from '../../../drivers/serial/place-of-identity.ts';
import { compareIdentity, matchIdentity } from '../../../drivers/serial/port-identity.ts';

const adapter: PortIdentity = {
  vendorId: '0403',
  productId: '6001',
  serialNumber: 'K7Q2WX',
  location: 'usb-1-2',
};
const port = (path: string, identity: PortIdentity): ListedPort => ({ path, identity });

describe('clues are compared, the strongest first (S5)', () => {
  it.each<[string, PortIdentity, PortIdentity, string]>([
    ['the same number', adapter, { ...adapter, location: 'usb-3-1' }, 'same'],
    [
      'letter case and 0x',
      adapter,
      { vendorId: '0x0403', productId: '0x6001', serialNumber: 'k7q2wx' },
      'same',
    ],
    ['a channel letter appended by a driver', adapter, { ...adapter, serialNumber: 'K7Q2WXA' }, 'same'],
    ['another number', adapter, { ...adapter, serialNumber: 'K7Q2WY' }, 'another'],
    ['another product', adapter, { ...adapter, productId: '6015' }, 'another'],
    ['another vendor', { ...adapter, serialNumber: undefined }, { vendorId: '1a86' }, 'another'],
    [
      'no number on one side, same place',
      adapter,
      { vendorId: '0403', productId: '6001', location: 'usb-1-2' },
      'same',
    ],
    [
      'no number on one side, other place',
      adapter,
      { vendorId: '0403', productId: '6001', location: 'usb-1-3' },
      'unknown',
    ],
    [
      'part of an instance number instead of a serial number',
      adapter,
      { ...adapter, serialNumber: '6&2c3d8&0&0002', location: 'x' },
      'unknown',
    ],
    ['nothing known', adapter, {}, 'unknown'],
  ])('%s: %#', (_name, wanted, found, verdict) => {
    expect(compareIdentity(wanted, found)).toBe(verdict);
  });
});

describe('finding the adapter in the list', () => {
  it('goes by the number, not by the path (S4)', () => {
    const ports = [
      port('/dev/ttyUSB0', { ...adapter, serialNumber: 'OTHER1' }),
      port('/dev/ttyUSB1', adapter),
    ];
    expect(matchIdentity(adapter, ports)).toMatchObject({
      kind: 'found',
      port: { path: '/dev/ttyUSB1' },
      by: 'serial-number',
    });
  });

  it('goes by the place where two report the same number, and asks where the place does not decide (S5)', () => {
    const twins = [port('/dev/ttyUSB0', { ...adapter, location: 'usb-1-1' }), port('/dev/ttyUSB1', adapter)];
    expect(matchIdentity(adapter, twins)).toMatchObject({
      kind: 'found',
      port: { path: '/dev/ttyUSB1' },
      by: 'location',
    });
    const moved = twins.map((twin, index) =>
      port(twin.path, { ...twin.identity, location: `usb-9-${String(index)}` }),
    );
    expect(matchIdentity(adapter, moved)).toMatchObject({ kind: 'ask', candidates: moved });
  });

  it('takes the only one of its kind where neither has a number, and asks where there are two (S5)', () => {
    const nameless: PortIdentity = { vendorId: '1a86', productId: '7523', location: 'usb-1-4' };
    const one = port('/dev/ttyUSB3', { vendorId: '1a86', productId: '7523', location: 'usb-2-1' });
    expect(matchIdentity(nameless, [one, port('/dev/ttyUSB0', adapter)])).toMatchObject({
      kind: 'found',
      port: one,
    });
    const two = port('/dev/ttyUSB4', { vendorId: '1a86', productId: '7523', location: 'usb-2-2' });
    expect(matchIdentity(nameless, [one, two])).toMatchObject({ kind: 'ask' });
  });

  it('does not take one without a number for one that had it', () => {
    const nameless = port('/dev/ttyUSB0', { vendorId: '0403', productId: '6001', location: 'usb-5-5' });
    expect(matchIdentity(adapter, [nameless])).toMatchObject({ kind: 'ask' });
  });

  it('treats a number that many adapters share as none', () => {
    const common: PortIdentity = { vendorId: '067b', productId: '2303', serialNumber: '00000000' };
    const ports = [port('/dev/ttyUSB0', common), port('/dev/ttyUSB1', common)];
    expect(matchIdentity(common, ports)).toMatchObject({ kind: 'ask' });
  });
});

describe('which path is opened', () => {
  it('is the saved one while the same adapter is behind it', () => {
    expect(placeOfIdentity('/dev/ttyUSB0', adapter, [port('/dev/ttyUSB0', adapter)])).toEqual({
      kind: 'path',
      path: '/dev/ttyUSB0',
    });
  });

  it('is the new one where the adapter came back elsewhere, with a note (S4)', () => {
    const place = placeOfIdentity('/dev/ttyUSB0', adapter, [port('/dev/ttyUSB1', adapter)]);
    expect(place).toMatchObject({ kind: 'path', path: '/dev/ttyUSB1', note: { code: 'port-moved' } });
  });

  it('is refused, with both named, where the saved path now belongs to another instrument (S5)', () => {
    const place = placeOfIdentity('/dev/ttyUSB0', adapter, [
      port('/dev/ttyUSB0', { ...adapter, serialNumber: 'ZZ9' }),
    ]);
    expect(place).toMatchObject({ kind: 'refused', fault: { code: 'port-is-another' } });
    expect(place.kind === 'refused' ? place.fault.sentence : '').toMatch(/ZZ9.*K7Q2WX/);
  });

  it('follows two adapters that have changed places', () => {
    const other: PortIdentity = { ...adapter, serialNumber: 'ZZ9' };
    const swapped = [port('/dev/ttyUSB0', other), port('/dev/ttyUSB1', adapter)];
    expect(placeOfIdentity('/dev/ttyUSB0', adapter, swapped)).toMatchObject({
      kind: 'path',
      path: '/dev/ttyUSB1',
    });
    expect(placeOfIdentity('/dev/ttyUSB1', other, swapped)).toMatchObject({
      kind: 'path',
      path: '/dev/ttyUSB0',
    });
  });

  it('is missing where the adapter is not plugged in', () => {
    expect(placeOfIdentity('/dev/ttyUSB0', adapter, [port('/dev/ttyS0', {})])).toMatchObject({
      kind: 'refused',
      fault: { code: 'port-missing' },
    });
  });

  it('is the path alone for ports that have no identity', () => {
    expect(placeOfIdentity('/dev/pts/4', {}, [port('/dev/ttyUSB0', adapter)])).toEqual({
      kind: 'path',
      path: '/dev/pts/4',
    });
  });
});
