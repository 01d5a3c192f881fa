/** Pictures of curves and charts that the page has drawn, saved where a person says. Answered by the window's own process. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { PAPERS } from '../certificate/paper/paper-style.ts';
import { NAME_LENGTH_MAX } from '../limits.ts';
import { column } from './message.ts';

export const PICTURE_FORMS = ['svg', 'png', 'pdf'] as const;
export type PictureForm = (typeof PICTURE_FORMS)[number];

/** Sixty curves as SVG are some 5 MB, a full page as PNG at 300 dpi is less. */
export const PICTURE_BYTES_MAX = 60_000_000;

const bytes = column('Uint8Array').refine(
  ({ byteLength }) => byteLength > 0 && byteLength <= PICTURE_BYTES_MAX,
  `must have 1 to ${String(PICTURE_BYTES_MAX)} bytes`,
);

export const pictureRequests = {
  /**
   * Asks where, then writes the picture there, whole or not at all: for a PDF the bytes are those of the SVG, which is
   * printed. Null where the person thought better of it.
   */
  'window.save-picture': {
    request: atFirstUse(() =>
      z.strictObject({
        form: z.enum(PICTURE_FORMS),
        suggestedName: z.string().min(1).max(NAME_LENGTH_MAX),
        bytes,
        /** Of a PDF; A4 where it is not said. */
        paper: z.enum(PAPERS).optional(),
      }),
    ),
    reply: atFirstUse(() => z.strictObject({ path: z.string().nullable() })),
  },
} as const;
