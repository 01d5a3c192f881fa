/** The rules of a pull in words, as they stand on its marks, and the same words in the units of a reader. */
import type { Mark } from '../contract/record.ts';
import type { BreakRule, TriggerRule } from '../contract/rules.ts';
import { type DisplaySystem, inDisplayUnit } from '../quantity/display-unit.ts';
import { numberText } from '../quantity/number-text.ts';

/** "force at or above 200 N for 3 readings". */
export function triggerWords(rule: TriggerRule): string {
  return rule.kind === 'by-hand' ? 'started by hand' : startedAt(`${figuresN(rule.thresholdN)} N`, rule);
}

/** "force at or below 20 % of the peak of 31 200 N for 2 readings". */
export function breakWords(rule: BreakRule, peakN: number): string {
  return rule.kind === 'by-hand' ? 'break marked by hand' : brokenBelow(`${figuresN(peakN)} N`, rule);
}

/** What a mark says to people who read in `system`. It is kept in N; only the words of the two rules hold a force. */
export function markWordsIn(
  { kind, cause, words }: Pick<Mark, 'kind' | 'cause' | 'words'>,
  { trigger, breakRule }: { readonly trigger: TriggerRule; readonly breakRule: BreakRule },
  system: DisplaySystem,
): string {
  if (system === 'si' || cause !== 'rule') return words;
  if (kind === 'trigger' && trigger.kind === 'force' && tellsThreshold(words, trigger))
    return startedAt(forceIn(trigger.thresholdN, system), trigger);
  const peakN = Number(PEAK_IN_WORDS.exec(words)?.[1] ?? Number.NaN);
  if (kind === 'break' && breakRule.kind === 'force-drop' && words === breakWords(breakRule, peakN))
    return brokenBelow(forceIn(peakN, system), breakRule);
  return words;
}

/** Words that were kept with all digits of a converted threshold ("444.82216152605 N") mean the same rule. */
const tellsThreshold = (words: string, rule: Extract<TriggerRule, { kind: 'force' }>): boolean =>
  words === triggerWords(rule) || words === startedAt(`${rule.thresholdN} N`, rule);

/** The peak stands nowhere else than in the words of the mark. */
const PEAK_IN_WORDS = / of the peak of (\S+) N for /;
/** As many digits of a converted force as a load cell has. */
const FORCE_DIGITS = 5;

/** As many figures of a force in N as the words keep: a threshold given in lbf has no end of them. */
const WORDS_FIGURES = 7;
const figuresN = (forceN: number): number => Number(forceN.toPrecision(WORDS_FIGURES));

function forceIn(forceN: number, system: DisplaySystem): string {
  const { value, unit } = inDisplayUnit(forceN, 'N', system);
  return `${numberText(value, FORCE_DIGITS)} ${unit}`;
}

const startedAt = (force: string, rule: { readonly readings: number }): string =>
  `force at or above ${force} for ${readings(rule.readings)}`;

const brokenBelow = (
  peak: string,
  rule: { readonly fractionOfPeak: number; readonly readings: number },
): string =>
  `force at or below ${Number((rule.fractionOfPeak * 100).toPrecision(6))} % of the peak of ${peak} for ${readings(rule.readings)}`;

/** The smallest peak at which the break rule looks at all, N. */
export function breakPeakMinN(rule: BreakRule, trigger: TriggerRule): number {
  if (rule.kind === 'by-hand') return Infinity;
  return trigger.kind === 'force' ? rule.peakTimesThreshold * trigger.thresholdN : rule.peakMinN;
}

const readings = (count: number): string => (count === 1 ? '1 reading' : `${count} readings`);
