/** The camera itself: found, opened without sound, let go of, and one picture of it as a JPEG file. */
import type { CameraFailure } from '../../core/contract/camera-messages.ts';

/** A fracture wants its detail; a camera that has less gives what it has. */
const WANTED_PX = { width: { ideal: 3840 }, height: { ideal: 2160 } } as const;
/** Hardly to be told from the picture itself, and a tenth of its size (common practice, no source). */
const JPEG_QUALITY = 0.92;

/** @param deviceId null for the one that the system takes first */
export function openCamera(deviceId: string | null): Promise<MediaStream> {
  return navigator.mediaDevices.getUserMedia({
    audio: false,
    video: { ...WANTED_PX, ...(deviceId === null ? {} : { deviceId: { exact: deviceId } }) },
  });
}

export function letGo(stream: MediaStream | null): void {
  for (const track of stream?.getTracks() ?? []) track.stop();
}

export async function camerasThere(): Promise<readonly MediaDeviceInfo[]> {
  return (await navigator.mediaDevices.enumerateDevices()).filter(({ kind }) => kind === 'videoinput');
}

/** Names of W3C "Media Capture and Streams", getUserMedia(). */
const WHY: Readonly<Record<string, CameraFailure>> = {
  NotFoundError: 'none',
  OverconstrainedError: 'none',
  NotAllowedError: 'refused',
  SecurityError: 'refused',
  NotReadableError: 'busy',
  AbortError: 'busy',
};

export function whyNot(error: unknown): { why: CameraFailure; detail: string } {
  const name = error instanceof Error ? error.name : '';
  const detail = (error instanceof Error ? `${name}: ${error.message}` : String(error)).slice(0, 300);
  return { why: WHY[name] ?? 'other', detail };
}

/** Draws what the video shows now, with all its points. */
export function drawPicture(video: HTMLVideoElement, onto: HTMLCanvasElement): void {
  onto.width = video.videoWidth;
  onto.height = video.videoHeight;
  onto.getContext('2d')?.drawImage(video, 0, 0);
}

/** Null where the picture can't be made into a file. */
export async function jpegOf(drawn: HTMLCanvasElement): Promise<Uint8Array | null> {
  const file = await new Promise<Blob | null>((take) => drawn.toBlob(take, 'image/jpeg', JPEG_QUALITY));
  return file === null ? null : new Uint8Array(await file.arrayBuffer());
}
