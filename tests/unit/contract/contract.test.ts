/** The contract: every request and reply has a schema that says no to what does not belong there. */
import { describe, expect, it } from 'vitest';
import { contract, events, isEventName, isRequestName } from '../../../core/contract/index.ts';
import { column } from '../../../core/contract/message.ts';
import { breakRule, DEFAULT_BREAK, DEFAULT_TRIGGER, triggerRule } from '../../../core/contract/rules.ts';

describe('requests', () => {
  it('refuse what they have not asked for', () => {
    for (const [name, { request }] of Object.entries(contract))
      expect(request.safeParse({ 'no such field': 1 }).success, name).toBe(false);
  });

  it('are known by name, and nothing that every object has is one', () => {
    expect([isRequestName('pull.ready'), isRequestName('toString'), isRequestName('__proto__')]).toEqual([
      true,
      false,
      false,
    ]);
    expect([isEventName('session'), isEventName('constructor')]).toEqual([true, false]);
    expect(Object.keys(events).sort()).toEqual([
      'exchange-progress',
      'learning',
      'notice',
      'preview',
      'readings',
      'session',
    ]);
  });

  it('set aside an archive only when it was confirmed in so many words', () => {
    expect(contract['archive.set-aside'].request.safeParse({}).success).toBe(false);
    expect(contract['archive.set-aside'].request.safeParse({ confirmed: false }).success).toBe(false);
    expect(contract['archive.set-aside'].request.safeParse({ confirmed: true }).success).toBe(true);
  });
});

describe('rules', () => {
  it('have defaults that they accept themselves', () => {
    expect(triggerRule.parse(DEFAULT_TRIGGER)).toEqual(DEFAULT_TRIGGER);
    expect(breakRule.parse(DEFAULT_BREAK)).toEqual(DEFAULT_BREAK);
  });

  it('refuse figures that would never or always hold', () => {
    const wrong = [
      { ...DEFAULT_TRIGGER, thresholdN: 0 },
      { ...DEFAULT_TRIGGER, readings: 0 },
      { ...DEFAULT_TRIGGER, thresholdN: Number.NaN },
    ];
    for (const rule of wrong) expect(triggerRule.safeParse(rule).success).toBe(false);
    for (const fractionOfPeak of [0, 1, -1, Number.POSITIVE_INFINITY])
      expect(breakRule.safeParse({ ...DEFAULT_BREAK, fractionOfPeak }).success).toBe(false);
  });
});

it('knows a column by its kind, not by where it was made', () => {
  const floats = column('Float64Array');
  expect(floats.safeParse(new Float64Array(2)).success).toBe(true);
  for (const wrong of [
    new Float32Array(2),
    [1, 2],
    'Float64Array',
    null,
    { [Symbol.toStringTag]: 'Float64Array' },
  ])
    expect(floats.safeParse(wrong).success).toBe(false);
});
