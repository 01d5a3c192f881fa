import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Area, type AreaOptions, area } from '../../../core/results/area.ts';
import { shopStrength } from '../../../core/results/shop-area.ts';
import { convert } from '../../../core/quantity/units.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';

function areaOf(geometry: object, options: AreaOptions = {}): Area {
  const specimen = readSpecimen({ id: 'T-1', geometry });
  if (!specimen.ok) throw new Error(specimen.faults[0]?.sentence);
  const outcome = area(specimen.specimen.geometry, options);
  if (!outcome.ok) throw new Error(outcome.withheld.reason);
  return outcome.area;
}

const flat = {
  kind: 'flat',
  width: ['12.50 mm', '12.52 mm', '12.46 mm'],
  thickness: ['6.01 mm', '6.00 mm', '6.05 mm'],
};

describe('which section counts', () => {
  it('is the mean of the measurements unless another rule is asked for', () => {
    const result = areaOf(flat);
    expect(result.areaMm2).toBeCloseTo(((12.5 + 12.52 + 12.46) / 3) * ((6.01 + 6 + 6.05) / 3), 12);
    expect(result.result.working.source).toMatch(/ISO 6892-1/);
  });

  it('is the least section for ASME IX and API 1104, of width and thickness measured together', () => {
    const result = areaOf(flat, { section: 'least' });
    expect(result.areaMm2).toBeCloseTo(12.52 * 6.0, 12);
    expect(result.result.working.source).toMatch(/QW-152.*API 1104/);
  });

  it('takes the smallest of each where they were not measured equally often, and says what that does', () => {
    const result = areaOf({ ...flat, thickness: ['6.01 mm', '6.05 mm'] }, { section: 'least' });
    expect(result.areaMm2).toBeCloseTo(12.46 * 6.01, 12);
    expect(result.result.remarks?.[0]).toMatch(/strength too high/);
  });

  it('is the middle measurement for the centre', () => {
    expect(areaOf(flat, { section: 'centre' }).areaMm2).toBeCloseTo(12.52 * 6, 12);
  });

  it('shows mean, least and spread whichever of them counts', () => {
    const result = areaOf(flat, { section: 'centre' });
    expect(result.leastMm2).toBeLessThanOrEqual(result.meanMm2);
    expect(result.spread?.count).toBe(3);
    expect(result.spread?.minMm2).toBeCloseTo(12.52 * 6, 12);
    expect(result.spread?.maxMm2).toBeCloseTo(12.46 * 6.05, 12);
  });
});

describe("the shop's arithmetic beside the unrounded one", () => {
  it('rounds the area first and then divides (common practice, no source)', () => {
    const { shop } = areaOf({ kind: 'flat', width: '0.5125 in', thickness: '0.1175 in' });
    expect(shop.text).toBe('0.06022');
    expect(shop.unit).toBe('in²');
    const strength = shopStrength(convert(3815, 'lbf', 'N'), shop);
    expect(Math.round(strength.onRoundedArea)).toBe(63_351);
    expect(Math.round(strength.onUnroundedArea)).toBe(63_352);
  });

  it('stays in square millimetres where any dimension was typed in millimetres', () => {
    expect(areaOf({ kind: 'flat', width: '0.5 in', thickness: '3 mm' }).shop.unit).toBe('mm²');
  });
});

describe('a strip cut from pipe', () => {
  const strip = { kind: 'pipe-strip', width: '19.0 mm', wall: '3.91 mm', outerDiameter: '60.3 mm' };

  it('uses the exact form unless a standard allows the one asked for', () => {
    const refused = areaOf(strip, { sectionForm: 'simplified' });
    expect(refused.areaMm2).toBeCloseTo(75.781, 3);
    expect(refused.result.remarks?.[0]).toMatch(/0\.315 is not below 0\.25/);
    expect(refused.arcForms?.find((f) => f.used)?.form).toBe('arc');
  });

  it('says which edition allows width times wall and which does not', () => {
    const between = areaOf({ ...strip, width: '8 mm' }, { sectionForm: 'plain' });
    expect(between.areaMm2).toBeCloseTo(8 * 3.91, 12);
    expect(between.result.remarks?.[0]).toMatch(/allowed here by the limit 0\.17.*not by 0\.1 /);
  });

  it('tends to width times wall as the pipe grows, in every form', () => {
    const wide = areaOf({ ...strip, outerDiameter: '1000000 mm' });
    for (const form of wide.arcForms ?? []) expect(form.areaMm2 / (19 * 3.91)).toBeCloseTo(1, 6);
  });

  it('agrees with the integral of the two arcs', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 800, noNaN: true }),
        fc.double({ min: 0.02, max: 0.4, noNaN: true }),
        fc.double({ min: 0.05, max: 0.99, noNaN: true }),
        (D, wallShare, widthShare) => {
          const T = (D * wallShare) / 1;
          const W = (D - 2 * T) * widthShare;
          const result = areaOf({
            kind: 'pipe-strip',
            outerDiameter: `${D.toFixed(6)} mm`,
            wall: `${T.toFixed(6)} mm`,
            width: `${W.toFixed(6)} mm`,
          });
          expect(result.areaMm2 / stripByMidpoints(D, T, W)).toBeCloseTo(1, 4);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('reaches the bore, and no further', () => {
    expect(areaOf({ ...strip, width: '52.48 mm' }).areaMm2).toBeGreaterThan(52.48 * 3.91);
    const wider = readSpecimen({ id: 'x', geometry: { ...strip, width: '52.49 mm' } });
    expect(wider.ok).toBe(false);
  });
});

/** Height between outer and inner arc, summed over the width (midpoint rule): geometry, nothing of the program. */
function stripByMidpoints(D: number, T: number, W: number): number {
  const steps = 4_000;
  let sum = 0;
  for (let i = 0; i < steps; i++) {
    const x = (W * (i + 0.5)) / steps - W / 2;
    sum += Math.sqrt((D / 2) ** 2 - x ** 2) - Math.sqrt((D / 2 - T) ** 2 - x ** 2);
  }
  return (sum * W) / steps;
}

describe('an area of lengths typed in both systems', () => {
  const mixed = { kind: 'flat', width: '12.47 mm', thickness: '0.2406 in' } as const;

  it('stands in mm², or in in² where people read in it; the section is the same', () => {
    const [si, us] = (['mm²', 'in²'] as const).map((mixedUnit) => areaOf(mixed, { mixedUnit }));
    expect(si?.areaMm2).toBeCloseTo(12.47 * 0.2406 * 25.4, 9);
    expect(us?.areaMm2).toBe(si?.areaMm2);
    expect([si?.result.rounded[0]?.unit, us?.result.rounded[0]?.unit]).toEqual(['mm²', 'in²']);
    expect(us?.shop.text).toBe('0.1181');
  });
});

describe('every area', () => {
  it('carries a working with each dimension, its unit and where it came from', () => {
    const { result } = areaOf({ kind: 'weighed', mass: '158 g', length: '100 mm', density: '7.85 g/cm3' });
    expect(result.value).toBeCloseTo(158 / (0.00785 * 100), 9);
    expect(result.working.inputs.map((i) => [i.symbol, i.value, i.unit])).toEqual([
      ['m', 158, 'g'],
      ['Lt', 100, 'mm'],
      ['ρ', 7.85, 'g/cm³'],
    ]);
    expect(result.working.substituted).toContain('158 g / (7.85 g/cm³ × 100 mm)');
  });

  it('grows with every dimension but a bore', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 100, max: 5000 }),
        fc.integer({ min: 1, max: 500 }),
        (hundredths, more) => {
          const at = (d: number) => areaOf({ kind: 'round', diameter: `${(d / 100).toFixed(2)} mm` }).areaMm2;
          expect(at(hundredths + more)).toBeGreaterThan(at(hundredths));
        },
      ),
      { numRuns: 50 },
    );
  });
});
