/** A verification of an extensometer as a table of text, with its classes. */
import { EXTENSION_HEADS, extensionFigures } from '../../core/verification/extension-figures.ts';
import {
  type ExtensionVerdict,
  type ExtensionVerification,
  extensionWorkings,
} from '../../core/verification/verify-extension.ts';

const COLUMN_GAP = '  ';

export function extensionText(
  found: ExtensionVerification,
  { working }: { readonly working: boolean },
): string {
  const head = [`lt, ${found.unit}`, ...EXTENSION_HEADS];
  const rows = found.steps.map((step) => [step.appliedText, ...extensionFigures(step)]);
  const widths = head.map((title, column) =>
    Math.max(title.length, ...rows.map((row) => row[column]?.length ?? 0)),
  );
  const { gaugeLength } = found;
  return [
    ...[head, ...rows].map((row) =>
      row.map((cell, column) => cell.padStart(widths[column] ?? 0)).join(COLUMN_GAP),
    ),
    ...(gaugeLength === null ? [] : [`qLe = ${gaugeLength.percent.toFixed(3)} %`]),
    '',
    verdictText('ISO 9513', found.iso),
    verdictText('ASTM E83', found.e83),
    ...found.remarks.map((remark) => `Note: ${remark}`),
    ...(working
      ? [
          '',
          ...extensionWorkings(found).map(
            ({ of, working: its }) => `  ${of}: ${its.formula}: ${its.substituted}`,
          ),
        ]
      : []),
  ].join('\n');
}

const verdictText = (standard: string, { class: held, withheld }: ExtensionVerdict<string>): string =>
  held === null
    ? `${standard}: no class is stated. ${withheld.join(' ')}`
    : `${standard}: class ${held}, by the worst of all displacements and the gauge length.`;
