/** A photo taken in the window: shown and taken on a sheet of its own, looked at here, kept by the recorder as a file's. */
import { systemPreferences } from 'electron';
import type { PageReplyOf, PageRequestOf } from '../../../core/contract/bridge.ts';
import { contract } from '../../../core/contract/index.ts';
import type { Answer, Fault } from '../../../core/contract/message.ts';
import { cameraFault } from '../../../core/photo/camera-fault.ts';
import { pictureFacts } from '../../../core/photo/picture-facts.ts';
import type { PhotoMeans } from '../add-photo.ts';
import type { WindowLog } from '../window-log.ts';
import { type CameraOutcome, showCameraSheet } from './camera-sheet.ts';

export interface TakePhotoMeans extends PhotoMeans {
  readonly buildFolder: string;
  readonly log: WindowLog;
}

type Taken = Answer<PageReplyOf<'window.take-photo'>>;

let isOpen = false;

/** Null where the person thought better of it; nothing is kept then. One camera at a time. */
export async function takePhoto(
  { looks, ...said }: PageRequestOf<'window.take-photo'>,
  { window, ask, buildFolder, log }: TakePhotoMeans,
): Promise<Taken> {
  if (isOpen) return { ok: false, fault: cameraFault('open') };
  isOpen = true;
  try {
    if (!(await systemAgrees())) return { ok: false, fault: cameraFault('refused') };
    const outcome = await showCameraSheet({ over: window, buildFolder, looks, log });
    if (outcome.what === 'closed') return { ok: true, value: { photo: null } };
    if (outcome.what !== 'taken') {
      log.note(`camera: ${JSON.stringify(outcome)}`);
      return { ok: false, fault: faultOf(outcome) };
    }
    const { bytes } = outcome;
    const picture = pictureFacts(bytes);
    if (!picture.ok) return { ok: false, fault: { code: picture.code, sentence: picture.sentence } };
    const answer = await ask({ ...said, fileName: fileNameAt(new Date()), bytes });
    return answer.ok ? { ok: true, value: contract['photo.add'].reply.parse(answer.value) } : answer;
  } finally {
    isOpen = false;
  }
}

/** Only macOS asks for the program as a whole, beforehand. */
async function systemAgrees(): Promise<boolean> {
  return process.platform !== 'darwin' || systemPreferences.askForMediaAccess('camera');
}

/** No picture within its time is a camera that gives none. */
function faultOf(outcome: Exclude<CameraOutcome, { what: 'taken' | 'closed' }>): Fault {
  if (outcome.what === 'failed') return cameraFault(outcome.why);
  return cameraFault(outcome.shown ? 'late' : 'busy');
}

/** By the clock of the place: "camera-2026-03-09-141503.jpg". */
function fileNameAt(moment: Date): string {
  const two = (number: number): string => String(number).padStart(2, '0');
  const day = [moment.getFullYear(), two(moment.getMonth() + 1), two(moment.getDate())].join('-');
  const time = [moment.getHours(), moment.getMinutes(), moment.getSeconds()].map(two).join('');
  return `camera-${day}-${time}.jpg`;
}
