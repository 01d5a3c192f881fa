/** `gaugemark archive merge OTHER`: the pulls of another archive taken into this one, told first and written when asked. */
import { resolve } from 'node:path';
import { takeArguments } from './arguments.ts';
import { existingArchive, recorderAccess } from './recorder-access.ts';
import { EXIT_DONE, EXIT_JOB_FAILED, type ExitCode, InputError, type VerbIo } from './verb.ts';

export const ARCHIVE_MERGE_USAGE =
  'gaugemark archive merge OTHER --archive FILE [--dry-run | --yes] [--json]';

export const ARCHIVE_MERGE_HELP = `  merge    the pulls of another archive, with all that was said of them: specimens, sets, fractures, evaluations, photos.
           Each keeps its identity (the archive it was recorded in, and its number there). Of one that is here already, by
           identity or by the hash of its raw bytes, what was said there since is added; what both say otherwise is a
           conflict: it is listed, and stays as it is here. Nothing here is changed or taken away, and a second merge
           changes nothing. Without --yes it is only told what would happen. Certificates stay where they were issued`;

const OPTIONS = {
  archive: { type: 'string' },
  'dry-run': { type: 'boolean' },
  yes: { type: 'boolean' },
  json: { type: 'boolean' },
} as const;

/** Ends with 1 where there are conflicts. */
export async function archiveMerge(args: readonly string[], io: VerbIo): Promise<ExitCode> {
  const given = takeArguments(args, OPTIONS, ['The other archive'], 'archive');
  if (given.has('yes') && given.has('dry-run'))
    throw new InputError('options-exclude', 'Give --dry-run or --yes, not both.', 'dry-run');
  const from = resolve(existingArchive(given.positionals[0]));
  const write = given.has('yes');
  const access = await recorderAccess({
    archive: existingArchive(given.text('archive')),
    toRecord: write,
    note: io.err,
  });
  try {
    const merged = await access.ask('archive.merge', { from, write });
    if (given.has('json')) io.out(JSON.stringify({ ...merged, written: write }));
    else {
      for (const { pullIdThere, specimenName, fate, pullIdHere, words } of merged.lines)
        io.out(
          `${FATE[fate]}  pull ${String(pullIdThere)} there, ${specimenName}${pullIdHere === null ? '' : `, pull ${String(pullIdHere)} here`}${words === '' ? '' : `: ${words}`}`,
        );
      io.out(
        `${String(merged.taken)} ${write ? 'taken' : 'would be taken'}, ${String(merged.addedTo)} added to, ${String(merged.hereAlready)} here already, ${String(merged.conflicts)} in conflict.${write ? '' : ' Nothing was changed; --yes takes them.'}`,
      );
      const { count, numbers } = merged.certificatesThere;
      if (count > 0)
        io.out(
          `Certificates that stay in that archive, with their signatures: ${String(count)} (${numbers.join(', ')}${count > numbers.length ? ' …' : ''}). Keep it.`,
        );
    }
    return merged.conflicts > 0 ? EXIT_JOB_FAILED : EXIT_DONE;
  } finally {
    await access.end();
  }
}

const FATE = {
  taken: 'take    ',
  'added-to': 'add     ',
  'here-already': 'here    ',
  conflict: 'CONFLICT',
} as const;
