/** The other way to read an unclear text, worked out beside the verdict wherever it would change the limit. */
import { evaluateRule, type RuleFinding } from './evaluate-rule.ts';
import type { JudgeCase } from './judge-case.ts';
import type { Rule } from './rule-pack.ts';
import type { OtherReading } from './verdict.ts';

export function otherReadings(judged: JudgeCase, shown: RuleFinding): OtherReading[] {
  const { rule } = shown;
  const reading = rule.otherReading;
  if (reading === undefined || judged.baseMetals.length < 2) return [];
  const read: Rule = {
    ...rule,
    require: rule.require.map((requirement) =>
      requirement.limitOf === undefined ? requirement : { ...requirement, limitOf: reading.limitOf },
    ),
  };
  const other = evaluateRule(judged, read);
  const [before, after] = [shown.checks[0]?.check, other.checks[0]?.check];
  if (!before?.limit || !after?.limit || before.limit.value === after.limit.value) return [];
  return [
    {
      says: reading.says,
      outcome: other.truth === null ? 'undecided' : other.truth ? 'accept' : 'reject',
      limit: after.limit,
      limitFrom: after.limitFrom ?? '',
    },
  ];
}
