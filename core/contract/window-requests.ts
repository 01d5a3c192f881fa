/** Requests that the window's own process answers: dialogs, looks, the link to the recorder. */
import { z } from 'zod';
import { PAPERS } from '../certificate/paper/paper-style.ts';
import { JSON_FILE_BYTES_MAX, NAME_LENGTH_MAX } from '../limits.ts';
import { fault, nothing, rowId } from './message.ts';
import { keptPhoto, photoSaid } from './photo-requests.ts';

export const THEMES = ['system', 'light', 'dark'] as const;
export const theme = z.enum(THEMES);
export type Theme = z.infer<typeof theme>;

/**
 * `connecting` the recorder is being started or looked for (again) · `connected` · `failed` it has died too often and
 * is left alone until a person asks (`recorder.try-again`). A pull that was open is kept in any of them.
 */
export const recorderLink = z.strictObject({
  state: z.enum(['connecting', 'connected', 'failed']),
  /** What happened and what is safe; null while all is well. */
  fault: fault.nullable(),
  /** How often the recorder was started again since this program was started. */
  restartCount: z.number().int().nonnegative(),
});
export type RecorderLink = z.infer<typeof recorderLink>;

export const appearance = z.strictObject({ theme, dark: z.boolean() });
export type Appearance = z.infer<typeof appearance>;

/** What files the dialogs are for; each has its own filter and ending. */
export const FILE_KINDS = [
  'archive',
  'curve',
  'specimen',
  'profile',
  'scenario',
  'certificate',
  'certificate-csv',
  'certificate-json',
] as const;
export const fileKind = z.enum(FILE_KINDS);
export type FileKind = z.infer<typeof fileKind>;

export const CERTIFICATE_FORMS = ['pdf', 'csv', 'json'] as const;
export type CertificateForm = (typeof CERTIFICATE_FORMS)[number];

/** A curve of 10⁶ readings as text is some 50 MB; it is opened by path, in the recorder. Text to the page is small. */
const openedText = z.string().max(JSON_FILE_BYTES_MAX);

export const windowRequests = {
  'window.info': {
    request: nothing,
    reply: z.strictObject({
      programVersion: z.string(),
      archivePath: z.string(),
      /** True when the graphics card is not used. */
      softwareDrawing: z.boolean(),
      appearance,
      recorder: recorderLink,
    }),
  },
  'window.set-theme': { request: z.strictObject({ theme }), reply: appearance },
  /** After `failed`: start the recorder again, with a fresh count. */
  'recorder.try-again': { request: nothing, reply: nothing },
  /** Asks for an archive file, new or kept, and goes over to it. Refused while a pull is recorded. */
  'window.change-archive': {
    request: z.strictObject({ how: z.enum(['open', 'new']) }),
    reply: z.strictObject({ path: z.string().nullable() }),
  },
  /**
   * Asks where to save. Only a path that was answered here is taken as `to` of an export or a backup.
   * Null where the person thought better of it.
   */
  'window.choose-save-path': {
    request: z.strictObject({ kind: fileKind, suggestedName: z.string().min(1).max(NAME_LENGTH_MAX) }),
    reply: z.strictObject({ path: z.string().nullable() }),
  },
  /**
   * Asks where, then issues the certificate of a set or of one specimen of it and writes it there; the dialog asks
   * before a file is replaced. Null where the person thought better of it; nothing is issued then.
   */
  'window.write-certificate': {
    request: z.strictObject({
      setId: rowId,
      setMemberId: rowId.optional(),
      form: z.enum(CERTIFICATE_FORMS),
      paper: z.enum(PAPERS),
      suggestedName: z.string().min(1).max(NAME_LENGTH_MAX),
    }),
    reply: z.strictObject({
      written: z.strictObject({ number: z.string(), again: z.boolean(), path: z.string() }).nullable(),
    }),
  },
  /** Asks for a photo and keeps it with the pull; null where the person thought better of it. */
  'window.add-photo': {
    request: z.strictObject(photoSaid),
    reply: z.strictObject({ photo: keptPhoto.nullable() }),
  },
  /** Asks for a file and gives its text; null where the person thought better of it. */
  'window.open-text': {
    request: z.strictObject({ kind: fileKind }),
    reply: z.strictObject({
      file: z.strictObject({ path: z.string(), name: z.string(), text: openedText }).nullable(),
    }),
  },
} as const;

/** Menu commands are told to the page, which knows what they mean where it stands. */
export const MENU_COMMANDS = [
  'new-specimen',
  'open-archive-list',
  'instruments',
  'export-pull',
  'check-archive',
  'back-up-archive',
  'show-shortcuts',
  'show-cautions',
  'self-check',
  'about',
] as const;
export const menuCommand = z.enum(MENU_COMMANDS);
export type MenuCommand = z.infer<typeof menuCommand>;

export const windowEvents = {
  /** On every change of the link to the recorder. After `connected`, ask for `session.get`. */
  'recorder-link': recorderLink,
  appearance,
  'menu-command': z.strictObject({ command: menuCommand }),
  /** Another archive is used from now on: ask for everything again. */
  'archive-changed': z.strictObject({ path: z.string() }),
} as const;
