/** `gaugemark archive split --by-year`: one file for each year beside the original, which stays as it is. */
import { existsSync, statSync } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import { Archive } from '../../core/archive/archive.ts';
import { leftParts } from '../../core/archive/left-parts.ts';
import { type SplitPlan, partName, planSplit, splitByYear } from '../../core/archive/split-archive.ts';
import { recomputeIn } from '../recorder/recompute.ts';
import { reparse } from '../recorder/reparse.ts';
import { faultOf } from '../recorder/request-refused.ts';
import { takeArguments } from './arguments.ts';
import { PROGRAM_VERSION } from './program-version.ts';
import { errorOf, existingArchive } from './recorder-access.ts';
import { refuseOpenArchive } from './refuse-open-archive.ts';
import { EXIT_DONE, type ExitCode, InputError, type VerbIo } from './verb.ts';

export const ARCHIVE_SPLIT_USAGE =
  'gaugemark archive split --by-year --archive FILE [--into FOLDER] [--yes] [--json]';

export const ARCHIVE_SPLIT_HELP = `  split    one file for each year, by the clock of the place at the start of each pull (the pulls of a set stay together,
           in the year of its first one): every pull with all that was said of it and its identity, checked whole and
           compared by hash before it gets its name. Certificates go with their pulls; people, laboratory, instruments and
           readouts are in every part, so that each can be worked with alone. The original is only read and stays.
           Without --yes it is only told what would be written. search --with FILE looks through several at once`;

const OPTIONS = {
  archive: { type: 'string' },
  'by-year': { type: 'boolean' },
  into: { type: 'string' },
  yes: { type: 'boolean' },
  json: { type: 'boolean' },
} as const;

export async function archiveSplit(args: readonly string[], io: VerbIo): Promise<ExitCode> {
  const given = takeArguments(args, OPTIONS, [], 'archive');
  if (!given.has('by-year'))
    throw new InputError('option-missing', 'Say how to split: --by-year is the one way there is.', 'by-year');
  const path = resolve(existingArchive(given.text('archive')));
  const folder = resolve(given.text('into') ?? dirname(path));
  if (!existsSync(folder) || !statSync(folder).isDirectory())
    throw new InputError(
      'folder-missing',
      `There is no folder ${folder}; make it first or give another one.`,
      'into',
    );
  await refuseOpenArchive(path, 'split');
  const keeping = { programVersion: PROGRAM_VERSION, wallMs: Date.now };
  const isAsked = given.has('yes');
  try {
    const original = new Archive(path, { ...keeping, purpose: 'read' });
    try {
      const plan = planSplit(original.connection);
      const left = isAsked ? [] : leftParts(folder, path);
      if (left.length > 0)
        io.err(`Left by a split that did not come to its end: ${namesOf(left)}; --yes takes it away.`);
      const written = isAsked
        ? splitByYear(original, folder, {
            ...keeping,
            checkOf: (part) => ({ reparse, recompute: recomputeIn(part) }),
            onLeft: (paths) => {
              io.err(`Taken away, left by a split that did not come to its end: ${namesOf(paths)}.`);
            },
            onPart: ({ year, pulls }) => {
              io.err(`${String(year)}: ${String(pulls)} pulls, checked.`);
            },
          })
        : [];
      if (given.has('json')) io.out(JSON.stringify({ ...plan, folder, written }));
      else for (const line of planText(plan, path, isAsked)) io.out(line);
      return EXIT_DONE;
    } finally {
      original.close();
    }
  } catch (error) {
    const fault = faultOf(error);
    throw fault === null ? error : errorOf(fault);
  }
}

const namesOf = (paths: readonly string[]): string => paths.map((path) => basename(path)).join(', ');

function planText({ parts, open, certificatesLeft }: SplitPlan, path: string, isWritten: boolean): string[] {
  return [
    ...parts.map(
      ({ year, pullIds, certificateIds }) =>
        `${String(year)}  ${String(pullIds.length)} ${pullIds.length === 1 ? 'pull' : 'pulls'}, certificates: ${String(certificateIds.length)}  ${partName(path, year)}`,
    ),
    ...(open === 0 ? [] : ['A record that is still open stays in the original only.']),
    ...(certificatesLeft === 0
      ? []
      : [
          `Certificates that rest on pulls of several years are in the original only: ${String(certificatesLeft)}. Keep it with the parts.`,
        ]),
    isWritten
      ? `Written and checked. ${path} was only read and stays as it is; begin a new archive for what comes.`
      : 'Nothing was written; --yes writes the parts.',
  ];
}
