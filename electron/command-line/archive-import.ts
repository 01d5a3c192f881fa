/** `gaugemark archive import FILE`: readings from elsewhere as a pull, with the file's bytes kept. */
import { existsSync } from 'node:fs';
import { parse, resolve } from 'node:path';
import type { SaidChoices } from '../../core/exchange/import/choices-of-plan.ts';
import { type ImportDelimiter, TEXT_ENCODINGS } from '../../core/exchange/import/import-plan.ts';
import { NAME_LENGTH_MAX } from '../../core/limits.ts';
import { UNIT_SYSTEMS } from '../../core/quantity/display-unit.ts';
import type { SpecimenFile } from '../../core/specimen/specimen-file.ts';
import { type VerbArguments, oneOf, takeArguments } from './arguments.ts';
import { tellEarlierPull } from './earlier-pull.ts';
import { gatherValues } from './gather-values.ts';
import { specimenToKeep } from './input-files.ts';
import { decimalSign, firstRow, withFlagNamed } from './plan-asked.ts';
import { keptAndEvaluated, pullAnswer } from './pull-document.ts';
import { pulledOnGiven } from './stated-day.ts';
import { recorderAccess } from './recorder-access.ts';
import { EXIT_DONE, type ExitCode, type VerbIo } from './verb.ts';

/** As they are typed: a tab can't be on every command line. */
const DELIMITERS = {
  ',': ',',
  ';': ';',
  tab: '\t',
  '|': '|',
  blanks: 'blanks',
} as const satisfies Readonly<Record<string, ImportDelimiter>>;

export const ARCHIVE_IMPORT_USAGE =
  'gaugemark archive import FILE --archive FILE [--specimen FILE.json] [--columns "time_s;force_kN;…"] [--first-row LINE] [--decimal-sign .|,] [--delimiter SIGN] [--encoding NAME] [--pulled-on DAY[THH:MM]] [--operator NAME] [--units si|us] [--json]';

export const ARCHIVE_IMPORT_HELP = `  import   a file of delimited text as a pull: its bytes are kept as they are, with their hash, and read again by the
           check. --columns says what each column is, in order, "-" for one to leave out; without it the names in the
           file decide, and what is not beyond doubt is asked. --first-row is the line in which the rows begin, counted
           from 1, --decimal-sign the one of its numbers, --delimiter what stands between its cells (${Object.keys(DELIMITERS).join(' ')})
           and --encoding that of its text (${TEXT_ENCODINGS.join(', ')}), where the file leaves that
           open. The specimen stands in --specimen, or beside the file as NAME.specimen.json; without one the pull has the
           file's name, its section counts as not measured, and what needs sizes is withheld until they are given. Its
           record has the moment of the import; --pulled-on states the day on which it was pulled, by which it is then
           found, sorted, drawn over the date and split by year. A date in the file is named, never taken by itself`;

const OPTIONS = {
  archive: { type: 'string' },
  specimen: { type: 'string' },
  columns: { type: 'string' },
  'first-row': { type: 'string' },
  'decimal-sign': { type: 'string' },
  delimiter: { type: 'string' },
  encoding: { type: 'string' },
  'pulled-on': { type: 'string' },
  operator: { type: 'string' },
  units: { type: 'string' },
  working: { type: 'boolean' },
  json: { type: 'boolean' },
} as const;

export async function archiveImport(args: readonly string[], io: VerbIo): Promise<ExitCode> {
  const given = takeArguments(
    gatherValues(args, OPTIONS, { oneEach: true }),
    OPTIONS,
    ['The file with the readings'],
    'archive',
  );
  const file = resolve(given.positionals[0] ?? '');
  const units = oneOf('units', given.text('units'), UNIT_SYSTEMS);
  const path = specimenPath(given.text('specimen'), file);
  const specimen = path === null ? unmeasured(file) : specimenToKeep(path, io.err);
  const choices = choicesGiven(given);
  const operator = given.text('operator');
  const pulledOn = pulledOnGiven(given);
  const access = await recorderAccess({ archive: given.text('archive'), toRecord: true, note: io.err });
  let isKept = false;
  try {
    const notes = await tellEarlierPull(access, specimen.id, io.err);
    const imported = await access
      .ask('archive.import', {
        file,
        specimen,
        choices,
        pulledOn,
        ...(operator === undefined ? {} : { operator }),
      })
      .catch((error: unknown) => {
        throw withFlagNamed(error);
      });
    isKept = true;
    for (const note of imported.notes) io.err(note);
    if (path === null)
      io.err(
        `No specimen was given, and ${besideOf(file)} is not there: the pull is kept as "${specimen.id}", its section not measured, so no strength is worked out of a force until its sizes are given in the window, as a correction.`,
      );
    const kept = await keptAndEvaluated(access, imported.pullId);
    io.out(
      await pullAnswer(access, kept, {
        json: given.has('json'),
        working: given.has('working'),
        units,
        notes: [...notes, ...imported.notes],
      }),
    );
    return EXIT_DONE;
  } finally {
    // A file that can't be taken in leaves no archive behind that was begun for it.
    await (isKept ? access.end() : access.endWithoutPull());
  }
}

function choicesGiven(given: VerbArguments): SaidChoices {
  const columnsText = given.text('columns');
  const firstRowLine = firstRow(given.text('first-row'));
  const sign = decimalSign(given.text('decimal-sign'));
  const delimiter = oneOf(
    'delimiter',
    given.text('delimiter'),
    Object.keys(DELIMITERS) as (keyof typeof DELIMITERS)[],
  );
  const encoding = oneOf('encoding', given.text('encoding'), TEXT_ENCODINGS);
  return {
    ...(columnsText === undefined ? {} : { columnsText }),
    ...(firstRowLine === undefined ? {} : { firstRowLine }),
    ...(sign === undefined ? {} : { decimalSign: sign }),
    ...(delimiter === undefined ? {} : { delimiter: DELIMITERS[delimiter] }),
    ...(encoding === undefined ? {} : { encoding }),
  };
}

const besideOf = (file: string): string => `${file.replace(/\.[^./\\]*$/, '')}.specimen.json`;

/** The file that says what was pulled; null where there is none. */
function specimenPath(named: string | undefined, file: string): string | null {
  if (named !== undefined) return named;
  const beside = besideOf(file);
  return existsSync(beside) ? beside : null;
}

/** Sizes are never made up: the record is kept by the name of its file, without them. */
const unmeasured = (file: string): SpecimenFile => ({
  id: parse(file).name.trim().slice(0, NAME_LENGTH_MAX) || 'imported',
  geometry: { kind: 'unmeasured' },
});
