/** `gaugemark archive VERB`: an archive, whole or pull by pull (archive-help.ts names the verbs). */
import { resolve } from 'node:path';
import { CSV_FORM_NAMES } from '../../../core/exchange/export/csv-form.ts';
import { type DisplaySystem, UNIT_SYSTEMS } from '../../../core/quantity/display-unit.ts';
import { noteBackup, usualNotesFolder } from '../../exports/noted-backup.ts';
import { type VerbArguments, oneOf, takeArguments } from '../arguments.ts';
import { EVALUATION_FLAGS } from '../evaluation-flags.ts';
import { gatherValues } from '../gather-values.ts';
import { rulesAsked } from '../judged-by.ts';
import { RULES_FOLDER_OPTION } from '../rule-pack-argument.ts';
import { KEEPING_FLAGS, askedEvaluation, checkKeeping, historyText } from '../kept-evaluation.ts';
import { keptAndEvaluated, pullAnswer } from '../pull-document.ts';
import { type RecorderAccess, existingArchive, recorderAccess } from '../recorder-access.ts';
import { pullPhotos } from '../pull-photos.ts';
import { noteFracture } from '../note-fracture.ts';
import { pullNumber } from '../pull-number.ts';
import { listedPulls, pullListText } from '../pull-list.ts';
import { ARCHIVE_ACTIONS, ARCHIVE_PARTS, ARCHIVE_USAGE, type ArchiveAction } from '../archive-help.ts';
import { archiveEvaluateAgain } from '../archive-evaluate-again.ts';
import { archiveImport } from '../archive-import.ts';
import { archiveMerge } from '../archive-merge.ts';
import { archiveExportPicture, archiveOverlay } from '../archive-overlay.ts';
import { archiveRestore } from '../archive-restore.ts';
import { KEPT_BACKUP_FLAGS, agesFrom } from '../kept-backups.ts';
import { archiveSplit } from '../archive-split.ts';
import { archiveSearch } from '../archive-search.ts';
import { archiveTrend } from '../archive-trend.ts';
import { blankRunAsked } from '../blank-run-asked.ts';
import { planAsked } from '../plan-asked.ts';
import { SEARCH_FLAGS, asksForVerdicts, searchQueryFrom } from '../search-flags.ts';
import { saidBy } from '../said.ts';
import { setDamagedArchiveAside } from '../set-archive-aside.ts';
import { stateDay } from '../stated-day.ts';
import { voidPull } from '../void-pull.ts';
import { EXIT_DONE, EXIT_JOB_FAILED, type ExitCode, InputError, type Verb, type VerbIo } from '../verb.ts';

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

/** Those about one pull. */
const ABOUT_ONE: readonly string[] = ['show', 'evaluate', 'history', 'export'];
/** Those that read, through the recorder that has the archive or one of their own. */
type ReadingAction = Exclude<
  ArchiveAction,
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
  summary: 'pulls that are kept: find, look at, correct, take in, give out, keep safe',
  usage: ARCHIVE_USAGE,
  parts: ARCHIVE_PARTS,
  run: async (args, io) => {
    const action = ARCHIVE_ACTIONS.find((word) => word === args[0]);
    if (action === undefined)
      throw new InputError(
        'action-unknown',
        args[0] === undefined || args[0].startsWith('-')
          ? `Say what to do with the archive: ${ARCHIVE_ACTIONS.join(', ')}.`
          : `"archive ${args[0].slice(0, 40)}" is not known; use one of ${ARCHIVE_ACTIONS.join(', ')}.`,
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
