/** Requests about the archive as a whole, and about the program. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { CSV_FORM_NAMES } from '../exchange/export/csv-form.ts';
import { TEXT_LENGTH_MAX } from '../limits.ts';
import { fault, nothing, rowId, wallMs } from './message.ts';

const filePath = z.string().min(1).max(4096);

/** One finding of a check; `ok` says whether that part is sound. */
export const checkLine = z.strictObject({
  name: z.string(),
  ok: z.boolean(),
  words: z.string().max(TEXT_LENGTH_MAX),
});
export type CheckLine = z.infer<typeof checkLine>;

/** Forms of one pull: the CSV ones have the names that they have for a table of results. */
export const PULL_FORMS = [...CSV_FORM_NAMES, 'json', 'json-ld', 'original'] as const;
export type PullForm = (typeof PULL_FORMS)[number];

export const archiveRequests = {
  'program.info': {
    request: nothing,
    reply: atFirstUse(() =>
      z.strictObject({
        programVersion: z.string(),
        pid: z.number().int(),
        nodeVersion: z.string(),
        platform: z.string(),
        startedWallMs: wallMs,
        archivePath: filePath,
        archiveFault: fault.nullable(),
      }),
    ),
  },
  'archive.info': {
    request: nothing,
    reply: atFirstUse(() =>
      z.strictObject({
        path: filePath,
        schemaVersion: z.number().int(),
        sqliteVersion: z.string(),
        synchronous: z.literal('FULL'),
        fileBytes: z.number().nonnegative(),
        /** Of the database's log beside it, with the room that it has taken ahead. */
        logBytes: z.number().nonnegative(),
        freeBytes: z.number().nonnegative().nullable(),
        pullCount: z.number().int(),
        specimenCount: z.number().int(),
        readingCount: z.number().int(),
      }),
    ),
  },
  'archive.check': {
    request: z.strictObject({ pullId: rowId.optional() }),
    reply: atFirstUse(() => z.strictObject({ sound: z.boolean(), lines: z.array(checkLine) })),
  },
  'archive.backup': {
    request: z.strictObject({ to: filePath }),
    reply: z.strictObject({ path: filePath, bytes: z.number() }),
  },
  /**
   * One pull to a new file. Without `form` the end of the name says it. `json`: everything that is kept of it, by the
   * published schema; `json-ld`: linked data; `original`: the file that it was imported from, as it came, under any name;
   * the others CSV, quantity and unit in the header, values as shown beside
   * converted ones. A CSV for spreadsheets of more readings than one of them holds becomes several files beside each
   * other, each with all heads.
   */
  'archive.export': {
    request: z.strictObject({ pullId: rowId, to: filePath, form: z.enum(PULL_FORMS).optional() }),
    reply: atFirstUse(() =>
      z.strictObject({
        /** The file, the first where there are several. */
        path: filePath,
        readingCount: z.number().int(),
        /** Of all files together. */
        bytes: z.number(),
        /** All files in their order, where one was not enough; else none. */
        parts: z.array(filePath),
        /** What a reader of the file has to know: that it was split, or that a spreadsheet would cut it off. */
        remark: z.string().max(TEXT_LENGTH_MAX).nullable(),
      }),
    ),
  },
  /** Only when the archive is damaged, and only because a person asked: renames it with the date, starts a fresh one. */
  'archive.set-aside': {
    request: z.strictObject({ confirmed: z.literal(true) }),
    reply: z.strictObject({ setAsideTo: filePath, path: filePath }),
  },
  /** Tries to open the archive again (folder back, other program closed). */
  'archive.retry': { request: nothing, reply: nothing },
} as const;
