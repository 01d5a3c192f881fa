/** Why the camera gave no photo, in a sentence each. */
import type { CameraFailure } from '../contract/camera-messages.ts';
import type { Fault } from '../contract/message.ts';
import { CAMERA_OPEN_MS_MAX } from '../limits.ts';

/** `open`: it is open already; `late`: it was left open for too long. */
export type CameraFaultKind = CameraFailure | 'open' | 'late';

const SENTENCES: Readonly<Record<CameraFaultKind, string>> = {
  none: 'No camera is connected. Connect one, or add a photo from a file.',
  refused:
    'The system lets this program use no camera. Allow it in the settings of the system, or add a photo from a file.',
  busy: 'The camera gives no picture; another program may be using it. Close that, or add a photo from a file.',
  other: 'The camera gave no picture. Try again, or add a photo from a file.',
  open: 'The camera is open already, on its sheet over the window.',
  late: `The camera was let go of after ${String(CAMERA_OPEN_MS_MAX / 60_000)} minutes. Open it again.`,
};

export const cameraFault = (kind: CameraFaultKind): Fault => ({
  code: `camera-${kind}`,
  sentence: `${SENTENCES[kind]} Nothing was kept.`,
});
