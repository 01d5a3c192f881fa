/** What a person may add behind the program's name. Electron's and Chromium's own switches pass by unread. */

export interface WindowArguments {
  /** `--archive FILE`; relative to the folder in which the program was started. */
  readonly archive: string | null;
  /** `--rules-folder DIR`, for this start; relative to the folder in which the program was started. */
  readonly rulesFolder: string | null;
  /** `--software-drawing` or GAUGEMARK_SOFTWARE_DRAWING=1: for black windows on remote desktops and virtual machines. */
  readonly softwareDrawing: boolean;
  /** `--print JOB --print-to FILE`: prints one page to PDF and ends; nothing else is opened. The command line asks so. */
  readonly print: { readonly job: string; readonly out: string } | null;
}

export function readArguments(
  argv: readonly string[],
  environment: Readonly<Record<string, string | undefined>>,
): WindowArguments {
  const [job, out] = [valueOf('--print', argv), valueOf('--print-to', argv)];
  return {
    print: job === null || out === null ? null : { job, out },
    archive: valueOf('--archive', argv),
    rulesFolder: valueOf('--rules-folder', argv),
    softwareDrawing: argv.includes('--software-drawing') || environment['GAUGEMARK_SOFTWARE_DRAWING'] === '1',
  };
}

function valueOf(option: string, argv: readonly string[]): string | null {
  for (const [index, argument] of argv.entries()) {
    if (argument.startsWith(`${option}=`)) return argument.slice(option.length + 1) || null;
    const next = argv[index + 1];
    if (argument === option && next !== undefined && !next.startsWith('--')) return next;
  }
  return null;
}
