/** `gaugemark archive list|search|show|evaluate|history|note-fracture|state-day|void|photo|export|overlay|check|backup|set-aside`: an archive, whole or pull by pull. */
import { resolve } from 'node:path';
import { CSV_FORM_NAMES } from '../../../core/exchange/export/csv-form.ts';
import { type DisplaySystem, UNIT_SYSTEMS } from '../../../core/quantity/display-unit.ts';
import { noteBackup, usualNotesFolder } from '../../exports/noted-backup.ts';
import { type VerbArguments, oneOf, takeArguments } from '../arguments.ts';
import { EVALUATION_FLAGS, EVALUATION_USAGE } from '../evaluation-flags.ts';
import { gatherValues } from '../gather-values.ts';
import { JUDGED_BY_USAGE, rulesAsked } from '../judged-by.ts';
import { RULES_FOLDER_OPTION } from '../rule-pack-argument.ts';
import { KEEPING_FLAGS, askedEvaluation, checkKeeping, historyText } from '../kept-evaluation.ts';
import { keptAndEvaluated, pullAnswer } from '../pull-document.ts';
import { type RecorderAccess, existingArchive, recorderAccess } from '../recorder-access.ts';
import { PHOTO_USAGE, pullPhotos } from '../pull-photos.ts';
import { NOTE_FRACTURE_HELP, NOTE_FRACTURE_USAGE, noteFracture } from '../note-fracture.ts';
import { pullNumber } from '../pull-number.ts';
import { listedPulls, pullListText } from '../pull-list.ts';
import { ARCHIVE_AGAIN_HELP, ARCHIVE_AGAIN_USAGE, archiveEvaluateAgain } from '../archive-evaluate-again.ts';
import { ARCHIVE_IMPORT_HELP, ARCHIVE_IMPORT_USAGE, archiveImport } from '../archive-import.ts';
import { ARCHIVE_MERGE_HELP, ARCHIVE_MERGE_USAGE, archiveMerge } from '../archive-merge.ts';
import {
  ARCHIVE_OVERLAY_HELP,
  ARCHIVE_OVERLAY_USAGE,
  EXPORT_PICTURE_USAGE,
  archiveExportPicture,
  archiveOverlay,
} from '../archive-overlay.ts';
import { ARCHIVE_RESTORE_HELP, ARCHIVE_RESTORE_USAGE, archiveRestore } from '../archive-restore.ts';
import { KEPT_BACKUP_FLAGS, KEPT_BACKUP_HELP, agesFrom } from '../kept-backups.ts';
import { ARCHIVE_SPLIT_HELP, ARCHIVE_SPLIT_USAGE, archiveSplit } from '../archive-split.ts';
import { ARCHIVE_SEARCH_HELP, ARCHIVE_SEARCH_USAGE, archiveSearch } from '../archive-search.ts';
import { ARCHIVE_TREND_HELP, ARCHIVE_TREND_USAGE, archiveTrend } from '../archive-trend.ts';
import { blankRunAsked } from '../blank-run-asked.ts';
import { planAsked } from '../plan-asked.ts';
import { SEARCH_FLAGS, asksForVerdicts, searchQueryFrom } from '../search-flags.ts';
import { saidBy } from '../said.ts';
import { setDamagedArchiveAside } from '../set-archive-aside.ts';
import { STATE_DAY_HELP, STATE_DAY_USAGE, stateDay } from '../stated-day.ts';
import { voidPull } from '../void-pull.ts';
import { EXIT_DONE, EXIT_JOB_FAILED, type ExitCode, InputError, type Verb, type VerbIo } from '../verb.ts';

const usage = `gaugemark archive list   --archive FILE [--search TEXT] [filters] [--verdicts] [--units si|us] [--json]
${ARCHIVE_SEARCH_USAGE}
${ARCHIVE_TREND_USAGE}
gaugemark archive show ID   --archive FILE [options] [--as-recorded] [--working] [--units si|us] [--json]
gaugemark archive evaluate ID --archive FILE [options] [--as-recorded] --reason TEXT [--operator NAME] [--json]
${ARCHIVE_AGAIN_USAGE}
gaugemark archive history ID  --archive FILE [--json]
${NOTE_FRACTURE_USAGE}
${STATE_DAY_USAGE}
gaugemark archive void --pull ID  --archive FILE --reason TEXT [--operator NAME] [--json]
${PHOTO_USAGE}
gaugemark archive export ID --archive FILE --out FILE.csv|.json|.jsonld [--form WORD] [--json]
${EXPORT_PICTURE_USAGE}
${ARCHIVE_OVERLAY_USAGE}
gaugemark archive check  [ID] --archive FILE [--json]
gaugemark archive backup --archive FILE --out FILE | --into FOLDER [--keep-hours N] [--keep-days N] [--keep-months N] [--json]
${ARCHIVE_RESTORE_USAGE}
${ARCHIVE_IMPORT_USAGE}
${ARCHIVE_MERGE_USAGE}
${ARCHIVE_SPLIT_USAGE}
gaugemark archive set-aside --archive FILE [--json]

  list     the pulls, newest first: when by the clock of the place, specimen, recorded peak and peak over S0, operator;
           --search in names of specimens and operators; --verdicts adds the verdict in the newest set that a pull
           is in (judged anew, which takes its time); the filters of search narrow it
${ARCHIVE_SEARCH_HELP}
${ARCHIVE_TREND_HELP}
  show     one pull: specimen, marks, gaps, and the results of its curve, by the evaluation that stands; with options
           by those laid over it, shown and not kept
  evaluate keeps another evaluation of a pull: it stands from then on, wherever the pull is opened, judged or
           certified. Nothing recorded changes, and the one before stays; --as-recorded goes back to none
${ARCHIVE_AGAIN_HELP}
  history  every evaluation of a pull that was kept: when, by whom, why, and what it corrects
${NOTE_FRACTURE_HELP}
${STATE_DAY_HELP}
  void     a pull that counts no more: in no set, no verdict, no certificate but as what it is. It is not deleted and
           can't be taken back; the reason stays with it
  photo    photos of the broken specimen, JPEG or PNG: listed, added, withdrawn, one put in the place of another, and
           written out. They are kept as they are, with their hash, and stand on the certificate
  export   one pull; the end of the name says the form. .csv: time_s, force_N, extension_mm …, then what the readout
           showed, and # lines about the record; .json: everything that is kept of it, raw bytes and evaluations too, by
           the schema fixtures/schemas/pull-4.schema.json; .jsonld: linked data in terms of the Tensile Test Ontology.
           --form says which CSV a spreadsheet opens rightly (the words that search has); of more readings than a
           spreadsheet holds, those forms make several files, the plain one stays whole. --form original writes the
           file that a pull was imported from, byte for byte, under whatever name is given
${ARCHIVE_OVERLAY_HELP}
  check    file, references, audit chain, photos, raw bytes, and whether the raw bytes still give the readings
  backup   a checked copy by the database's own means; never over an existing file. The window's reminder counts it
${KEPT_BACKUP_HELP}
${ARCHIVE_RESTORE_HELP}
${ARCHIVE_IMPORT_HELP}
${ARCHIVE_MERGE_HELP}
${ARCHIVE_SPLIT_HELP}
  set-aside
           only for a damaged archive: renames it with the date, log and spool with it, and keeps all of it; the next
           pull, or the next start of the window, begins a fresh one

  list, show, history, export, overlay, check and backup change nothing in the archive and nothing beside it.
  Without --archive the archive in the platform's own place is taken.

Options of an evaluation, for show, evaluate and evaluate-again:
${EVALUATION_USAGE}
  --columns "time_s;force_lbf;…"
                            of an imported pull: the rows of its file read again from the bytes that are kept, each column
                            said anew; with --first-row LINE and --decimal-sign .|, where those were wrong. What is not
                            said stays as it was imported
  --as-recorded             leave out the options of the evaluation that stands
  --reason TEXT             why this evaluation takes the place of the one before
  --operator NAME           who decided so
${JUDGED_BY_USAGE}
  --rules-folder DIR        folder of your own rule packs, instead of the usual one ("gaugemark help rules")

  gaugemark archive show 12 --archive shop.gaugemark --working
  gaugemark archive evaluate 12 --archive shop.gaugemark --zero-load "40 N" --reason "grip weight was not zeroed"`;

const OPTIONS = {
  ...SEARCH_FLAGS,
  ...KEPT_BACKUP_FLAGS,
  ...EVALUATION_FLAGS,
  ...KEEPING_FLAGS,
  ...RULES_FOLDER_OPTION,
  archive: { type: 'string' },
  out: { type: 'string' },
  form: { type: 'string' },
  search: { type: 'string' },
  verdicts: { type: 'boolean' },
  working: { type: 'boolean' },
  units: { type: 'string' },
  json: { type: 'boolean' },
} as const;

const ACTIONS = [
  'list',
  'search',
  'show',
  'evaluate',
  'evaluate-again',
  'trend',
  'history',
  'note-fracture',
  'state-day',
  'void',
  'photo',
  'export',
  'overlay',
  'check',
  'backup',
  'restore',
  'import',
  'merge',
  'split',
  'set-aside',
] as const;
/** Those about one pull. */
const ABOUT_ONE: readonly string[] = ['show', 'evaluate', 'history', 'export'];
/** Those that read, through the recorder that has the archive or one of their own. */
type ReadingAction = Exclude<
  (typeof ACTIONS)[number],
  | 'set-aside'
  | 'restore'
  | 'import'
  | 'merge'
  | 'split'
  | 'search'
  | 'evaluate-again'
  | 'trend'
  | 'overlay'
  | 'note-fracture'
  | 'state-day'
  | 'void'
  | 'photo'
>;

interface Task {
  readonly access: RecorderAccess;
  readonly given: VerbArguments;
  readonly io: VerbIo;
  readonly pullId: number | null;
}

export const verb: Verb = {
  name: 'archive',
  summary:
    'pulls that are kept: list, search, trend, show, evaluate, evaluate-again, history, note-fracture, state-day, void, photo, export, overlay, check, backup, restore, import, merge, split; a damaged archive: set-aside',
  usage,
  run: async (args, io) => {
    const action = ACTIONS.find((word) => word === args[0]);
    if (action === undefined)
      throw new InputError(
        'action-unknown',
        args[0] === undefined || args[0].startsWith('-')
          ? `Say what to do with the archive: ${ACTIONS.join(', ')}.`
          : `"archive ${args[0].slice(0, 40)}" is not known; use one of ${ACTIONS.join(', ')}.`,
      );
    const rest = args.slice(1);
    if (action === 'import') return archiveImport(rest, io);
    if (action === 'merge') return archiveMerge(rest, io);
    if (action === 'split') return archiveSplit(rest, io);
    if (action === 'restore') return archiveRestore(rest, io);
    if (action === 'search') return archiveSearch(rest, io);
    if (action === 'trend') return archiveTrend(rest, io);
    if (action === 'evaluate-again') return archiveEvaluateAgain(rest, io);
    if (action === 'note-fracture') return noteFracture(rest, io);
    if (action === 'state-day') return stateDay(rest, io);
    if (action === 'void') return voidPull(rest, io);
    if (action === 'photo') return pullPhotos(rest, io);
    if (action === 'overlay') return archiveOverlay(rest, io);
    if (action === 'export' && rest.some(asksForPicture)) return archiveExportPicture(rest, io);
    const takesId = ABOUT_ONE.includes(action) || (action === 'check' && rest.some(isNumber));
    const given = takeArguments(
      gatherValues(rest, OPTIONS, { oneEach: true }),
      OPTIONS,
      takesId ? ['The number of the pull'] : [],
      'archive',
    );
    unitsOf(given);
    const pullId = takesId ? pullNumber(given.positionals[0], 'ID') : null;
    if (action === 'backup' && given.text('out') !== undefined && given.text('into') !== undefined)
      throw new InputError('options-exclude', 'Give --out FILE or --into FOLDER, not both.', 'into');
    agesFrom(given);
    const isInto = action === 'backup' && given.text('into') !== undefined;
    if ((action === 'export' || action === 'backup') && !isInto && given.text('out') === undefined)
      throw new InputError(
        'option-missing',
        `--out FILE is missing: where the ${action} is to be written.`,
        'out',
      );
    if (action === 'set-aside') return setAside(given, io);
    existingArchive(given.text('archive'));
    const filters = action === 'list' ? searchQueryFrom(given, undefined) : null;
    const access = await recorderAccess({
      archive: given.text('archive'),
      toRecord: action === 'evaluate' || (filters !== null && asksForVerdicts(filters)),
      note: io.err,
    });
    try {
      return await DO[action]({ access, given, io, pullId });
    } finally {
      await access.end();
    }
  },
};

async function setAside(given: VerbArguments, io: VerbIo): Promise<ExitCode> {
  const { setAsideTo, path, isBegunAnew } = await setDamagedArchiveAside(given.text('archive'));
  if (given.has('json')) io.out(JSON.stringify({ setAsideTo, path }));
  else {
    io.out(`The damaged archive is now ${setAsideTo}; all of it is kept.`);
    io.out(
      isBegunAnew
        ? `A fresh archive has been begun as ${path}.`
        : `The next pull into ${path}, or the next start of the window, begins a fresh archive there.`,
    );
  }
  return EXIT_DONE;
}

const unitsOf = (given: VerbArguments): DisplaySystem | undefined =>
  oneOf('units', given.text('units'), UNIT_SYSTEMS);

const shownAs = (given: VerbArguments) => ({
  json: given.has('json'),
  working: given.has('working'),
  units: unitsOf(given),
});

const asksForPicture = (arg: string): boolean => /^--(?:svg|pdf|png)(?:=|$)|\.(?:svg|pdf)$/i.test(arg);
const isNumber = (text: string): boolean => /^\d+$/.test(text);

const DO: Readonly<Record<ReadingAction, (task: Task) => Promise<ExitCode>>> = {
  list: async ({ access, given, io }) => {
    const pulls = await listedPulls(access, {
      search: given.text('search'),
      verdicts: given.has('verdicts'),
      filters: searchQueryFrom(given, undefined),
      note: io.err,
    });
    if (given.has('json')) io.out(JSON.stringify({ pulls }));
    else if (pulls.length > 0) io.out(pullListText(pulls, unitsOf(given)));
    else
      io.out(
        given.text('search') === undefined ? 'No pulls are kept here.' : 'No pull here fits the search.',
      );
    return EXIT_DONE;
  },
  show: async ({ access, given, io, pullId }) => {
    const judgedBy = await rulesAsked(given, access, pullId ?? 0);
    const blankRun = await blankRunAsked(given, access);
    const importPlan = await planAsked(given, access, pullId ?? 0, io.err);
    const kept = await keptAndEvaluated(access, pullId ?? 0, (standing) =>
      askedEvaluation(given, standing, { judgedBy, blankRun, importPlan }),
    );
    io.out(await pullAnswer(access, kept, shownAs(given)));
    return EXIT_DONE;
  },
  evaluate: async ({ access, given, io, pullId }) => {
    const about = { pullId: pullId ?? 0 };
    const { evaluations } = await access.ask('evaluation.history', about);
    const standing = evaluations.at(-1) ?? null;
    const asked = askedEvaluation(given, standing, {
      judgedBy: await rulesAsked(given, access, about.pullId),
      blankRun: await blankRunAsked(given, access),
      importPlan: await planAsked(given, access, about.pullId, io.err),
    });
    const reason = checkKeeping(given, asked, about.pullId);
    const { evaluationId } = await access.ask('evaluation.keep', {
      ...about,
      options: asked.options,
      sources: [...asked.sources],
      supersedes: standing?.evaluationId ?? null,
      reason,
      ...saidBy(given),
    });
    const kept = await keptAndEvaluated(access, about.pullId);
    io.out(await pullAnswer(access, kept, shownAs(given)));
    if (!given.has('json'))
      io.out(`Evaluation ${evaluationId} is kept; what was recorded and what stood before stay as they are.`);
    return EXIT_DONE;
  },
  history: async ({ access, given, io, pullId }) => {
    const { evaluations } = await access.ask('evaluation.history', { pullId: pullId ?? 0 });
    io.out(given.has('json') ? JSON.stringify({ evaluations }) : historyText(evaluations));
    return EXIT_DONE;
  },
  export: async ({ access, given, io, pullId }) => {
    const form = oneOf('form', given.text('form'), [...CSV_FORM_NAMES, 'original'] as const);
    const written = await access.ask('archive.export', {
      pullId: pullId ?? 0,
      to: resolve(given.text('out') ?? ''),
      ...(form === undefined ? {} : { form }),
    });
    if (given.has('json')) io.out(JSON.stringify(written));
    else {
      const files = written.parts.length === 0 ? [written.path] : written.parts;
      io.out(
        form === 'original'
          ? `${written.bytes} bytes written to ${written.path}, as they were imported`
          : `${written.readingCount} readings written to ${files.join(', ')}`,
      );
      if (written.remark !== null) io.err(written.remark);
    }
    return EXIT_DONE;
  },
  check: async ({ access, given, io, pullId }) => {
    const verdict = await access.ask('archive.check', pullId === null ? {} : { pullId });
    if (given.has('json')) io.out(JSON.stringify(verdict));
    else
      for (const line of verdict.lines)
        io.out(`${line.ok ? 'sound  ' : 'DAMAGED'}  ${line.name}: ${line.words}`);
    if (!verdict.sound)
      io.err(
        'The archive is not sound; the lines above say where. Nothing was changed: keep the file as it is and work on a copy.',
      );
    return verdict.sound ? EXIT_DONE : EXIT_JOB_FAILED;
  },
  backup: async ({ access, given, io }) => {
    const into = given.text('into');
    if (into !== undefined) {
      const kept = await access.ask('archive.backup-into', {
        folder: resolve(into),
        ages: agesFrom(given),
      });
      noted(given, kept.path);
      if (given.has('json')) io.out(JSON.stringify(kept));
      else
        io.out(
          `Checked copy written to ${kept.path}, ${String(kept.bytes)} bytes; ${String(kept.dropped.length)} older ${kept.dropped.length === 1 ? 'backup' : 'backups'} taken away`,
        );
      return EXIT_DONE;
    }
    const written = await access.ask('archive.backup', { to: resolve(given.text('out') ?? '') });
    noted(given, written.path);
    if (given.has('json')) io.out(JSON.stringify(written));
    else io.out(`Checked copy written to ${written.path}, ${written.bytes} bytes`);
    return EXIT_DONE;
  },
};

/** So that the window, which reminds of backups, knows of this one too. */
function noted(given: VerbArguments, path: string): void {
  const archive = existingArchive(given.text('archive'));
  noteBackup(usualNotesFolder(), { archive, path, wallMs: Date.now() });
}
