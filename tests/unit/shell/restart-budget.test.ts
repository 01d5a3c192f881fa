import { describe, expect, it } from 'vitest';
import { RestartBudget } from '../../../electron/main/restart-budget.ts';

describe('a budget of restarts', () => {
  it('gives so many within the time and no more', () => {
    const budget = new RestartBudget({ max: 2, windowMs: 1_000 });
    expect([budget.spend(0), budget.spend(10), budget.spend(20)]).toEqual([true, true, false]);
  });

  it('gives again once the earlier ones lie back far enough', () => {
    const budget = new RestartBudget({ max: 1, windowMs: 1_000 });
    expect([budget.spend(0), budget.spend(999), budget.spend(1_000)]).toEqual([true, false, true]);
  });

  it('is full again when a person asks', () => {
    const budget = new RestartBudget({ max: 1, windowMs: 1_000 });
    budget.spend(0);
    budget.refill();
    expect(budget.spend(1)).toBe(true);
  });
});
