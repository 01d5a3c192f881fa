/** Requests that the window's own process answers: dialogs, looks, the link to the recorder. */
import { z } from 'zod';
import { rulePackFile } from '../acceptance/rule-pack.ts';
import { atFirstUse } from '../at-first-use.ts';
import { PAPERS } from '../certificate/paper/paper-style.ts';
import { JSON_FILE_BYTES_MAX, NAME_LENGTH_MAX } from '../limits.ts';
import { cameraLooks } from './camera-messages.ts';
import { certified, paperLanguage } from './certificate-requests.ts';
import { resultsColumns } from './exchange-requests.ts';
import { fileRequests } from './file-requests.ts';
import { LANGUAGES, PAGE_SIZES, THEMES } from './looks.ts';
import { fault, nothing, rowId } from './message.ts';
import { keptPhoto, photoSaid } from './photo-requests.ts';
import { pictureRequests } from './picture-requests.ts';
import { readoutProfile } from './readout-profile.ts';
import { searchOrder, searchQuery } from './search-requests.ts';

export const theme = z.enum(THEMES);

/** Ten thousand lines of a table, each far longer than usual. */
const COPIED_TEXT_MAX = 8_000_000;

export const spokenLanguage = z.enum(LANGUAGES);

/**
 * `connecting` the recorder is being started or looked for (again) · `connected` · `failed` it has died too often and
 * is left alone until a person asks (`recorder.try-again`). A pull that was open is kept in any of them.
 */
export const recorderLink = atFirstUse(() =>
  z.strictObject({
    state: z.enum(['connecting', 'connected', 'failed']),
    /** What happened and what is safe; null while all is well. */
    fault: fault.nullable(),
    /** How often the recorder was started again since this program was started. */
    restartCount: z.number().int().nonnegative(),
  }),
);
export type RecorderLink = z.infer<typeof recorderLink>;

export const appearance = z.strictObject({ theme, dark: z.boolean() });
export type Appearance = z.infer<typeof appearance>;

/** What files the dialogs are for; each has its own filter and ending. */
export const FILE_KINDS = [
  'archive',
  'curve',
  'pull-json',
  'pull-json-ld',
  'specimen',
  'profile',
  'rules',
  'scenario',
  'certificate',
  'certificate-csv',
  'certificate-json',
  'picture-svg',
  'picture-png',
  'picture-pdf',
  'results-pdf',
] as const;
export const fileKind = z.enum(FILE_KINDS);
export type FileKind = z.infer<typeof fileKind>;

export const WRITING_STEPS = ['issuing', 'photos', 'shrinking', 'printing', 'saving'] as const;

export const CERTIFICATE_FORMS = ['pdf', 'csv', 'json'] as const;
export type CertificateForm = (typeof CERTIFICATE_FORMS)[number];

const sheetName = z.string().min(1).max(NAME_LENGTH_MAX);

/** A curve of 10⁶ readings as text is some 50 MB; it is opened by path, in the recorder. Text to the page is small. */
const openedText = z.string().max(JSON_FILE_BYTES_MAX);

/** The menus that the page fills; those of the window itself (editing, size, leaving) stand in the same ones. */
export const MENU_NAMES = ['file', 'edit', 'set', 'pull', 'search', 'go', 'view', 'help'] as const;
export type MenuName = (typeof MENU_NAMES)[number];

/** Twice as many as there are. */
const MENU_ENTRIES_MAX = 200;
const TYPED_FORMS_MAX = 30;

/** What can be done on the page, under the name that the page has for it. */
const thingId = z
  .string()
  .regex(/^[A-Za-z][A-Za-z-]*$/)
  .max(60);

/** One thing that can be done, as the page says it; pressed, it is told to the page by its `id`. */
export const menuEntry = z.strictObject({
  id: thingId,
  menu: z.enum(MENU_NAMES),
  /** A line stands before it. */
  begins: z.boolean(),
  label: z.string().min(1).max(NAME_LENGTH_MAX),
  /** As `aria-keyshortcuts` has them ("Control+Shift+P"); the page listens to them itself. Null where there are none. */
  keys: z
    .string()
    .regex(/^(?:(?:Control|Alt|Shift)\+)*[A-Z][A-Za-z]*\d{0,2}$|^(?:(?:Control|Alt|Shift)\+)+\d$/)
    .max(40)
    .nullable(),
  /** The page takes the keys wherever it stands, not in one place only. */
  everywhere: z.boolean(),
  enabled: z.boolean(),
  /** One of several that exclude each other: whether it is chosen. Null where it is no choice. */
  chosen: z.boolean().nullable(),
});
export type MenuEntry = z.infer<typeof menuEntry>;

export const menuRequests = {
  /** What the menu offers from now on: told when the page begins, and whenever anything of it changes. */
  'window.set-menu': {
    request: atFirstUse(() => z.strictObject({ entries: z.array(menuEntry).max(MENU_ENTRIES_MAX) })),
    reply: nothing,
  },
} as const;

export const windowRequests = {
  ...fileRequests,
  ...pictureRequests,
  ...menuRequests,
  'window.info': {
    request: nothing,
    reply: atFirstUse(() =>
      z.strictObject({
        programVersion: z.string(),
        archivePath: z.string(),
        /** True when the graphics card is not used. */
        softwareDrawing: z.boolean(),
        appearance,
        recorder: recorderLink,
        /** True while the archive is the tour's. */
        tour: z.boolean(),
      }),
    ),
  },
  /**
   * Goes over to a fresh archive in which only the simulated frame can be pulled, or back to the one of before. Beginning
   * is refused while a pull is recorded; leaving ends the tour's record.
   */
  'window.tour': { request: z.strictObject({ on: z.boolean() }), reply: nothing },
  'window.set-theme': { request: z.strictObject({ theme }), reply: appearance },
  /** The language of menu and dialogs: as the page's. */
  'window.set-language': { request: z.strictObject({ language: spokenLanguage }), reply: nothing },
  /** Puts lines on the clipboard, where they have to be read from the archive first. */
  'window.copy-text': {
    request: atFirstUse(() => z.strictObject({ text: z.string().max(COPIED_TEXT_MAX) })),
    reply: nothing,
  },
  /** After `failed`: start the recorder again, with a fresh count. */
  'recorder.try-again': { request: nothing, reply: nothing },
  /** Asks for an archive file, new or kept, and goes over to it. Refused while a pull is recorded. */
  'window.change-archive': {
    request: z.strictObject({ how: z.enum(['open', 'new']) }),
    reply: atFirstUse(() => z.strictObject({ path: z.string().nullable() })),
  },
  /** The window over the whole screen, or as it was; whether it was so before. */
  'window.set-full-screen': {
    request: z.strictObject({ on: z.boolean() }),
    reply: z.strictObject({ before: z.boolean() }),
  },
  /** The page larger or smaller by a step, as large as it is made, or over the whole screen and back. */
  'window.set-size': { request: z.strictObject({ size: z.enum(PAGE_SIZES) }), reply: nothing },
  /** Asks for the folder of own rule packs, or goes back to the usual one; kept in the settings. */
  'window.choose-rules-folder': {
    request: z.strictObject({ which: z.enum(['ask', 'usual']) }),
    reply: z.strictObject({ changed: z.boolean() }),
  },
  /**
   * Asks where to save. Only a path that was answered here is taken as `to` of an export or a backup.
   * Null where the person thought better of it.
   */
  'window.choose-save-path': {
    request: atFirstUse(() =>
      z.strictObject({ kind: fileKind, suggestedName: z.string().min(1).max(NAME_LENGTH_MAX) }),
    ),
    reply: atFirstUse(() => z.strictObject({ path: z.string().nullable() })),
  },
  /**
   * Asks where, then issues the certificate and writes it there; the dialog asks
   * before a file is replaced. Null where the person thought better of it; nothing is issued then.
   */
  'window.write-certificate': {
    request: atFirstUse(() =>
      z.strictObject({
        about: certified,
        form: z.enum(CERTIFICATE_FORMS),
        paper: z.enum(PAPERS),
        /** Where it was chosen for this certificate; an issued one keeps its own otherwise, a first one has `beginIn`. */
        language: paperLanguage.optional(),
        beginIn: paperLanguage,
        suggestedName: z.string().min(1).max(NAME_LENGTH_MAX),
      }),
    ),
    reply: atFirstUse(() =>
      z.strictObject({
        written: z.strictObject({ number: z.string(), again: z.boolean(), path: z.string() }).nullable(),
      }),
    ),
  },
  /**
   * Asks where, then has the results of a search worked out and prints them there; the dialog asks before a file is
   * replaced. Null where the person thought better of it.
   */
  'window.write-results': {
    request: atFirstUse(() =>
      z.strictObject({
        query: searchQuery,
        order: searchOrder,
        columns: resultsColumns.optional(),
        paper: z.enum(PAPERS),
        language: paperLanguage,
      }),
    ),
    reply: atFirstUse(() =>
      z.strictObject({
        written: z
          .strictObject({
            path: z.string(),
            rows: z.number().int(),
            pages: z.number().int(),
            blank: z.array(z.string()),
          })
          .nullable(),
      }),
    ),
  },
  /** Says that the page begins or ends work of many short requests: closing the window asks about it as about one long one. */
  'window.at-work': { request: atFirstUse(() => z.strictObject({ at: z.boolean() })), reply: nothing },
  /** Forms in which something is typed that is not kept, as they are called: closing the window asks while there are any. */
  'window.typed-not-kept': {
    request: atFirstUse(() =>
      z.strictObject({ forms: z.array(z.string().min(1).max(NAME_LENGTH_MAX)).max(TYPED_FORMS_MAX) }),
    ),
    reply: nothing,
  },
  /** Stops a certificate or a table that is being written; nothing happens where none is. */
  'window.stop-writing': { request: nothing, reply: nothing },
  /** Writes the certificate of a verification kept as a calibration, as PDF; null where the person thought better of it. */
  'window.write-verification': {
    request: atFirstUse(() =>
      z.strictObject({
        instrumentId: rowId,
        calibrationId: rowId,
        paper: z.enum(PAPERS),
        language: paperLanguage,
        suggestedName: z.string().min(1).max(NAME_LENGTH_MAX),
      }),
    ),
    reply: atFirstUse(() => z.strictObject({ path: z.string().nullable() })),
  },
  /** Asks for a photo and keeps it with the pull; null where the person thought better of it. */
  'window.add-photo': {
    request: z.strictObject(photoSaid),
    reply: z.strictObject({ photo: keptPhoto.nullable() }),
  },
  /**
   * Opens the camera on a sheet of its own and keeps the picture that was taken with the pull; null where the person
   * thought better of it. The page itself is given neither the camera nor its picture.
   */
  'window.take-photo': {
    request: z.strictObject({ ...photoSaid, looks: cameraLooks }),
    reply: z.strictObject({ photo: keptPhoto.nullable() }),
  },
  /**
   * Asks where, then writes a readout profile or a rule pack as a file that people can hand on or change; the dialog
   * asks before a file is replaced. Null where the person thought better of it.
   */
  'window.save-sheet': {
    request: atFirstUse(() =>
      z.discriminatedUnion('kind', [
        z.strictObject({ kind: z.literal('profile'), suggestedName: sheetName, profile: readoutProfile }),
        z.strictObject({ kind: z.literal('rules'), suggestedName: sheetName, pack: rulePackFile }),
      ]),
    ),
    reply: atFirstUse(() => z.strictObject({ path: z.string().nullable() })),
  },
  /** Asks for a file and gives its text; null where the person thought better of it. */
  'window.open-text': {
    request: z.strictObject({ kind: fileKind }),
    reply: atFirstUse(() =>
      z.strictObject({
        file: z.strictObject({ path: z.string(), name: z.string(), text: openedText }).nullable(),
      }),
    ),
  },
} as const;

export const windowEvents = {
  /** On every change of the link to the recorder. After `connected`, ask for `session.get`. */
  'recorder-link': recorderLink,
  appearance,
  /**
   * How far a certificate or table is that is being written; `done` of `of` where there is something to count: photos
   * that are taken in, then made as large as paper shows them, and, once they are printed, pages. The engine prints all of
   * them in one go and does not say how far it is.
   */
  writing: z.strictObject({
    step: z.enum(WRITING_STEPS),
    done: z.number().int().nonnegative(),
    of: z.number().int().nonnegative(),
  }),
  /** Somebody has pressed it in the menu. */
  'menu-command': z.strictObject({ command: thingId }),
  /** Another archive is used from now on: ask for everything again. */
  'archive-changed': z.strictObject({ path: z.string(), tour: z.boolean() }),
} as const;
