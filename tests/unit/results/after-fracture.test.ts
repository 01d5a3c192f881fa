import { describe, expect, it } from 'vitest';
import { elongationOnOtherLength } from '../../../core/results/elongation-conversion.ts';
import { elongationAfterFracture } from '../../../core/results/elongation-after-fracture.ts';
import { placeVerdicts } from '../../../core/results/fracture-place.ts';
import { reductionOfArea } from '../../../core/results/reduction-of-area.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';
import type { Specimen } from '../../../core/specimen/specimen.ts';

function specimen(more: object, geometry: object = { kind: 'round', diameter: '10 mm' }): Specimen {
  const outcome = readSpecimen({ id: 'T-1', geometry, gaugeLength: '50 mm', ...more });
  if (!outcome.ok) throw new Error(outcome.faults[0]?.sentence);
  return outcome.specimen;
}

const elongation = (more: object, requiredPercent?: number) =>
  elongationAfterFracture(specimen(more), requiredPercent === undefined ? {} : { requiredPercent });

describe('elongation after fracture', () => {
  it('is the change of the gauge length over the original one', () => {
    const finding = elongation({ finalGaugeLength: ['64.0 mm', '64.2 mm'], distanceToNearestMark: '30 mm' });
    expect(finding?.given && finding.result.value).toBeCloseTo(28.2, 12);
    expect(finding?.given && finding.result.method).toContain('gauge length 50 mm');
  });

  it('is not mentioned where nobody has measured the halves', () => {
    expect(elongation({})).toBeNull();
    expect(elongationAfterFracture(null)).toBeNull();
  });

  it('is withheld where the halves are shorter than before', () => {
    const finding = elongation({ finalGaugeLength: '49 mm' });
    expect(finding?.given).toBe(false);
  });

  it('is withheld where the original gauge length is missing', () => {
    const outcome = readSpecimen({
      id: 'x',
      geometry: { kind: 'round', diameter: '10 mm' },
      finalGaugeLength: '60 mm',
    });
    const finding = outcome.ok ? elongationAfterFracture(outcome.specimen) : null;
    expect(finding?.given === false && finding.withheld.code).toBe('no-gauge-length');
  });

  it('says that the place is not recorded', () => {
    const finding = elongation({ finalGaugeLength: '60 mm' });
    expect(finding?.given && finding.result.remarks?.[0]).toMatch(/not recorded/);
  });
});

describe('where it broke', () => {
  const verdicts = (distanceMm: number, requiredPercent?: number) =>
    placeVerdicts({
      gaugeLengthMm: 50,
      finalGaugeLengthMm: 60,
      distanceToNearestMarkMm: distanceMm,
      elongationPercent: 20,
      ...(requiredPercent === undefined ? {} : { requiredPercent }),
    }).map((v) => v.verdict);

  it('ISO takes a third of the gauge length from the nearer mark, ASTM the middle half', () => {
    expect(verdicts(50 / 3)).toEqual(['valid', 'valid']);
    expect(verdicts(16)).toEqual(['not-valid', 'valid']);
    expect(verdicts(15)).toEqual(['not-valid', 'valid']);
    expect(verdicts(14.99)).toEqual(['not-valid', 'not-valid']);
  });

  it('counts anywhere where the minimum is met', () => {
    expect(verdicts(1, 20)).toEqual(['meets-minimum', 'meets-minimum']);
    expect(verdicts(1, 20.1)).toEqual(['not-valid', 'not-valid']);
  });

  it('Watertown record 7363: a break in the first of three inches may be outside', () => {
    // 3 in gauge length, fracture somewhere in the first inch: at most 1 in from the mark (worked example 8).
    const record = placeVerdicts({
      gaugeLengthMm: 76.2,
      finalGaugeLengthMm: 76.2 * 1.2467,
      distanceToNearestMarkMm: 12.7,
      elongationPercent: 24.67,
    });
    expect(record.map((v) => v.verdict)).toEqual(['not-valid', 'not-valid']);
  });
});

describe('elongation by intervals, for a break near a mark', () => {
  // Ten intervals of 5 mm, uniform strain of 20 %: every length is 1.2 times its number of intervals.
  it('gives the uniform strain back, with an even and with an odd rest', () => {
    const even = elongation({
      fractureIntervals: { intervals: 10, between: 4, betweenLength: '24 mm', beyondLengths: ['18 mm'] },
    });
    expect(even?.given && even.result.value).toBeCloseTo(20, 12);
    const odd = elongation({
      fractureIntervals: {
        intervals: 10,
        between: 5,
        betweenLength: '30 mm',
        beyondLengths: ['12 mm', '18 mm'],
      },
    });
    expect(odd?.given && odd.result.value).toBeCloseTo(20, 12);
  });

  it('is withheld where the lengths do not fit the number of intervals', () => {
    const finding = elongation({
      fractureIntervals: { intervals: 10, between: 5, betweenLength: '30 mm', beyondLengths: ['12 mm'] },
    });
    expect(finding?.given).toBe(false);
  });
});

describe('elongation on another gauge length', () => {
  const on = (gaugeLengthMm: number, areaMm2: number) => ({ gaugeLengthMm, areaMm2 });

  it('ISO 2566-1 in the form 2·A·(√S0/L0)^0.4 for A on 5.65·√S0 (from memory)', () => {
    const from = on(5.65 * Math.sqrt(100), 100);
    const result = elongationOnOtherLength({ percent: 25, from, to: on(200, 400) }, 'carbon');
    expect(result.value).toBeCloseTo(2 * 25 * (20 / 200) ** 0.4, 1);
    expect(result.method).toMatch(/not measured/);
  });

  it('changes nothing on the same proportional gauge length', () => {
    const result = elongationOnOtherLength(
      { percent: 25, from: on(56.5, 100), to: on(113, 400) },
      'austenitic',
    );
    expect(result.value).toBeCloseTo(25, 12);
  });

  it('is the smaller the longer the gauge length', () => {
    const value = (l: number) =>
      elongationOnOtherLength({ percent: 25, from: on(50, 100), to: on(l, 100) }, 'carbon').value;
    expect(value(200)).toBeLessThan(value(80));
    expect(value(80)).toBeLessThan(25);
  });
});

describe('reduction of area', () => {
  const flat = { kind: 'flat', width: '20 mm', thickness: '10 mm' };
  const z = (s: Specimen, areaMm2: number, finalSection?: 'plain') => {
    const finding = reductionOfArea(s, areaMm2, finalSection === undefined ? {} : { finalSection });
    if (finding === null || !finding.given) throw new Error('no Z');
    return finding.result;
  };

  it('takes the mean of largest and smallest diameter of a round neck', () => {
    const result = z(specimen({ finalDiameter: ['6.0 mm', '6.4 mm', '6.1 mm'] }), (Math.PI / 4) * 100);
    expect(result.value).toBeCloseTo(100 * (1 - 0.62 ** 2), 10);
  });

  it('takes three thicknesses of a flat neck as a parabola, or plain on request', () => {
    const s = specimen({ finalWidth: '16 mm', finalThickness: ['8 mm', '6 mm', '8 mm'] }, flat);
    expect(z(s, 200).value).toBeCloseTo(100 * (1 - (16 * (8 + 24 + 8)) / 6 / 200), 10);
    expect(z(s, 200, 'plain').value).toBeCloseTo(100 * (1 - (16 * 22) / 3 / 200), 10);
  });

  it('is withheld for a neck larger than the specimen was, and for sizes that do not fit the shape', () => {
    const larger = reductionOfArea(specimen({ finalDiameter: '11 mm' }), (Math.PI / 4) * 100);
    expect(larger?.given === false && larger.withheld.code).toBe('larger-than-before');
    const half = reductionOfArea(specimen({ finalWidth: '16 mm' }, flat), 200);
    expect(half?.given === false && half.withheld.code).toBe('final-size-missing');
  });

  it('is not mentioned where nobody has measured the neck', () => {
    expect(reductionOfArea(specimen({}), 78.5)).toBeNull();
  });
});
