/** What `gaugemark help archive` says: what there is, by what somebody wants, and the whole of each of its verbs. */
import { ARCHIVE_AGAIN_HELP, ARCHIVE_AGAIN_USAGE } from './archive-evaluate-again.ts';
import { ARCHIVE_IMPORT_HELP, ARCHIVE_IMPORT_USAGE } from './archive-import.ts';
import { ARCHIVE_MERGE_HELP, ARCHIVE_MERGE_USAGE } from './archive-merge.ts';
import {
  ARCHIVE_OVERLAY_HELP,
  ARCHIVE_OVERLAY_USAGE,
  EXPORT_PICTURE_HELP,
  EXPORT_PICTURE_USAGE,
} from './archive-overlay.ts';
import { ARCHIVE_RESTORE_HELP, ARCHIVE_RESTORE_USAGE } from './archive-restore.ts';
import { ARCHIVE_SEARCH_HELP, ARCHIVE_SEARCH_USAGE } from './archive-search.ts';
import { ARCHIVE_SPLIT_HELP, ARCHIVE_SPLIT_USAGE } from './archive-split.ts';
import { ARCHIVE_TREND_HELP, ARCHIVE_TREND_USAGE } from './archive-trend.ts';
import { EVALUATION_USAGE } from './evaluation-flags.ts';
import { JUDGED_BY_USAGE } from './judged-by.ts';
import { KEPT_BACKUP_HELP } from './kept-backups.ts';
import { NOTE_FRACTURE_HELP, NOTE_FRACTURE_USAGE } from './note-fracture.ts';
import { PHOTO_HELP, PHOTO_USAGE } from './pull-photos.ts';
import { SEARCH_USAGE } from './search-flags.ts';
import { STATE_DAY_HELP, STATE_DAY_USAGE } from './stated-day.ts';
import { VOID_HELP, VOID_USAGE } from './void-pull.ts';

/** What one wants of an archive, with the verbs that do it. */
const WANTS = [
  ['Find', ['list', 'search', 'trend']],
  ['Look', ['show', 'history', 'overlay']],
  ['Correct', ['evaluate', 'evaluate-again', 'note-fracture', 'state-day', 'photo', 'void']],
  ['Take in', ['import', 'merge']],
  ['Give out', ['export']],
  ['Keep safe', ['check', 'backup', 'restore', 'split', 'set-aside']],
] as const;

export type ArchiveAction = (typeof WANTS)[number][1][number];
export const ARCHIVE_ACTIONS: readonly ArchiveAction[] = WANTS.flatMap(([, actions]) => actions);

interface HelpOfAction {
  /** In one line. */
  readonly does: string;
  readonly usage: string;
  /** All that there is to say, then its options. */
  readonly help: readonly string[];
}

const FILTERS = `Filters:
${SEARCH_USAGE}`;

/** Of whatever evaluates. */
const EVALUATION = `Options of an evaluation:
${EVALUATION_USAGE}`;

/** Of whatever evaluates one pull. */
const EVALUATION_OF_ONE = `${EVALUATION}
  --columns "time_s;force_lbf;…"
                            of an imported pull: the rows of its file read again from the bytes that are kept, each column
                            said anew; with --first-row LINE and --decimal-sign .|, where those were wrong. What is not
                            said stays as it was imported
  --as-recorded             leave out the options of the evaluation that stands
${JUDGED_BY_USAGE}
  --rules-folder DIR        folder of your own rule packs, instead of the usual one ("gaugemark help rules")`;

const UNITS = '  --units si|us             units of text and picture; --json is SI';
const CHANGES_NOTHING = '  Changes nothing in the archive and nothing beside it.';

const OF_ACTION: Readonly<Record<ArchiveAction, HelpOfAction>> = {
  list: {
    does: 'the pulls, newest first',
    usage:
      'gaugemark archive list --archive FILE [--search TEXT] [filters] [--verdicts] [--units si|us] [--json]',
    help: [
      `  list     the pulls, newest first: when by the clock of the place, specimen, recorded peak and peak over S0, operator;
           --search in names of specimens and operators; --verdicts adds the verdict in the newest set that a pull
           is in (judged anew, which takes its time); the filters narrow it`,
      FILTERS,
      UNITS,
      CHANGES_NOTHING,
    ],
  },
  search: {
    does: 'pulls by words and filters, sorted; as a table too: --csv, --xlsx, --pdf',
    usage: ARCHIVE_SEARCH_USAGE,
    help: [ARCHIVE_SEARCH_HELP, FILTERS, UNITS],
  },
  trend: {
    does: 'one result of all that is found, over time or by group, with its statistics and picture',
    usage: ARCHIVE_TREND_USAGE,
    help: [ARCHIVE_TREND_HELP, FILTERS, UNITS],
  },
  show: {
    does: 'one pull with its results; with options by other ones, which are not kept',
    usage:
      'gaugemark archive show ID --archive FILE [options] [--as-recorded] [--working] [--units si|us] [--json]',
    help: [
      `  show     one pull: specimen, marks, gaps, and the results of its curve, by the evaluation that stands; with options
           by those laid over it, shown and not kept. --working adds formula, numbers put in and source to each value.
           Certificates that say something else by now are named`,
      EVALUATION_OF_ONE,
      UNITS,
      CHANGES_NOTHING,
      '  gaugemark archive show 12 --archive shop.gaugemark --working',
    ],
  },
  history: {
    does: 'every evaluation of a pull that was kept',
    usage: 'gaugemark archive history ID --archive FILE [--json]',
    help: [
      '  history  every evaluation of a pull that was kept: when, by whom, why, and what it corrects',
      CHANGES_NOTHING,
    ],
  },
  overlay: {
    does: 'curves of several pulls in one picture, SVG or PDF, or the difference of two',
    usage: ARCHIVE_OVERLAY_USAGE,
    help: [ARCHIVE_OVERLAY_HELP, UNITS, CHANGES_NOTHING],
  },
  evaluate: {
    does: 'another evaluation of a pull, which stands from then on',
    usage:
      'gaugemark archive evaluate ID --archive FILE [options] [--as-recorded] --reason TEXT [--operator NAME] [--working] [--units si|us] [--json]',
    help: [
      `  evaluate keeps another evaluation of a pull: it stands from then on, wherever the pull is opened, judged or
           certified. Nothing recorded changes, and the one before stays; --as-recorded goes back to none
  --reason TEXT             why this evaluation takes the place of the one before
  --operator NAME           who decided so`,
      EVALUATION_OF_ONE,
      UNITS,
      '  gaugemark archive evaluate 12 --archive shop.gaugemark --zero-load "40 N" --reason "grip weight was not zeroed"',
    ],
  },
  'evaluate-again': {
    does: 'all that is found, by this program, against what was stated before',
    usage: ARCHIVE_AGAIN_USAGE,
    help: [ARCHIVE_AGAIN_HELP, FILTERS, EVALUATION, UNITS],
  },
  'note-fracture': {
    does: 'where and how the specimen of a pull broke',
    usage: NOTE_FRACTURE_USAGE,
    help: [NOTE_FRACTURE_HELP],
  },
  'state-day': {
    does: 'the day on which an imported pull was made',
    usage: STATE_DAY_USAGE,
    help: [STATE_DAY_HELP],
  },
  photo: {
    does: 'photos of the broken specimen: listed, added, withdrawn, written out',
    usage: PHOTO_USAGE,
    help: [PHOTO_HELP],
  },
  void: {
    does: 'a pull that counts no more; it is not deleted',
    usage: VOID_USAGE,
    help: [VOID_HELP],
  },
  import: {
    does: 'a file of delimited text as a pull',
    usage: ARCHIVE_IMPORT_USAGE,
    help: [ARCHIVE_IMPORT_HELP, UNITS],
  },
  merge: {
    does: 'the pulls of another archive, with all that was said of them',
    usage: ARCHIVE_MERGE_USAGE,
    help: [ARCHIVE_MERGE_HELP],
  },
  export: {
    does: 'one pull as CSV, JSON, linked data, picture, or the file that it was imported from',
    usage: `gaugemark archive export ID --archive FILE --out FILE.csv|.json|.jsonld [--form WORD] [--json]
${EXPORT_PICTURE_USAGE}`,
    help: [
      `  export   one pull; the end of the name says the form. .csv: time_s, force_N, extension_mm …, then what the readout
           showed, and # lines about the record; .json: everything that is kept of it, raw bytes and evaluations too, by
           the schema fixtures/schemas/pull-4.schema.json; .jsonld: linked data in terms of the Tensile Test Ontology.
           --form says which CSV a spreadsheet opens rightly (the words that search has); of more readings than a
           spreadsheet holds, those forms make several files, the plain one stays whole. --form original writes the
           file that a pull was imported from, byte for byte, under whatever name is given.
${EXPORT_PICTURE_HELP}`,
      UNITS,
      CHANGES_NOTHING,
    ],
  },
  check: {
    does: 'whether the archive, or one pull, is as it was kept',
    usage: 'gaugemark archive check [ID] --archive FILE [--json]',
    help: [
      '  check    file, references, audit chain, photos, raw bytes, and whether the raw bytes still give the readings',
      CHANGES_NOTHING,
    ],
  },
  backup: {
    does: 'a checked copy',
    usage:
      'gaugemark archive backup --archive FILE --out FILE | --into FOLDER [--keep-hours N] [--keep-days N] [--keep-months N] [--json]',
    help: [
      `  backup   a checked copy by the database's own means; never over an existing file. The window's reminder counts it
${KEPT_BACKUP_HELP}`,
      CHANGES_NOTHING,
    ],
  },
  restore: {
    does: 'a backup in the place of the archive, which stays under another name',
    usage: ARCHIVE_RESTORE_USAGE,
    help: [ARCHIVE_RESTORE_HELP],
  },
  split: {
    does: 'one file for each year; the original stays',
    usage: ARCHIVE_SPLIT_USAGE,
    help: [ARCHIVE_SPLIT_HELP],
  },
  'set-aside': {
    does: 'a damaged archive under another name, so that a fresh one can begin',
    usage: 'gaugemark archive set-aside --archive FILE [--json]',
    help: [
      `  set-aside
           only for a damaged archive: renames it with the date, log and spool with it, and keeps all of it; the next
           pull, or the next start of the window, begins a fresh one`,
    ],
  },
};

const WITHOUT_ARCHIVE = `  Without --archive the archive in the platform's own place is taken. With --json there is one JSON document on stdout.`;

const width = Math.max(...ARCHIVE_ACTIONS.map((action) => action.length));

export const ARCHIVE_USAGE = [
  'gaugemark archive VERB … --archive FILE [--json]   (gaugemark help archive VERB tells the whole of one)',
  ...WANTS.map(([want, actions]) =>
    [want, ...actions.map((action) => `  ${action.padEnd(width)}  ${OF_ACTION[action].does}`)].join('\n'),
  ),
  `  list, show, history, export, overlay, check and backup change nothing in the archive and nothing beside it.
${WITHOUT_ARCHIVE}`,
  `  gaugemark archive search bracket --archive shop.gaugemark
  gaugemark archive show 12 --archive shop.gaugemark --working`,
].join('\n\n');

/** The whole of each verb. */
export const ARCHIVE_PARTS: Readonly<Record<ArchiveAction, string>> = partsOf(OF_ACTION);

function partsOf(all: typeof OF_ACTION): Record<ArchiveAction, string> {
  const text = ({ usage, help }: HelpOfAction): string => [usage, ...help, WITHOUT_ARCHIVE].join('\n\n');
  const parts = Object.entries(all).map(([action, help]) => [action, text(help)] as const);
  return Object.fromEntries(parts) as Record<ArchiveAction, string>;
}
