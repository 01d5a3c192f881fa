/** What is measured on the broken specimen as entries of the form, and back. */
import { describe, expect, it } from 'vitest';
import { elongationAfterFracture } from '../../../core/results/elongation-after-fracture.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';
import type { SpecimenFile } from '../../../core/specimen/specimen-file.ts';
import {
  type IntervalEntry,
  afterFractureFaults,
  draftOf,
  saysTheSame,
  withMeasured,
} from '../../../renderer/stations/fracture/after-fracture-draft.ts';

const FILE: SpecimenFile = {
  id: 'T-1',
  geometry: { kind: 'round', diameter: '10 mm' },
  gaugeLength: '50 mm',
};

const typed = (intervals: Partial<Record<IntervalEntry, string>>): SpecimenFile => {
  const empty = draftOf(FILE);
  return withMeasured(FILE, { ...empty, intervals: { ...empty.intervals, ...intervals } });
};
const elongation = (file: SpecimenFile): number | undefined => {
  const read = readSpecimen(file);
  const finding = read.ok ? elongationAfterFracture(read.specimen) : null;
  return finding?.given === true ? finding.result.value : undefined;
};

describe('elongation by intervals', () => {
  it('of an even rest counts the length beyond Y twice (ISO 6892-1, annex; from memory)', () => {
    const file = typed({ intervals: '10', between: '4', betweenLength: '25 mm', beyond: '18 mm' });
    expect(elongation(file)).toBeCloseTo(((25 + 2 * 18 - 50) / 50) * 100, 12);
  });

  it('of an odd rest adds two lengths', () => {
    const file = typed({
      ...{ intervals: '10', between: '5', betweenLength: '31 mm' },
      ...{ beyond: '12 mm', beyondToo: '17.5 mm' },
    });
    expect(elongation(file)).toBeCloseTo(((31 + 12 + 17.5 - 50) / 50) * 100, 12);
  });

  it('stays as it was where nobody touches it, and goes where it is emptied', () => {
    const file = typed({ intervals: '10', between: '4', betweenLength: '25 mm', beyond: '18 mm' });
    expect(withMeasured(file, draftOf(file))).toEqual(file);
    expect(saysTheSame(file, draftOf(file))).toBe(true);
    const emptied = { ...draftOf(file), intervals: draftOf(FILE).intervals };
    expect(withMeasured(file, emptied)).toEqual(FILE);
    expect(saysTheSame(file, emptied)).toBe(false);
  });

  it('tells what is missing or wrong at its own entry', () => {
    const faults = (intervals: Partial<Record<IntervalEntry, string>>) =>
      afterFractureFaults(typed(intervals));
    const half = faults({ intervals: '10', between: '4' });
    expect([...half.faults.keys()]).toEqual(
      expect.arrayContaining(['fractureIntervals.betweenLength', 'fractureIntervals.beyondLengths[0]']),
    );
    expect(
      faults({ intervals: 'ten', between: '4', betweenLength: '25 mm', beyond: '18 mm' }).faults.get(
        'fractureIntervals.intervals',
      ),
    ).toMatch(/whole number|number/);
    expect(
      faults({ intervals: '10', between: '5', betweenLength: '31 mm', beyond: '12 mm' }).findings.get(
        'fractureIntervals.beyondLengths[0]',
      ),
    ).toMatch(/two lengths from Y/);
  });
});
