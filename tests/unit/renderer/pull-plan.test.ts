import { beforeEach, describe, expect, it } from 'vitest';
import { contract } from '../../../core/contract/index.ts';
import {
  changePlan,
  keepPlan,
  plan,
  readPlan,
  suggestedAxes,
} from '../../../renderer/stations/pull/pull-plan.ts';
import { changeDraft, changeEntries, newDraft } from '../../../renderer/store/specimen-draft.ts';
import { changeView, viewSettings } from '../../../renderer/store/view-settings.ts';
import { en } from '../../../renderer/words/en.ts';

const fresh = plan.value;

beforeEach(() => {
  changePlan(fresh);
  newDraft();
});

describe('the plan of a pull', () => {
  it('as it is offered is one that the recorder takes', () => {
    const outcome = readPlan(plan.value, en);
    expect(outcome.ok).toBe(true);
    if (outcome.ok) {
      const request = { specimenId: 1, ...outcome.rules };
      expect(contract['pull.ready'].request.safeParse(request).success).toBe(true);
    }
  });

  it('offers a round threshold of the system that is chosen, and leaves a typed one alone', () => {
    keepPlan();
    const before = viewSettings.value;
    changeView({ units: 'US' });
    expect(plan.value.threshold).toBe('100 lbf');
    changeView({ units: 'SI' });
    expect(plan.value.threshold).toBe('0.5 kN');
    // Its sign follows the page; what is read of it is the same.
    changeView({ language: 'es', numbers: 'language' });
    expect(plan.value.threshold).toBe('0,5 kN');
    expect(readPlan(plan.value, en)).toMatchObject({ rules: { trigger: { thresholdN: 500 } } });
    changeView({ language: 'en' });
    expect(plan.value.threshold).toBe('0.5 kN');
    changePlan({ threshold: '0.7 kN' });
    changeView({ units: 'US' });
    expect(plan.value.threshold).toBe('0.7 kN');
    changeView(before);
  });

  it('takes figures in any unit', () => {
    changePlan({ threshold: '100 lbf', load: '20 kip', extension: '1 in' });
    const outcome = readPlan(plan.value, en);
    expect(outcome.ok).toBe(true);
    if (!outcome.ok) return;
    // NIST SP 811, Appendix B.
    expect(outcome.rules.trigger).toMatchObject({ kind: 'force' });
    if (outcome.rules.trigger.kind === 'force')
      expect(outcome.rules.trigger.thresholdN).toBeCloseTo(444.82216152605, 9);
    expect(outcome.rules.plannedForceN).toBeCloseTo(88_964.43230521, 6);
    expect(outcome.rules.plannedExtensionMm).toBeCloseTo(25.4, 12);
  });

  it.each([
    [{ threshold: 'some' }, 'threshold'],
    [{ threshold: '-1 kN' }, 'threshold'],
    [{ percentOfPeak: '0' }, 'percentOfPeak'],
    [{ percentOfPeak: '120' }, 'percentOfPeak'],
    [{ tailSeconds: '0' }, 'tailSeconds'],
    [{ load: '5 mm' }, 'load'],
    [{ extension: '5 kN' }, 'extension'],
  ] as const)('with %o says which figure is wrong', (change, field) => {
    changePlan(change);
    const outcome = readPlan(plan.value, en);
    expect(outcome.ok).toBe(false);
    if (!outcome.ok) expect([...outcome.faults.keys()]).toEqual([field]);
  });

  it('by hand asks for no figures', () => {
    changePlan({
      startByHand: true,
      threshold: '',
      breakByHand: true,
      percentOfPeak: '',
      tailByHand: true,
      tailSeconds: '',
    });
    expect(readPlan(plan.value, en)).toMatchObject({
      ok: true,
      rules: { trigger: { kind: 'by-hand' }, breakRule: { kind: 'by-hand' }, tailS: null, heldOpenS: 600 },
    });
  });

  it('reaches its axes beyond what a strong steel of this section would bear', () => {
    changeDraft({ kind: 'flat' });
    changeEntries('width', ['12.5 mm']);
    changeEntries('thickness', ['6 mm']);
    changeEntries('gaugeLength', ['50 mm']);
    expect(suggestedAxes.value.forceN).toBeGreaterThanOrEqual(12.5 * 6 * 600);
    expect(suggestedAxes.value.extensionMm).toBeGreaterThanOrEqual(50 * 0.3);
  });
});
