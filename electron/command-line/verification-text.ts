/** A verification as a table of text, with its class and range. */
import { ISO_CLASSES } from '../../core/verification/class-limits.ts';
import { STEP_HEADS, stepFigures, stepFindings } from '../../core/verification/step-figures.ts';
import type { PercentFinding, Verification, VerifiedRange } from '../../core/verification/verify-force.ts';

const COLUMN_GAP = '  ';

export function verificationText(found: Verification, { working }: { readonly working: boolean }): string {
  return [
    ...table(found),
    ...(found.zero === null ? [] : [`f0 = ${found.zero.text} %`]),
    '',
    ...isoLines(found),
    ...e4Lines(found),
    ...found.remarks.map((remark) => `Note: ${remark}`),
    ...(working ? ['', ...workingLines(found)] : []),
  ].join('\n');
}

function table({ unit, steps }: Verification): string[] {
  const head = [`F, ${unit}`, ...STEP_HEADS];
  const rows = steps.map((step) => [
    step.appliedText,
    ...stepFigures(step),
    step.e4.within ? 'within' : 'outside',
  ]);
  const widths = head.map((title, column) =>
    Math.max(title.length, ...rows.map((row) => row[column]?.length ?? 0)),
  );
  return [head, ...rows].map((row) =>
    row.map((cell, column) => cell.padStart(widths[column] ?? 0)).join(COLUMN_GAP),
  );
}

const rangeText = ({ fromText, toText }: VerifiedRange, unit: string): string =>
  `${fromText} to ${toText} ${unit}`;

function isoLines({ iso, unit }: Verification): string[] {
  const parts = ISO_CLASSES.flatMap((one) => {
    const range = iso.ranges[one];
    return range === null ? [] : [`class ${one}: ${rangeText(range, unit)}`];
  });
  return [
    iso.class === null
      ? `ISO 7500-1: no class is stated. ${iso.withheld.join(' ')}`
      : `ISO 7500-1: class ${iso.class} over the whole range.`,
    ...(parts.length === 0 ? [] : [`  Every force holds the limits of ${parts.join('; ')}.`]),
    `  The resolution allows ${ISO_CLASSES.map((one) => `class ${one} from ${iso.lowerLimits[one].text} ${unit}`).join(', ')}.`,
  ];
}

function e4Lines({ e4, unit }: Verification): string[] {
  const { range } = e4;
  const what =
    e4.withheld.length > 0
      ? e4.withheld.join(' ')
      : range === null
        ? 'the largest force is outside, so no range is verified.'
        : `within ±1 % from ${rangeText(range, unit)}${e4.wholeRange ? ', which is the whole range' : ''}.`;
  return [`ASTM E4: ${what}`, `  ${e4.lowerLimit.working.substituted}.`];
}

function workingLines({ unit, steps, zero }: Verification): string[] {
  const line = ({ name, working }: PercentFinding): string =>
    `  ${working.formula}: ${working.substituted}   (${name}; ${working.source})`;
  return [
    ...steps.flatMap((step) => [`${step.appliedText} ${unit}`, ...stepFindings(step).map(line)]),
    ...(zero === null ? [] : ['without force', line(zero)]),
  ];
}
