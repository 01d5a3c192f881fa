/** A misspelt field is told with the nearest one that there is, as one fault. */
import { expect, it } from 'vitest';
import { nearName } from '../../../core/near-name.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';

const FLAT = { kind: 'flat', width: '12.5 mm', thickness: '6 mm' };

function faultsOf(specimen: unknown): string[] {
  const read = readSpecimen(specimen);
  return read.ok ? [] : read.faults.map(({ field, sentence }) => `[${field}] ${sentence}`);
}

it.each<[string, unknown, RegExp]>([
  [
    'at the top',
    { id: 'T-1', geometry: FLAT, gaugeLenght: '50 mm' },
    /^\[gaugeLenght\].*write "gaugeLength"/,
  ],
  ['in other letters', { id: 'T-1', geometry: FLAT, gauge_length: '50 mm' }, /write "gaugeLength"/],
  [
    'within the shape, where a needed one is missing thereby',
    { id: 'T-1', geometry: { kind: 'flat', widht: '12.5 mm', thickness: '6 mm' } },
    /^\[geometry\.widht\] geometry\.widht: there is no such field here; write "width" if that is meant, or remove it\.$/,
  ],
  [
    'of another shape',
    { id: 'T-1', geometry: { ...FLAT, diameter: '12 mm' } },
    /^\[geometry\.diameter\].*there can be "kind", "width" and "thickness"/,
  ],
  ['like no other', { id: 'T-1', geometry: FLAT, colour: 'red' }, /^\[colour\].*remove it or correct/],
])('%s', (_where, specimen, expected) => {
  const faults = faultsOf(specimen);
  expect(faults).toHaveLength(1);
  expect(faults[0]).toMatch(expected);
});

it('is not told a field that stands there already', () => {
  expect(
    faultsOf({ id: 'T-1', geometry: FLAT, gaugeLength: '50 mm', gaugeLenght: '50 mm' })[0],
  ).not.toContain('write "gaugeLength"');
});

it('knows a swapped pair of letters for one mistake, and no near name for none', () => {
  expect(nearName('widht', ['wall', 'width', 'weight'])).toBe('width');
  expect(nearName('id', ['od', 'length'])).toBe(null);
  expect(nearName('', ['width'])).toBe(null);
});
