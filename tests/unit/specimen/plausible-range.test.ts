/** What a calliper sends is asked about where no specimen of that shape has such a size. */
import { describe, expect, it } from 'vitest';
import {
  PLAUSIBLE,
  outsideRange,
  plausibleRange,
  sizesOutsideRange,
} from '../../../core/specimen/plausible-range.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';

describe('a size outside of what is made', () => {
  it('is asked about: a lost decimal point, the other unit', () => {
    expect(outsideRange('flat', 'thickness', '24.9 in')).toEqual({
      text: '24.9 in',
      usual: '0.002 to 3.9 in',
    });
    expect(outsideRange('flat', 'thickness', '0.249 in')).toBeNull();
    expect(outsideRange('round', 'diameter', '505 mm')).not.toBeNull();
    expect(outsideRange('flat', 'gaugeLength', '2 mm')?.usual).toBe('4 to 500 mm');
  });

  it('is told in the unit that was sent, with or without a blank before it', () => {
    expect(outsideRange('flat', 'width', '+752.0in')?.usual).toMatch(/ in$/);
    expect(outsideRange('flat', 'width', '1910.00mm')?.usual).toMatch(/ mm$/);
  });

  it('leaves to others what can’t be read, and what is no length', () => {
    expect(outsideRange('flat', 'width', 'Err')).toBeNull();
    expect(outsideRange('flat', 'width', '')).toBeNull();
    expect(outsideRange('weighed', 'mass', '24.9 in')).toBeNull();
  });
});

describe('the ranges', () => {
  // ASTM E8/E8M Fig. 1 and Fig. 8: plate 1.5 in +0.125, sheet 0.5 in, subsize 0.25 in wide; rounds 0.113 to 0.5 in.
  it.each([
    ['flat', 'width', '1.625 in'],
    ['flat', 'width', '0.245 in'],
    ['flat', 'thickness', '0.005 in'],
    ['flat', 'thickness', '3/4 in'],
    ['round', 'diameter', '0.500 in'],
    ['round', 'diameter', '0.113 in'],
    ['flat', 'gaugeLength', '8.00 in'],
    ['round', 'gaugeLength', '0.450 in'],
    // ISO 4136 Table 2 (from memory): strips 6 to 25 mm from pipe of 50 to over 168.3 mm.
    ['pipe-strip', 'width', '6 mm'],
    ['pipe-strip', 'outerDiameter', '168.3 mm'],
  ] as const)('let pass what the standards draw: %s %s %s', (kind, field, text) => {
    expect(outsideRange(kind, field, text)).toBeNull();
  });

  it('each name their source and are in order', () => {
    for (const fields of Object.values(PLAUSIBLE))
      for (const range of Object.values(fields)) {
        expect(range?.source).toMatch(/\w/);
        expect(range?.minMm).toBeLessThan(range?.maxMm ?? 0);
      }
    expect(plausibleRange('flat', 'nothing')).toBeNull();
  });
});

describe('sizes of a specimen that came from a file', () => {
  const remarks = (changes: object): string[] => {
    const read = readSpecimen({
      id: 'T-1',
      geometry: { kind: 'flat', width: ['12.7 mm', '12.6 mm'], thickness: '6 mm' },
      gaugeLength: '50 mm',
      ...changes,
    });
    if (!read.ok) throw new Error(read.faults[0]?.sentence);
    return sizesOutsideRange(read.specimen);
  };

  it('are remarked on, one sentence each, and none where all are usual', () => {
    expect(remarks({})).toEqual([]);
    expect(
      remarks({ geometry: { kind: 'flat', width: ['12.7 mm', '1270 mm'], thickness: '24.9 in' } }),
    ).toEqual([
      expect.stringMatching(/^T-1: width 1270 mm is not what such a specimen has, 2 to 100 mm/),
      expect.stringMatching(/thickness 24\.9 in .* in; check the decimal point/),
    ]);
  });

  it('after fracture by what was measured before: no shorter, no wider, no more than two and a half times as long', () => {
    expect(remarks({ finalGaugeLength: '61.5 mm', finalWidth: '9.1 mm', finalThickness: '4 mm' })).toEqual(
      [],
    );
    expect(remarks({ finalGaugeLength: '6.15 mm' })).toEqual([
      expect.stringMatching(/finalGaugeLength 6\.15 mm .* 48 to 130 mm/),
    ]);
    expect(remarks({ finalWidth: '14 mm' })).toHaveLength(1);
    expect(remarks({ finalThickness: '0.4 mm' })).toHaveLength(1);
  });
});
