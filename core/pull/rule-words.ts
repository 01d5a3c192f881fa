/** The rules of a pull in words, as they stand on its marks. */
import type { BreakRule, TriggerRule } from '../contract/rules.ts';

/** "force at or above 200 N for 3 readings". */
export function triggerWords(rule: TriggerRule): string {
  return rule.kind === 'by-hand'
    ? 'started by hand'
    : `force at or above ${rule.thresholdN} N for ${readings(rule.readings)}`;
}

/** "force at or below 20 % of the peak of 31 200 N for 2 readings". */
export function breakWords(rule: BreakRule, peakN: number): string {
  return rule.kind === 'by-hand'
    ? 'break marked by hand'
    : `force at or below ${Number((rule.fractionOfPeak * 100).toPrecision(6))} % of the peak of ${Number(peakN.toPrecision(7))} N for ${readings(rule.readings)}`;
}

/** The smallest peak at which the break rule looks at all, N. */
export function breakPeakMinN(rule: BreakRule, trigger: TriggerRule): number {
  if (rule.kind === 'by-hand') return Infinity;
  return trigger.kind === 'force' ? rule.peakTimesThreshold * trigger.thresholdN : rule.peakMinN;
}

const readings = (count: number): string => (count === 1 ? '1 reading' : `${count} readings`);
