/** What the marks of the two rules say to people who read in US customary units. */
import { describe, expect, it } from 'vitest';
import { breakWords, markWordsIn, triggerWords } from '../../../core/pull/rule-words.ts';
import { RULES } from './played-pull.ts';

const { trigger, breakRule } = RULES;
const inUs = (kind: 'trigger' | 'break' | 'stop', words: string, cause: 'rule' | 'person' = 'rule'): string =>
  markWordsIn({ kind, cause, words }, RULES, 'us');

describe('the words of a mark', () => {
  it('tell the threshold and the peak in lbf, by the factor of NIST SP 811 (1 lbf = 4.448 222 N)', () => {
    expect(inUs('trigger', triggerWords(trigger))).toBe('force at or above 44.962 lbf for 3 readings');
    expect(inUs('break', breakWords(breakRule, 31_200))).toBe(
      'force at or below 20 % of the peak of 7014 lbf for 2 readings',
    );
  });

  it('are those that were kept, to people who read in N', () => {
    const words = breakWords(breakRule, 31_234.56);
    expect(markWordsIn({ kind: 'break', cause: 'rule', words }, RULES, 'si')).toBe(words);
    expect(words).toBe('force at or below 20 % of the peak of 31234.56 N for 2 readings');
  });

  it('tell a threshold that was given in lbf without the digits that the factor leaves behind', () => {
    const rules = { ...RULES, trigger: { kind: 'force', thresholdN: 444.82216152605, readings: 3 } } as const;
    expect(triggerWords(rules.trigger)).toBe('force at or above 444.8222 N for 3 readings');
    for (const words of [triggerWords(rules.trigger), 'force at or above 444.82216152605 N for 3 readings'])
      expect(markWordsIn({ kind: 'trigger', cause: 'rule', words }, rules, 'us')).toBe(
        'force at or above 100 lbf for 3 readings',
      );
  });

  it('are left alone where they are not the rule of the pull: said by a person, or by another rule', () => {
    for (const words of ['break marked by hand', 'the peak of 12 N for ever', triggerWords(trigger)])
      expect([inUs('break', words), inUs('trigger', words, 'person'), inUs('stop', words)]).toEqual([
        words,
        words,
        words,
      ]);
  });
});
