import { describe, expect, it } from 'vitest';
import { type LiveRates, StageWatch, liveSpeed } from '../../../core/results/live-speed.ts';
import { SPEED_METHODS, SPEED_METHOD_IDS } from '../../../core/results/speed-methods.ts';

const rates = (given: Partial<LiveRates>): LiveRates => ({
  'stress-rate': null,
  'strain-rate': null,
  'crosshead-rate': null,
  ...given,
});

describe('the speed of the moment', () => {
  it('is judged by the rule of the stage, at and beside its limits', () => {
    // ISO 6892-1 method B, modulus of 150 GPa and over: 6 to 60 MPa/s in the elastic part (a published procedure).
    const at = (rate: number) =>
      liveSpeed(SPEED_METHODS['iso-6892-1-b-stiff'], 'elastic', rates({ 'stress-rate': rate }))?.place;
    expect([5.9, 6, 60, 60.1].map(at)).toEqual(['below', 'inside', 'inside', 'above']);
    // ASTM E8/E8M method B: 0.015 ± 0.006 in/in/min through yield (laboratory summary).
    const perMinute = (rate: number) =>
      liveSpeed(SPEED_METHODS['astm-e8-b'], 'yield', rates({ 'strain-rate': rate / 60 }))?.place;
    expect([0.0089, 0.0091, 0.0209, 0.0211].map(perMinute)).toEqual(['below', 'inside', 'inside', 'above']);
  });

  it('is a fall where load or strain goes back faster than noise does, also where there is only an upper limit', () => {
    const method = SPEED_METHODS['iso-6892-1-b-stiff'];
    const elastic = (rate: number) => liveSpeed(method, 'elastic', rates({ 'stress-rate': rate }))?.place;
    expect([-400, -6.1, -6, -0.1, 0, 5.9].map(elastic)).toEqual([
      'falling',
      'falling',
      'below',
      'below',
      'below',
      'below',
    ]);
    const upper = method.find(({ stage }) => stage === 'to-maximum')?.windows[0];
    expect(upper?.lower).toBeUndefined();
    const later = (share: number) =>
      liveSpeed(method, 'to-maximum', rates({ 'strain-rate': share * (upper?.upper ?? NaN) }))?.place;
    expect([-1.1, -0.5, 0, 0.5, 1.1].map(later)).toEqual(['falling', 'inside', 'inside', 'inside', 'above']);
  });

  it('between two windows of one method is too slow for the faster one', () => {
    // ISO 6892-1 method A through yield: 0.000 07 and 0.000 25 1/s, each ±20 %.
    const at = (rate: number) =>
      liveSpeed(SPEED_METHODS['iso-6892-1-a'], 'yield', rates({ 'strain-rate': rate }))?.place;
    expect([0.000_05, 0.000_07, 0.000_12, 0.000_25, 0.000_31].map(at)).toEqual([
      'below',
      'inside',
      'below',
      'inside',
      'above',
    ]);
  });

  it('is taken from the crosshead where no strain is measured, and told as unknown where nothing is', () => {
    const rules = SPEED_METHODS['iso-6892-1-a'];
    expect(liveSpeed(rules, 'yield', rates({ 'crosshead-rate': 0.000_25 }))).toMatchObject({
      quantity: 'crosshead-rate',
      place: 'inside',
    });
    expect(liveSpeed(rules, 'yield', rates({}))).toMatchObject({ rate: null, place: null });
    // Method A of ISO 6892-1 says nothing of a stress rate.
    expect(liveSpeed(rules, 'elastic', rates({ 'stress-rate': 10 }))).toBeNull();
  });

  it('has rules for each method, one at most for a stage', () => {
    for (const id of SPEED_METHOD_IDS) {
      const stages = SPEED_METHODS[id].map(({ stage }) => stage);
      expect(stages.length, id).toBeGreaterThan(1);
      expect(new Set(stages).size, id).toBe(stages.length);
    }
  });
});

describe('the stage of the moment', () => {
  const E_MPA = 205_000;

  /** Elastic to a yield, then a hardening of a hundredth of the slope; strain in even steps, one a tenth of a second. */
  function watched(withStrain: boolean): { stage: string; strain: number }[] {
    const watch = new StageWatch();
    const stressAt = (strain: number): number => Math.min(E_MPA * strain, 300 + 0.01 * E_MPA * strain);
    const step = 2e-5;
    return Array.from({ length: 3_000 }, (_, i) => {
      const strain = i * step;
      const stressRate = (stressAt(strain) - stressAt(strain - step)) / 0.1;
      const stage = watch.push({
        stressMpa: stressAt(strain),
        strain: withStrain ? strain : null,
        stressRate,
        strainRate: withStrain ? step / 0.1 : null,
      });
      return { stage, strain };
    });
  }

  it('is elastic to the yield, then through it, then to the maximum', () => {
    const moments = watched(true);
    const first = (stage: string): number => moments.find((one) => one.stage === stage)?.strain ?? Number.NaN;
    const yieldStrain = 300 / (0.99 * E_MPA);
    expect(first('yield')).toBeGreaterThan(yieldStrain);
    expect(first('yield')).toBeLessThan(yieldStrain + 1e-4);
    expect(first('to-maximum')).toBeCloseTo(first('yield') + 0.02, 4);
  });

  it('without strain is told by the stress that rises no more, and stays there', () => {
    const stages = new Set(watched(false).map(({ stage }) => stage));
    expect([...stages]).toEqual(['elastic', 'yield']);
  });

  it('is not told from slack, from one noisy reading or from a frame that stands', () => {
    const watch = new StageWatch();
    const push = (stressMpa: number, stressRate: number, strainRate: number): string =>
      watch.push({ stressMpa, strain: 0.001, stressRate, strainRate });
    push(5, 1, 1e-3);
    for (let i = 0; i < 10; i++) push(10, 0.1, 1e-3);
    push(100, 10, 5e-5);
    push(110, 0.5, 5e-5);
    push(120, 10, 5e-5);
    for (let i = 0; i < 10; i++) push(120, 0, 0);
    expect(watch.stage).toBe('elastic');
  });
});
