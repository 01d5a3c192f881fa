/** What must be seen beside a verdict without changing it. */
import { UNITS } from '../quantity/units.ts';
import type { RuleFinding } from './evaluate-rule.ts';
import { elongationDoubt } from './fracture.ts';
import type { JudgeCase } from './judge-case.ts';
import type { Outcome } from './verdict.ts';

export function remarksOn(judged: JudgeCase, finding: RuleFinding | null, outcome: Outcome): string[] {
  const remarks: string[] = [...(finding?.checks.flatMap((found) => found.remarks) ?? [])];
  const { broke, soundness } = judged.fracture;
  const transverse = judged.pack.file.test === 'transverse';
  const asksForSoundness = judged.pack.file.rules.some((rule) => rule.when.fracture !== undefined);
  if (transverse && outcome === 'accept' && (broke === 'weld-metal' || broke === 'fusion-line')) {
    remarks.push(
      'A break in the weld passes here because the strength is reached; it still shows a weld that is weaker than the plate or flawed, so look at the fracture.',
    );
  }
  if (soundness === 'unsound' && !asksForSoundness) {
    remarks.push(
      'The fracture is noted as unsound; this pack does not ask for soundness, other tests of the code may.',
    );
  }
  const doubt = elongationDoubt(judged.fracture);
  if (doubt !== null) {
    remarks.push(
      `${doubt.charAt(0).toUpperCase()}${doubt.slice(1)}, so an elongation between the marks is not representative.`,
    );
  }
  if (transverse && judged.filler !== null) {
    remarks.push(
      `The filler class ${judged.filler.called} is noted; the limit of this pack belongs to the base metal.`,
    );
  }
  if (!transverse && judged.filler !== null && judged.filler.entry === null && outcome === 'accept') {
    remarks.push('Judged by the stated minima only; no class of the tables was named.');
  }
  const strength = finding?.checks.find((found) => found.check.quantity === 'tensile-strength')?.check;
  if (strength?.measured && strength.limit) {
    if (UNITS[strength.measured.unit].system !== UNITS[strength.limit.unit].system) {
      remarks.push(
        `The strength was given in ${strength.measured.unit} and converted exactly to ${strength.limit.unit}; printed figures of the two unit systems are not equivalent.`,
      );
    }
  }
  for (const found of finding?.checks ?? []) {
    if (found.check.limitStatus === 'memory') {
      remarks.push(
        `The limit (${found.check.limitFrom ?? ''}) is from memory: check it before relying on the verdict.`,
      );
    }
  }
  return [...new Set(remarks)];
}
