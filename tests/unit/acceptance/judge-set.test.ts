import { describe, expect, it } from 'vitest';
import { type SetMember, judgeSet } from '../../../core/acceptance/judge-set.ts';
import { packCalled } from './judging.ts';

const accepted = (specimenId: string, more: Partial<SetMember> = {}): SetMember => ({
  specimenId,
  outcome: 'accept',
  ...more,
});
const rejected = (specimenId: string, more: Partial<SetMember> = {}): SetMember => ({
  specimenId,
  outcome: 'reject',
  ...more,
});

function outcome(pack: string, members: readonly SetMember[], more: object = {}) {
  return judgeSet({ pack: packCalled(pack), members, ...more });
}

describe('number of specimens', () => {
  it('ASME IX asks for two tension tests (QW-451.1)', () => {
    expect(outcome('asme-ix', [accepted('T-1'), accepted('T-2')]).outcome).toBe('accept');
    const one = outcome('asme-ix', [accepted('T-1')]);
    expect(one.outcome).toBe('undecided');
    expect(one.sentence).toContain('2 specimens are asked for (QW-451.1) and 1 is there');
  });

  it('API 1104 Table 2 goes by outside diameter', () => {
    const two = [accepted('T-1'), accepted('T-2')];
    expect(outcome('api-1104-20', two, { outsideDiameter: '6.625 in' }).outcome).toBe('accept');
    expect(outcome('api-1104-20', two, { outsideDiameter: '12.750 in' }).required?.count).toBe(2);
    expect(outcome('api-1104-20', two, { outsideDiameter: '323.9 mm' }).required?.count).toBe(4);
    expect(outcome('api-1104-20', two, { outsideDiameter: '4.500 in' }).required?.count).toBe(0);
  });

  it('is asked for where it depends on a size that is not known', () => {
    expect(outcome('api-1104-20', [accepted('T-1')]).sentence).toContain('number of specimens is not known');
  });

  it('that was entered for the set and is lower than the pack’s leaves the set undecided (AWS D1.1, from memory: two)', () => {
    const set = outcome('aws-d1.1', [accepted('T-1')], { requiredCount: 1 });
    expect(set).toMatchObject({ outcome: 'undecided', required: { count: 2 }, deviations: [] });
    expect(set.sentence).toMatch(
      /2 specimens are asked for \(.+\) and 1 is there; the set itself asks for 1 and doesn't say why/,
    );
  });

  it('that is lower counts as a deviation where the set says why, and the verdict says so', () => {
    const set = outcome('asme-ix', [accepted('T-1')], {
      requiredCount: 1,
      fewerReason: 'only one coupon left',
    });
    expect(set.outcome).toBe('accept');
    expect(set.deviations).toHaveLength(1);
    expect(set.deviations[0]).toMatch(
      /^1 specimen instead of the 2 that .+ \(QW-451\.1\): only one coupon left$/,
    );
    expect(set.sentence).toMatch(
      /with a deviation \(1 specimen instead of the 2 .*\): its one test passed\.$/,
    );
  });

  it('that was entered counts where it is higher than the pack’s, or where the pack gives none', () => {
    expect(outcome('asme-ix', [accepted('T-1'), accepted('T-2')], { requiredCount: 3 }).outcome).toBe(
      'undecided',
    );
    const two = outcome('api-1104-20', [accepted('T-1'), accepted('T-2')], { requiredCount: 2 });
    expect(two).toMatchObject({ outcome: 'accept', deviations: [] });
    expect(two.sentence).toContain('both tests passed');
  });

  it('void specimens don’t count', () => {
    expect(outcome('asme-ix', [accepted('T-1'), rejected('T-2', { isVoid: true })]).outcome).toBe(
      'undecided',
    );
  });
});

describe('a failed specimen', () => {
  it('rejects the set', () => {
    expect(outcome('aws-d1.1', [accepted('T-1'), rejected('T-2')])).toMatchObject({
      outcome: 'reject',
      rejected: ['T-2'],
    });
  });

  it('may be replaced by two that both pass (AWS D1.1, from memory)', () => {
    const first = [accepted('T-1'), rejected('T-2')];
    const again = (id: string, state: 'accept' | 'reject' | null): SetMember => ({
      specimenId: id,
      outcome: state,
      retestOf: 'T-2',
    });
    expect(outcome('aws-d1.1', [...first, again('T-3', 'accept')])).toMatchObject({ outcome: 'undecided' });
    expect(outcome('aws-d1.1', [...first, again('T-3', 'accept'), again('T-4', null)])).toMatchObject({
      outcome: 'undecided',
    });
    expect(outcome('aws-d1.1', [...first, again('T-3', 'accept'), again('T-4', 'accept')])).toMatchObject({
      outcome: 'accept',
      replaced: ['T-2'],
    });
    expect(outcome('aws-d1.1', [...first, again('T-3', 'accept'), again('T-4', 'reject')])).toMatchObject({
      outcome: 'reject',
    });
  });

  it('stays failed where the code states no replacement (API 1104 tensile)', () => {
    const members = [
      accepted('T-1'),
      rejected('T-2'),
      accepted('T-3', { retestOf: 'T-2' }),
      accepted('T-4', { retestOf: 'T-2' }),
    ];
    expect(outcome('api-1104-20', members, { requiredCount: 2 }).outcome).toBe('reject');
  });
});

describe('what can’t be judged yet', () => {
  it('a member without a verdict', () => {
    const set = outcome('asme-ix', [accepted('T-1'), { specimenId: 'T-2', outcome: null }]);
    expect(set).toMatchObject({ outcome: 'undecided', undecided: ['T-2'] });
    expect(set.sentence).toContain('T-2');
  });

  it('an empty set', () => {
    expect(outcome('asme-ix', []).outcome).toBe('undecided');
  });

  it('a set that mixes rule packs', () => {
    const set = outcome('asme-ix', [
      accepted('T-1', { packId: 'asme-ix' }),
      accepted('T-2', { packId: 'aws-d1.1' }),
    ]);
    expect(set.outcome).toBe('undecided');
    expect(set.sentence).toMatch(/T-2 was judged by aws-d1\.1/);
  });

  it('names the retest that waits for its verdict, and not the failed one that has its own', () => {
    const members: SetMember[] = [
      accepted('T-1'),
      rejected('T-2'),
      { specimenId: 'T-3', outcome: 'undecided', retestOf: 'T-2' },
    ];
    const { missing } = outcome('asme-ix', members);
    expect(missing).toContain('T-3 has no accepted or rejected verdict yet');
    expect(missing.join()).not.toContain('T-2 has no');
  });

  it('a questionable retest is replaced by the one that was pulled again; a failed one is not', () => {
    const retested = (state: 'undecided' | 'reject'): SetMember[] => [
      accepted('T-1'),
      rejected('T-2'),
      { specimenId: 'T-3', outcome: state, retestOf: 'T-2' },
      accepted('T-4', { retestOf: 'T-3' }),
    ];
    expect(outcome('asme-ix', retested('undecided'))).toMatchObject({ outcome: 'accept', replaced: ['T-2'] });
    expect(outcome('asme-ix', retested('reject'))).toMatchObject({ outcome: 'reject', rejected: ['T-2'] });
  });

  it('ends where members are retests of one another', () => {
    const round: SetMember[] = [
      { specimenId: 'T-1', outcome: null, retestOf: 'T-2' },
      { specimenId: 'T-2', outcome: null, retestOf: 'T-1' },
    ];
    expect(outcome('asme-ix', round).outcome).toBe('undecided');
  });

  it('a questionable specimen is replaced by the one that was pulled again', () => {
    const members: SetMember[] = [
      accepted('T-1'),
      { specimenId: 'T-2', outcome: 'undecided' },
      accepted('T-3', { retestOf: 'T-2' }),
    ];
    expect(outcome('asme-ix', members)).toMatchObject({ outcome: 'accept', replaced: ['T-2'] });
  });
});
