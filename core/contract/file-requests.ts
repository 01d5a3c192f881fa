/** Files and folders that a person chooses for taking pulls elsewhere and bringing them in. The page sees no path. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX, OTHER_ARCHIVES_MAX } from '../limits.ts';
import { nothing, wallMs } from './message.ts';

/** What a file is chosen for; tables of results are written, and files of years into the folder `years`. */
export const CHOSEN_FOR = [
  'curve',
  'bytes',
  'archive',
  'backup',
  'years',
  'results-xlsx',
  'results-csv',
] as const;
export type ChosenFor = (typeof CHOSEN_FOR)[number];

/** The page names a chosen file by a sign; the window's own process puts its path in the place of it. */
export const chosenFile = z.strictObject({
  sign: z.string().regex(/^chosen:\d{1,9}$/),
  name: z.string(),
});
export type ChosenFile = z.infer<typeof chosenFile>;

export const fileRequests = {
  /** Null where the person thought better of it. */
  'window.choose-file': {
    request: atFirstUse(() =>
      z.strictObject({
        what: z.enum(CHOSEN_FOR),
        suggestedName: z.string().min(1).max(NAME_LENGTH_MAX).optional(),
      }),
    ),
    reply: z.strictObject({ file: chosenFile.nullable() }),
  },
  /** Archives that are looked through beside the open one: of other years, of other machines. */
  'window.other-archives': {
    request: atFirstUse(() =>
      z.strictObject({
        /** Asks for one more, or takes one off the list; neither changes any file. */
        add: z.boolean().optional(),
        forget: chosenFile.shape.sign.optional(),
      }),
    ),
    reply: atFirstUse(() => z.strictObject({ files: z.array(chosenFile).max(OTHER_ARCHIVES_MAX) })),
  },
  /** Goes over to one of them. Refused while a pull is recorded. */
  'window.open-other-archive': {
    request: z.strictObject({ sign: chosenFile.shape.sign }),
    reply: atFirstUse(() => z.strictObject({ isOpen: z.boolean() })),
  },
  /** Into the folder of the last time, or one that is asked for; older ones there are kept by age. */
  'window.back-up': {
    request: z.strictObject({ folder: z.enum(['same', 'ask']) }),
    reply: atFirstUse(() =>
      z.strictObject({
        written: z
          .strictObject({ name: z.string(), folderName: z.string(), dropped: z.number().int() })
          .nullable(),
      }),
    ),
  },
  /** When the last good backup of the open archive was made, as far as this window knows. */
  'window.backup-state': {
    request: nothing,
    reply: atFirstUse(() =>
      z.strictObject({
        folderName: z.string().nullable(),
        lastWallMs: wallMs.nullable(),
        /** So old, or never made, that somebody should be reminded. */
        isOld: z.boolean(),
      }),
    ),
  },
} as const;
