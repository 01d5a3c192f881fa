import fc from 'fast-check';
import { mean, standardDeviation, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';

const flat = { kind: 'flat', width: ['0.7510 in', '0.7505 in'], thickness: ['0.2485 in'] };

describe('a specimen file', () => {
  it('is read with each measurement as it was typed', () => {
    const outcome = readSpecimen({ id: 'T-1', geometry: flat, gaugeLength: '2 in' });
    if (!outcome.ok) throw new Error(outcome.faults[0]?.sentence);
    const { geometry, gaugeLength } = outcome.specimen;
    if (geometry.kind !== 'flat') throw new Error('not flat');
    expect(geometry.width.measurements.map((q) => q.text)).toEqual(['0.7510 in', '0.7505 in']);
    expect(geometry.width.mean).toBeCloseTo(0.75075 * 25.4, 12);
    expect(gaugeLength?.mean).toBe(50.8);
  });

  it.each([
    { kind: 'round', diameter: '12.5 mm' },
    { kind: 'tube', outerDiameter: '2.375 in', wall: '0.154 in' },
    { kind: 'pipe-strip', width: '19 mm', wall: '3.91 mm', outerDiameter: '60.3 mm' },
    { kind: 'weighed', mass: '158 g', length: '100 mm', density: '7.85 g/cm3' },
    { kind: 'flat', width: '12.7 mm', thickness: '1/4 in' },
  ])('takes the kind $kind', (geometry) => {
    expect(readSpecimen({ id: 'x', geometry }).ok).toBe(true);
  });

  it('has the mean and the spread that a statistics library gives', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1000, max: 2000 }), { minLength: 2, maxLength: 20 }),
        (thousandths) => {
          const mm = thousandths.map((t) => t / 100);
          const outcome = readSpecimen({
            id: 'x',
            geometry: { kind: 'round', diameter: mm.map((v) => `${v.toFixed(2)} mm`) },
          });
          if (!outcome.ok || outcome.specimen.geometry.kind !== 'round') throw new Error('refused');
          const { diameter } = outcome.specimen.geometry;
          expect(diameter.mean).toBeCloseTo(mean(mm), 12);
          expect(diameter.standardDeviation).toBeCloseTo(sampleStandardDeviation(mm), 10);
          expect(diameter.max - diameter.min).toBeGreaterThanOrEqual(standardDeviation(mm));
        },
      ),
    );
  });

  it('takes what was measured after the break', () => {
    const outcome = readSpecimen({
      id: 'x',
      geometry: flat,
      gaugeLength: '2 in',
      finalGaugeLength: ['2.61 in'],
      finalWidth: '0.60 in',
      finalThickness: ['0.15 in', '0.14 in', '0.15 in'],
      distanceToNearestMark: '0 in',
      fractureIntervals: { intervals: 10, between: 4, betweenLength: '30 mm', beyondLengths: ['17 mm'] },
    });
    expect(outcome.ok && outcome.specimen.distanceToNearestMarkMm).toBe(0);
    expect(outcome.ok && outcome.specimen.fractureIntervals?.beyondMm).toEqual([17]);
  });
});

describe('what is wrong in a specimen file is said with its field', () => {
  const round = (diameter: unknown, more: object = {}) => ({
    id: 'x',
    geometry: { kind: 'round', diameter },
    ...more,
  });
  it.each([
    [null, ''],
    [[], ''],
    [{}, 'id'],
    [{ id: 'x' }, 'geometry'],
    [{ id: '', geometry: { kind: 'round', diameter: '5 mm' } }, 'id'],
    [{ id: 'x', geometry: { kind: 'cube' } }, 'geometry.kind'],
    [round('0 mm'), 'geometry.diameter'],
    [round('-5 mm'), 'geometry.diameter'],
    [round('5'), 'geometry.diameter'],
    [round('5 furlong'), 'geometry.diameter'],
    [round(5), 'geometry.diameter'],
    [round(['5 mm', '0 mm']), 'geometry.diameter[1]'],
    [round([]), 'geometry.diameter'],
    [round('5 mm', { gaugeLength: '0 mm' }), 'gaugeLength'],
    [round('5 mm', { gaugeLength: '50' }), 'gaugeLength'],
    [round('5 mm', { colour: 'red' }), 'colour'],
    [{ id: 'x', geometry: { kind: 'tube', outerDiameter: '10 mm', wall: '5 mm' } }, 'geometry.wall'],
    [
      { id: 'x', geometry: { kind: 'pipe-strip', width: '9 mm', wall: '1 mm', outerDiameter: '10 mm' } },
      'geometry.width',
    ],
  ])('%j', (input, field) => {
    const outcome = readSpecimen(input);
    expect(outcome.ok).toBe(false);
    if (!outcome.ok) {
      expect(outcome.faults[0]?.field).toBe(field);
      expect(outcome.faults[0]?.sentence).toMatch(/\.$/);
      expect(outcome.faults[0]?.sentence).not.toContain('\n');
    }
  });

  it('never throws, whatever the JSON', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (input) => {
        expect(typeof readSpecimen(input).ok).toBe('boolean');
      }),
    );
  });
});
