/** Pulls that come from elsewhere: files of readings, and whole archives. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { CSV_FORM_NAMES } from '../exchange/export/csv-form.ts';
import { ASKED_COLUMNS_MAX, askedColumn } from '../exchange/export/asked-columns.ts';
import { ROW_MARKS, markedRowsForm } from '../exchange/export/marked-rows.ts';
import { importPlan } from '../exchange/import/import-plan.ts';
import { importChoices, importProposal } from '../exchange/import/proposal-message.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { statedDay } from '../pull/stated-day.ts';
import { specimenFile } from '../specimen/specimen-file.ts';
import { rowId, utcOffsetMinutes, wallMs } from './message.ts';
import {
  HITS_PER_PAGE,
  HITS_PER_PAGE_MAX,
  NEWEST_FIRST,
  foundPull,
  indexProgress,
  searchOrder,
  searchQuery,
  setsNotJudged,
} from './search-requests.ts';

const filePath = z.string().min(1).max(4096);
const count = z.number().int().nonnegative();
const sentence = z.string().max(TEXT_LENGTH_MAX);

/** Pulls of which a merge tells one by one, conflicts before others; all are counted. */
export const MERGE_LINES_MAX = 10_000;

/** Certificates that stay in the other archive of which a merge tells the numbers. */
export const CERTIFICATES_TOLD_MAX = 20;

export const MERGE_FATES = ['taken', 'added-to', 'here-already', 'conflict'] as const;
/** One pull of the other archive. */
export const mergeLine = z.strictObject({
  pullIdThere: rowId,
  specimenName: z.string(),
  fate: z.enum(MERGE_FATES),
  /** Its number here; null while nothing is written, and for a conflict about the record itself. */
  pullIdHere: rowId.nullable(),
  /** Why it is a conflict, or by what it is known here and what of it is added. */
  words: sentence,
});
export type MergeLine = z.infer<typeof mergeLine>;

/**
 * Long work on the archive, which can be stopped. `copy`: what a merge begins with where the other can't be read in place;
 * `backup-check`: what a backup ends with.
 */
export const EXCHANGE_WORK = [
  'import',
  'copy',
  'bring-up',
  'merge',
  'results',
  'backup',
  'backup-check',
  'check',
  'restore',
  'export',
  'split',
] as const;
export type ExchangeWork = (typeof EXCHANGE_WORK)[number];
/** How far it is; `of` is 0 while that is not known. */
export const exchangeProgress = z.strictObject({ work: z.enum(EXCHANGE_WORK), done: count, of: count });
export type ExchangeProgress = z.infer<typeof exchangeProgress>;

/** What an archive holds, as a restore compares it. */
export const archiveState = z.strictObject({
  path: filePath,
  pullCount: count,
  specimenCount: count,
  readingCount: count,
  lastPullWallMs: wallMs.nullable(),
});
export type ArchiveState = z.infer<typeof archiveState>;

/** Pulls of which a plan names the numbers; all are counted. */
export const RESTORE_PULLS_MAX = 1_000;

export const restorePlan = atFirstUse(() =>
  z.strictObject({
    backup: archiveState,
    /** Null where there is no archive yet; a sentence where it can't be read. */
    here: z.union([archiveState, sentence]).nullable(),
    isSameArchive: z.boolean().nullable(),
    /** Pulls that are here and not in the backup: they stay only in the file that is set aside. */
    onlyHere: z.array(rowId).max(RESTORE_PULLS_MAX),
    onlyHereCount: count,
    onlyInBackup: z.array(rowId).max(RESTORE_PULLS_MAX),
    onlyInBackupCount: count,
    /** Entries of the audit chain that the backup lacks: what was said and decided since, certificates too. */
    statementsOnlyHere: count,
  }),
);
export type RestorePlan = z.infer<typeof restorePlan>;

export const AGE_MAX = 10_000;
const age = z.number().int().nonnegative().max(AGE_MAX);
/** Of how many hours, days and months the newest backup each is kept. */
export const keptAges = z.strictObject({ hours: age, days: age, months: age });
export type KeptAges = z.infer<typeof keptAges>;

/** `plain`: comma and point, for machines. The others are what spreadsheets of some language open rightly. */
export const RESULTS_FORMS = ['xlsx', ...CSV_FORM_NAMES] as const;
export type ResultsForm = (typeof RESULTS_FORMS)[number];
/** Pulls evaluated for one table; each takes from a millisecond to seconds. */
export const RESULTS_PULLS_MAX = 20_000;

const year = z.number().int();
/** Years of one archive; more than any laboratory keeps in one file. */
export const SPLIT_PARTS_MAX = 1_000;

/** What a split by year would make; `certificatesLeft` rest on pulls of several years and stay in the original only. */
export const splitPlan = atFirstUse(() =>
  z.strictObject({
    parts: z
      .array(
        z.strictObject({
          year,
          name: z.string(),
          pulls: count,
          certificates: count,
          /** About: its share of the pages that the archive uses. */
          bytes: count,
        }),
      )
      .max(SPLIT_PARTS_MAX),
    /** Records that are not ended yet and stay in the original only. */
    open: count,
    certificatesLeft: count,
    archiveBytes: count,
    /** From this size on it is told that a file can be split. */
    largeBytes: count,
    /** That the folder's disk must have free while it is done: the parts, and a copy of the archive that they are made from. */
    neededBytes: count,
  }),
);
export type SplitPlanTold = z.infer<typeof splitPlan>;

export const writtenParts = atFirstUse(() =>
  z.strictObject({
    folderName: z.string(),
    parts: z
      .array(z.strictObject({ year, name: z.string(), pulls: count, certificates: count, bytes: count }))
      .max(SPLIT_PARTS_MAX),
    open: count,
    certificatesLeft: count,
  }),
);
export type WrittenParts = z.infer<typeof writtenParts>;

export const resultsColumns = atFirstUse(() => z.array(askedColumn).min(1).max(ASKED_COLUMNS_MAX));

const tableCell = atFirstUse(() =>
  z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('blank') }),
    z.strictObject({ kind: z.literal('text'), text: z.string() }),
    z.strictObject({ kind: z.literal('number'), value: z.number(), text: z.string().optional() }),
    z.strictObject({ kind: z.literal('moment'), wallMs, utcOffsetMinutes: utcOffsetMinutes.nullable() }),
  ]),
);

/** What can be asked of an archive beside the own one: questions, never anything that is kept. */
export const READ_ELSEWHERE = [
  'pull.get',
  'pull.readings',
  'pull.outline',
  'pull.evaluate',
  'pull.specimen',
  'evaluation.history',
  'evaluation.known',
  'archive.found',
  'archive.lines',
  'archive.judge-sets',
  'set.get',
  'set.judge',
] as const;
export type ReadElsewhere = (typeof READ_ELSEWHERE)[number];

export const exchangeRequests = {
  /** How a file would be read, with what is settled already; nothing is kept. */
  'archive.preview-import': {
    request: z.strictObject({ file: filePath, choices: importChoices.default({}) }),
    reply: z.strictObject({ proposal: importProposal, byteCount: count }),
  },
  /** How the file of an imported pull would be read otherwise; `plan` is the one by which it was imported. Nothing is kept. */
  'pull.preview-plan': {
    request: z.strictObject({ pullId: rowId, choices: importChoices.default({}) }),
    reply: z.strictObject({ proposal: importProposal, byteCount: count, plan: importPlan }),
  },
  /** A file of delimited text as a pull. Its bytes are kept; what is not beyond doubt is refused with the question. */
  'archive.import': {
    request: atFirstUse(() =>
      z.strictObject({
        file: filePath,
        /** One that is kept, by its number, or one that is kept with the pull or not at all. */
        specimen: z.union([rowId, specimenFile]),
        choices: importChoices.optional(),
        operator: z.string().trim().min(1).max(NAME_LENGTH_MAX).optional(),
        /** The day on which it was made, as whoever imports it states it; the record keeps the moment of the import. */
        pulledOn: statedDay.optional(),
      }),
    ),
    reply: atFirstUse(() =>
      z.strictObject({
        pullId: rowId,
        rows: count,
        misfits: count,
        notes: z.array(sentence),
        sha256: z.string(),
      }),
    ),
  },
  /** Stops the long work that is under way, if any: an import keeps nothing, a merge what it has taken whole. */
  'archive.stop': { request: z.strictObject({}), reply: z.strictObject({}) },
  /** A row a pull of everything found, to a new file; nothing is written over. */
  'archive.export-results': {
    request: atFirstUse(() =>
      z.strictObject({
        query: searchQuery,
        order: searchOrder,
        to: filePath,
        form: z.enum(RESULTS_FORMS),
        /** In this order; left out: the usual ones (USUAL_COLUMNS). */
        columns: resultsColumns.optional(),
      }),
    ),
    /** `blank`: titles of columns that were asked for by name and in which nothing stands. */
    reply: z.strictObject({ path: filePath, rows: count, blank: z.array(z.string()) }),
  },
  /** The same for paper, as data: the window's own process prints it. */
  'archive.results-table': {
    request: atFirstUse(() =>
      z.strictObject({ query: searchQuery, order: searchOrder, columns: resultsColumns.optional() }),
    ),
    reply: atFirstUse(() =>
      z.strictObject({
        titles: z.array(z.string()),
        rows: z.array(z.array(tableCell)),
        blank: z.array(z.string()),
        marked: z.array(markedRowsForm).max(ROW_MARKS.length),
        archive: z.string(),
      }),
    ),
  },
  /** What a restore would change; nothing is changed. */
  'archive.plan-restore': { request: z.strictObject({ backup: filePath }), reply: restorePlan },
  /** The backup in the place of the archive, which is kept beside it under another name. */
  'archive.restore': {
    request: z.strictObject({ backup: filePath, confirmed: z.literal(true) }),
    reply: z.strictObject({ setAsideTo: filePath.nullable() }),
  },
  /** A dated backup into a folder, checked whole; only then older ones of this archive are thinned by age. */
  'archive.backup-into': {
    request: z.strictObject({ folder: filePath, ages: keptAges }),
    reply: z.strictObject({ path: filePath, bytes: count, dropped: z.array(filePath) }),
  },
  /** What a split by year would make of the archive; nothing is written. */
  'archive.plan-split': { request: z.strictObject({}), reply: splitPlan },
  /**
   * A checked archive for each year into a folder, made from a copy of the archive as it is at the beginning, which itself is
   * only read. Stopped, or where one part is not what it should be, no file is left. It waits while a pull is recorded.
   */
  'archive.split': { request: z.strictObject({ folder: filePath }), reply: writtenParts },
  /**
   * The first hits in another archive, which is opened for reading and closed again. Of a search, or an order, by verdict a few of its
   * sets are judged with each answer, in memory, until none is left (`setsNotJudged`): to be asked again for the others
   * soon, while the archive is still open. `setsUnjudged` can't be judged as they are.
   */
  'archive.search-elsewhere': {
    request: atFirstUse(() =>
      z.strictObject({
        file: filePath,
        query: searchQuery,
        order: searchOrder.default(NEWEST_FIRST),
        limit: z.number().int().min(1).max(HITS_PER_PAGE_MAX).default(HITS_PER_PAGE),
      }),
    ),
    reply: atFirstUse(() =>
      z.strictObject({
        total: count,
        items: z.array(foundPull),
        index: indexProgress.nullable(),
        setsNotJudged,
        setsUnjudged: count,
        isHalfCopy: z.boolean(),
      }),
    ),
  },
  /**
   * A question about another archive, asked as its own program would be: `payload` and `value` are those of the request
   * `name`, and are checked as such. The archive is opened for reading and let go soon after the last question.
   */
  'archive.read-elsewhere': {
    request: atFirstUse(() =>
      z.strictObject({ file: filePath, name: z.enum(READ_ELSEWHERE), payload: z.unknown() }),
    ),
    reply: z.strictObject({ value: z.unknown() }),
  },
  /** The pulls of another archive; without `write` it is only told what would happen. */
  'archive.merge': {
    request: z.strictObject({ from: filePath, write: z.boolean() }),
    reply: atFirstUse(() =>
      z.strictObject({
        archiveIdentity: z.string(),
        taken: count,
        /** Here already, of which something said there since was added. */
        addedTo: count,
        hereAlready: count,
        conflicts: count,
        /** Issued there, and staying there: how many, and the numbers of the newest. */
        certificatesThere: z.strictObject({
          count,
          numbers: z.array(z.string()).max(CERTIFICATES_TOLD_MAX),
        }),
        /** It was stopped: pulls that are not told of were not looked at. */
        stopped: z.boolean(),
        lines: z.array(mergeLine).max(MERGE_LINES_MAX),
      }),
    ),
  },
} as const;
