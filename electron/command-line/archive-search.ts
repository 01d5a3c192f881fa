/** `gaugemark archive search WORD…`: pulls found by what is written of them and by filters, a page at a time or as a table. */
import { existsSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import { z } from 'zod';
import {
  type FoundPull,
  HITS_PER_PAGE,
  HITS_PER_PAGE_MAX,
  NEWEST_FIRST,
  SEARCH_COLUMNS,
  type SearchOrder,
  needsVerdicts,
} from '../../core/contract/search-requests.ts';
import type { ReplyOf, RequestOf } from '../../core/contract/index.ts';
import { TEXT_LENGTH_MAX } from '../../core/limits.ts';
import { compareLines } from '../../core/archive/search/found-order.ts';
import { PAPER_COLUMNS_MAX, PAPER_ROWS_MAX } from '../../core/exchange/export/asked-columns.ts';
import { CSV_FORM_NAMES } from '../../core/exchange/export/csv-form.ts';
import { ORIGIN_MARKS, READINGS_ORIGINS } from '../../core/pull/readings-origin.ts';
import { dateOfPull } from '../../core/pull/stated-day.ts';
import { type DisplaySystem, UNIT_SYSTEMS, inDisplayUnit } from '../../core/quantity/display-unit.ts';
import { numberText } from '../../core/quantity/number-text.ts';
import type { UnitSymbol } from '../../core/quantity/units.ts';
import { type VerbArguments, numberOption, oneOf } from './arguments.ts';
import { judgeAll } from './found-pulls.ts';
import { indexMade } from './index-made.ts';
import { archivesFrom } from './several-archives.ts';
import { type RecorderAccess, recorderAccess } from './recorder-access.ts';
import { fileExists } from './existing-file.ts';
import { SEARCH_FLAGS } from './search-flags.ts';
import { tableOf, writeResults } from '../exports/results-file.ts';
import { type Hit, type PageOfOne, hitsTogether } from './hits-of-several.ts';
import { type TabledLine, tabledPulls } from './results-of-several.ts';
import { type AskedPaper, PAPER_OPTIONS, paperFrom } from './paper-arguments.ts';
import { printResults } from './results-on-paper.ts';
import { TABLE_COLUMNS_USAGE, tableColumnsFrom } from './table-columns-argument.ts';
import { searchedFor } from './searched-for.ts';
import { EXIT_DONE, type ExitCode, InputError, type VerbIo } from './verb.ts';

export const ARCHIVE_SEARCH_USAGE =
  'gaugemark archive search [WORD… | --search TEXT] --archive FILE [--with FILE …] [filters] [--sort WORD] [--ascending] [--limit N] [--after KEY] [--csv FILE [--form WORD] | --xlsx FILE | --pdf FILE [--paper A4|Letter] [--language en|es]] [--columns LIST] [--units si|us] [--json]';

export const ARCHIVE_SEARCH_HELP = `  search   pulls found by what is written of them: specimen, set, heat, lot, welder, documents, notes, fracture,
           reasons, persons, photos, instruments, names of files; also what was superseded since.
           Every word must begin a word that is written there; newest first, 50 at a time, the next page after the key
           that this one ends with. --with FILE looks through another archive too (of another year for example), as
           often as there are files. By --sort all their hits are one list, each with its file; without it, by when they
           were kept, those of one file come behind those of the other. One key leads to the next page of all.
           --csv and --xlsx write the results of all that is found, a row a pull, of several archives in one table;
           --form says which CSV a spreadsheet opens rightly: ${CSV_FORM_NAMES.join(', ')}
           --pdf prints them on paper turned across, at most ${String(PAPER_ROWS_MAX)} pulls and ${String(PAPER_COLUMNS_MAX)} columns, pages counted;
           --language en (default) or es, of what the program writes on it
           Searches are saved under a name in the window alone; here a search is what is typed.
  --sort WORD               ${SEARCH_COLUMNS.join(', ')}; descending, or --ascending; a pull that
                            has nothing there comes last; texts by code point, capitals before small letters
${TABLE_COLUMNS_USAGE}`;

const OPTIONS = {
  ...SEARCH_FLAGS,
  archive: { type: 'string' },
  with: { type: 'string', multiple: true },
  sort: { type: 'string' },
  ascending: { type: 'boolean' },
  limit: { type: 'string' },
  after: { type: 'string' },
  csv: { type: 'string' },
  xlsx: { type: 'string' },
  pdf: { type: 'string' },
  ...PAPER_OPTIONS,
  form: { type: 'string' },
  columns: { type: 'string' },
  units: { type: 'string' },
  json: { type: 'boolean' },
} as const;

export async function archiveSearch(args: readonly string[], io: VerbIo): Promise<ExitCode> {
  const { given, query } = searchedFor(args, OPTIONS);
  const order = orderFrom(given);
  const units = oneOf('units', given.text('units'), UNIT_SYSTEMS);
  const limit = Math.floor(
    numberOption('limit', given.text('limit'), { above: 0, max: HITS_PER_PAGE_MAX }) ?? HITS_PER_PAGE,
  );
  const file = resultsFileFrom(given);
  const columns = tableColumnsFrom(given.text('columns'));
  if (columns !== undefined && file === null)
    throw new InputError(
      'options-exclude',
      '--columns are those of a table that is written; add --csv FILE, --xlsx FILE or --pdf FILE.',
      'columns',
    );
  if (file !== null && existsSync(file.to))
    throw fileExists(file.to, file.form === 'pdf' ? 'pdf' : undefined);
  const paths = archivesFrom(given);
  const asked = { query, order };
  const keys = keysFrom(given.text('after'), paths);
  const pages: PageOfOne[] = [];
  const found: (TabledLine & { readonly place: number })[] = [];
  for (const [place, path] of paths.entries()) {
    const key = keys[place];
    if (key === null) {
      pages.push({ items: [], after: undefined, next: null });
      continue;
    }
    const access = await recorderAccess({
      archive: path,
      // Verdicts are judged and kept with the search index, which is no record.
      toRecord: needsVerdicts(asked),
      note: io.err,
    });
    try {
      await indexMade(access, io.err);
      if (needsVerdicts(asked)) await judgeAll(access);
      if (file !== null && file.form !== 'pdf' && paths.length === 1)
        return await writeTable(
          access,
          {
            ...asked,
            to: file.to,
            form: file.form,
            ...(columns === undefined ? {} : { columns: [...columns] }),
          },
          given,
          io,
        );
      if (file !== null)
        for (const one of await tabledPulls(access, {
          path,
          ...asked,
          before: found.length,
          isOneOfSeveral: paths.length > 1,
          ...(file.form === 'pdf' ? { most: PAPER_ROWS_MAX, are: 'printed' } : {}),
        }))
          found.push({ ...one, place });
      else
        pages.push({
          after: key,
          ...(await access.ask('archive.search', {
            ...asked,
            limit,
            ...(key === undefined ? {} : { after: key }),
          })),
        });
    } finally {
      await access.end();
    }
  }
  if (file !== null) {
    const { to, form, paper, language } = file;
    const tabled = found.sort(compareLines(order)).map(({ pull }) => pull);
    if (form === 'pdf')
      tellWritten(
        await printResults({ pulls: tabled, columns, ...asked, paths, to, paper, language, say: io.err }),
        given,
        io,
      );
    else tellWritten(await writeResults(tableOf(tabled, columns), { path: to, form }), given, io);
  } else {
    const { hits, next } = hitsTogether(pages, order, limit);
    const list = { hits, paths, next: nextOf(next) };
    if (given.has('json')) io.out(JSON.stringify(jsonOf(list)));
    else tellList(list, units, io);
  }
  return EXIT_DONE;
}

interface FoundList {
  readonly hits: readonly Hit[];
  readonly paths: readonly string[];
  /** Null where there is no more. */
  readonly next: string | null;
}

/** In the key of several archives: one of which nothing was shown yet. */
const FROM_THE_BEGINNING = '';

const keysForm = z.array(z.string().max(TEXT_LENGTH_MAX).nullable());

/** Behind which key each archive goes on: from the beginning (undefined), or no further (null). */
function keysFrom(
  after: string | undefined,
  paths: readonly string[],
): readonly (string | null | undefined)[] {
  if (after === undefined || paths.length === 1) return [after];
  try {
    const keys = keysForm.parse(JSON.parse(after));
    if (keys.length === paths.length)
      return keys.map((key) => (key === FROM_THE_BEGINNING ? undefined : key));
  } catch {
    // Told below.
  }
  throw new InputError(
    'search-key-wrong',
    `The key after which the page of ${String(paths.length)} archives is to begin is none that a page of them ended with; take the "next" of the page before, with the same files in the same order.`,
    'after',
  );
}

/** One key for the next page of all of them; null where none has more. */
function nextOf(keys: readonly (string | null | undefined)[]): string | null {
  if (keys.length === 1) return keys[0] ?? null;
  return keys.every((key) => key === null)
    ? null
    : JSON.stringify(keys.map((key) => (key === undefined ? FROM_THE_BEGINNING : key)));
}

/** Of several archives each pull names its own. */
const jsonOf = ({ hits, paths, next }: FoundList): object => ({
  pulls: hits.map(({ line, place }) => (paths.length === 1 ? line : { archive: paths[place], ...line })),
  next,
});

function tellList({ hits, paths, next }: FoundList, units: DisplaySystem | undefined, io: VerbIo): void {
  io.out(hits.length === 0 ? 'No pull here fits the search.' : foundText(hits, paths, units));
  if (next !== null) io.err(`There may be more; the next page: --after ${shellWord(next)}`);
}

const shellWord = (key: string): string => (/^\d+$/.test(key) ? key : `'${key.replaceAll("'", "'\\''")}'`);

function orderFrom(given: VerbArguments): SearchOrder {
  const by = oneOf('sort', given.text('sort'), SEARCH_COLUMNS) ?? NEWEST_FIRST.by;
  return { by, descending: !given.has('ascending') };
}

interface ResultsFile extends AskedPaper {
  readonly to: string;
  readonly form: RequestOf<'archive.export-results'>['form'] | 'pdf';
}

function resultsFileFrom(given: VerbArguments): ResultsFile | null {
  const [csv, xlsx, pdf] = [given.text('csv'), given.text('xlsx'), given.text('pdf')];
  const [to, ...more] = [csv, xlsx, pdf].filter((file) => file !== undefined);
  if (more.length > 0)
    throw new InputError(
      'options-exclude',
      'Give --csv, --xlsx or --pdf, one file at a time.',
      pdf === undefined ? 'xlsx' : 'pdf',
    );
  const paper = paperFrom(given, 'pdf');
  if (to === undefined) return null;
  const csvForm = oneOf('form', given.text('form'), CSV_FORM_NAMES) ?? 'plain';
  const form = csv !== undefined ? csvForm : xlsx !== undefined ? 'xlsx' : 'pdf';
  return { to: resolve(to), form, ...paper };
}

async function writeTable(
  access: RecorderAccess,
  { form, ...found }: RequestOf<'archive.export-results'>,
  given: VerbArguments,
  io: VerbIo,
): Promise<ExitCode> {
  tellWritten(await access.ask('archive.export-results', { ...found, form }), given, io);
  return EXIT_DONE;
}

function tellWritten(
  written: ReplyOf<'archive.export-results'> & { readonly pages?: number },
  given: VerbArguments,
  io: VerbIo,
): void {
  if (written.blank.length > 0)
    io.err(`No pull of the table gives anything for: ${written.blank.join(', ')}.`);
  if (given.has('json')) io.out(JSON.stringify(written));
  else {
    const { rows, pages, path } = written;
    const on = pages === undefined ? '' : ` on ${String(pages)} ${pages === 1 ? 'page' : 'pages'}`;
    io.out(`${String(rows)} ${rows === 1 ? 'row' : 'rows'}${on} written to ${path}`);
  }
}

const HEAD = ['pull', 'begun', 'specimen', 'peak', 'strength'] as const;

/** One line a pull, of several archives with its file. Without `units` each as its specimen was measured. */
function foundText(hits: readonly Hit[], paths: readonly string[], units: DisplaySystem | undefined): string {
  const ofSeveral = <T>(one: T): readonly T[] => (paths.length > 1 ? [one] : []);
  // Stated of the fewest: where none has any, there is no column of dashes.
  const ofSome = (name: 'yieldMpa' | 'elongationPercent', text: string): readonly string[] =>
    hits.some(({ line }) => line[name] !== null) ? [text] : [];
  const head = [
    ...ofSeveral('archive'),
    ...HEAD,
    ...ofSome('yieldMpa', 'yield'),
    ...ofSome('elongationPercent', 'elongation'),
    '',
  ];
  const rows = hits.map(({ line: pull, place }) => {
    const system = units ?? pull.measuredIn;
    return [
      ...ofSeveral(basename(paths[place] ?? '')),
      String(pull.pullId),
      dateOfPull(pull),
      pull.specimenName,
      shown(pull.peakForceN, 'N', system, 5),
      shown(pull.strengthMpa, 'MPa', system, 4),
      ...ofSome('yieldMpa', shown(pull.yieldMpa, 'MPa', system, 4)),
      ...ofSome('elongationPercent', shown(pull.elongationPercent, '%', system, 3)),
      factsOf(pull).join(', '),
    ];
  });
  const widths = head.map((title, i) => Math.max(title.length, ...rows.map((row) => row[i]?.length ?? 0)));
  return [head, ...rows]
    .map((row) =>
      row
        .map((cell, i) => cell.padEnd(widths[i] ?? 0))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

function factsOf(pull: FoundPull): string[] {
  return [
    ...READINGS_ORIGINS.flatMap((origin) => (origin === pull.origin ? [ORIGIN_MARKS[origin]] : [])),
    ...(pull.origin === 'typed' ? ['TYPED'] : []),
    ...(pull.voidReason === null ? [] : [`VOID: ${pull.voidReason}`]),
    ...(pull.verdict === null ? [] : [pull.verdict.toUpperCase()]),
    ...(pull.verdictKnown ? [] : ['not judged']),
    ...(pull.questionable ? ['questionable'] : []),
    ...(pull.interrupted ? ['interrupted'] : []),
    ...(pull.place === null ? [] : [pull.place]),
    ...(pull.setName === null ? [] : [`in set ${String(pull.setId)} ${pull.setName}`]),
    ...(pull.ended ? [] : ['being recorded']),
    ...(pull.operator === null ? [] : [`by ${pull.operator}`]),
  ];
}

function shown(value: number | null, unit: UnitSymbol, system: DisplaySystem, digits: number): string {
  if (value === null) return '–';
  const its = inDisplayUnit(value, unit, system);
  return `${numberText(its.value, digits)} ${its.unit}`;
}
