/** What the sheet of the camera and the window's own process say to one another. It is a page of its own, beside the program's. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { TEXT_LENGTH_MAX } from '../limits.ts';
import { column } from './message.ts';

/** How the sheet is to look: as the page that asked for it. */
export const cameraLooks = z.strictObject({
  language: z.enum(['en', 'es']),
  theme: z.enum(['chalk', 'soot', 'contrast']),
});
export type CameraLooks = z.infer<typeof cameraLooks>;

/** Why there is no picture: no camera there · the system or the person refused · it gives nothing · anything else. */
export const CAMERA_FAILURES = ['none', 'refused', 'busy', 'other'] as const;
export type CameraFailure = (typeof CAMERA_FAILURES)[number];

export const cameraMessage = atFirstUse(() =>
  z.discriminatedUnion('what', [
    /** The camera's picture is on the sheet. */
    z.strictObject({ what: z.literal('shown') }),
    /** A JPEG file; looked at by content before it is kept. */
    z.strictObject({ what: z.literal('taken'), bytes: column('Uint8Array') }),
    z.strictObject({ what: z.literal('closed') }),
    z.strictObject({
      what: z.literal('failed'),
      why: z.enum(CAMERA_FAILURES),
      /** What the browser engine said. */
      detail: z.string().max(TEXT_LENGTH_MAX),
    }),
  ]),
);
export type CameraMessage = z.infer<typeof cameraMessage>;

/** What the sheet finds as `window.gaugemarkCamera`: the whole of what it can reach. */
export interface CameraBridge {
  readonly say: (message: CameraMessage) => void;
}
