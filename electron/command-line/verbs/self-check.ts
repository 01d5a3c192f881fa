/** `gaugemark self-check`: the installed program against published curves and worked examples. */
import { numberText } from '../../../core/quantity/number-text.ts';
import { METHOD_VERSION } from '../../../core/results/evaluation.ts';
import {
  type SelfCheckLine,
  type SelfCheckReport,
  runSelfCheck,
} from '../../../core/self-check/self-check-case.ts';
import { takeArguments } from '../arguments.ts';
import { PROGRAM_VERSION } from '../program-version.ts';
import { EXIT_DONE, EXIT_JOB_FAILED, type Verb } from '../verb.ts';

export const verb: Verb = {
  name: 'self-check',
  summary: 'runs published curves and worked examples through this program',
  usage: `gaugemark self-check [--json]

  Runs every published curve and worked example that the program carries through the program as it is installed, and
  prints for each: source, expected, got, difference, verdict. Keep the output with the program's version as the
  record of your software validation (ISO/IEC 17025, 7.11). Ends with 0 where all agree, with 1 where one does not.

  --json    one JSON document on stdout`,
  run: async (args, io) => {
    const given = takeArguments(args, { json: { type: 'boolean' } }, [], 'self-check');
    // The curves are a third of a megabyte that no other verb needs.
    const { allCases } = await import('../../../core/self-check/all-cases.ts');
    const report = runSelfCheck(allCases);
    io.out(given.has('json') ? JSON.stringify(documentOf(report)) : textOf(report));
    return report.failing === 0 ? EXIT_DONE : EXIT_JOB_FAILED;
  },
};

function documentOf(report: SelfCheckReport): object {
  return {
    program: { name: 'gaugemark', version: PROGRAM_VERSION, method: METHOD_VERSION },
    platform: { system: process.platform, architecture: process.arch, engine: process.version },
    agreeing: report.agreeing,
    failing: report.failing,
    checks: report.lines,
  };
}

function textOf({ lines, agreeing, failing }: SelfCheckReport): string {
  const groups = [...new Set(lines.map((line) => line.group))];
  return [
    `gaugemark ${PROGRAM_VERSION}, method ${METHOD_VERSION}, ${process.platform} ${process.arch}, ${process.version}`,
    ...groups.flatMap((group) => groupText(lines.filter((line) => line.group === group))),
    '',
    failing === 0
      ? `All ${String(agreeing)} checks agree.`
      : `${String(failing)} of ${String(lines.length)} checks do not agree.`,
  ].join('\n');
}

/** Each source once, then its checks. */
function groupText(lines: readonly SelfCheckLine[]): string[] {
  const sources = [...new Set(lines.map((line) => line.source))];
  return sources.flatMap((source) => [
    '',
    `${lines[0]?.group ?? ''}: ${source}`,
    ...lines.filter((line) => line.source === source).map(lineText),
  ]);
}

function lineText(line: SelfCheckLine): string {
  const unit = line.unit === 'text' || line.unit === '1' ? '' : ` ${line.unit}`;
  const value = (v: number | string | null): string =>
    v === null ? 'no value' : typeof v === 'string' ? v : `${numberText(v, 7)}${unit}`;
  const difference =
    line.difference === null
      ? ''
      : `, difference ${numberText(line.difference, 3)} of ${numberText(line.tolerance, 3)} allowed (${line.toleranceReason})`;
  const reason = line.reason === undefined ? '' : `: ${line.reason}`;
  return `  ${line.verdict.padEnd(8)}  ${line.what}: expected ${value(line.expected)} (${line.status}), got ${value(line.got)}${difference}${reason}`;
}
