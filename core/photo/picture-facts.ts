/**
 * What a file of a photograph says of itself, looked at byte by byte: by its content, never by its name. Only the frame
 * of the file is read, no picture is decoded. JPEG: ITU-T T.81, Annex B (markers and segments); PNG: W3C PNG
 * specification, "Datastream structure".
 */
import { PHOTO_BYTES_MAX, PHOTO_PIXELS_MAX } from '../limits.ts';

export const PHOTO_TYPES = ['image/jpeg', 'image/png'] as const;
export type PhotoType = (typeof PHOTO_TYPES)[number];

export interface PictureFacts {
  readonly mediaType: PhotoType;
  readonly widthPx: number;
  readonly heightPx: number;
}

export type PictureOutcome =
  | { readonly ok: true; readonly facts: PictureFacts }
  | {
      readonly ok: false;
      readonly code: 'not-a-photo' | 'photo-too-large' | 'photo-damaged';
      readonly sentence: string;
    };

/** Shape of `bytes`: a whole file. Never throws. */
export function pictureFacts(bytes: Uint8Array): PictureOutcome {
  if (bytes.length > PHOTO_BYTES_MAX) return tooManyBytes(bytes.length);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const read = startsWith(bytes, JPEG_BEGINS)
    ? jpeg(view)
    : startsWith(bytes, PNG_BEGINS)
      ? png(view)
      : 'unknown';
  if (read === 'unknown')
    return refused(
      'not-a-photo',
      'It is no photo: its content is neither JPEG nor PNG, whatever its name says. Choose the picture as the camera wrote it, or save it as JPEG.',
    );
  if (read === 'damaged')
    return refused(
      'photo-damaged',
      'The photo is damaged or cut off: it does not go on to its end. Copy it from the camera once more.',
    );
  const { widthPx, heightPx } = read;
  if (widthPx * heightPx > PHOTO_PIXELS_MAX)
    return refused(
      'photo-too-large',
      `The photo has ${String(widthPx)} × ${String(heightPx)} pixels; at most ${String(PHOTO_PIXELS_MAX / 1e6)} million are kept. Save it smaller.`,
    );
  return { ok: true, facts: read };
}

/** Said before such a file is read, too. */
export function tooManyBytes(byteCount: number): PictureOutcome & { readonly ok: false } {
  return refused(
    'photo-too-large',
    `The file has ${String(byteCount)} bytes; a photo of at most ${String(PHOTO_BYTES_MAX)} bytes is kept. Save it smaller, or choose another file.`,
  );
}

const refused = (code: 'not-a-photo' | 'photo-too-large' | 'photo-damaged', sentence: string) =>
  ({ ok: false, code, sentence: `${sentence} Nothing was kept.` }) as const;

type Read = PictureFacts | 'damaged' | 'unknown';

const JPEG_BEGINS = [0xff, 0xd8, 0xff];
const PNG_BEGINS = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

const startsWith = (bytes: Uint8Array, begin: readonly number[]): boolean =>
  begin.every((byte, place) => bytes[place] === byte);

const MARKER = 0xff;
const START_OF_SCAN = 0xda;
const END_OF_IMAGE = 0xd9;
/** Markers C0 to CF begin a frame, but for three that hold tables. */
const isFrame = (code: number): boolean =>
  code >= 0xc0 && code <= 0xcf && code !== 0xc4 && code !== 0xc8 && code !== 0xcc;

/** Segment by segment up to the first scan; then an end must come, with whatever a camera puts behind it. */
function jpeg(view: DataView): Read {
  let at = 2;
  let size: { widthPx: number; heightPx: number } | null = null;
  while (at + 4 <= view.byteLength) {
    if (view.getUint8(at) !== MARKER) return 'damaged';
    const code = view.getUint8(at + 1);
    if (code === MARKER) {
      at += 1;
      continue;
    }
    const length = view.getUint16(at + 2);
    if (length < 2 || at + 2 + length > view.byteLength) return 'damaged';
    if (isFrame(code) && length >= 8)
      size = { heightPx: view.getUint16(at + 5), widthPx: view.getUint16(at + 7) };
    if (code === START_OF_SCAN)
      return size === null || size.widthPx === 0 || size.heightPx === 0 || !endsAfter(view, at + 2 + length)
        ? 'damaged'
        : { mediaType: 'image/jpeg', ...size };
    at += 2 + length;
  }
  return 'damaged';
}

function endsAfter(view: DataView, from: number): boolean {
  for (let at = from; at + 1 < view.byteLength; at++)
    if (view.getUint8(at) === MARKER && view.getUint8(at + 1) === END_OF_IMAGE) return true;
  return false;
}

const CHUNK_FRAME_BYTES = 12;
const HEADER = 0x49484452;
const HEADER_BYTES = 13;
const END = 0x49454e44;
const DATA = 0x49444154;

/** Chunk by chunk: the header first, data, and the end. */
function png(view: DataView): Read {
  let at = PNG_BEGINS.length;
  let size: { widthPx: number; heightPx: number } | null = null;
  let hasData = false;
  while (at + CHUNK_FRAME_BYTES <= view.byteLength) {
    const length = view.getUint32(at);
    const kind = view.getUint32(at + 4);
    if (length > view.byteLength - at - CHUNK_FRAME_BYTES) return 'damaged';
    if (size === null) {
      if (kind !== HEADER || length !== HEADER_BYTES) return 'damaged';
      size = { widthPx: view.getUint32(at + 8), heightPx: view.getUint32(at + 12) };
      if (size.widthPx === 0 || size.heightPx === 0) return 'damaged';
    }
    if (kind === DATA) hasData = true;
    if (kind === END) return hasData ? { mediaType: 'image/png', ...size } : 'damaged';
    at += CHUNK_FRAME_BYTES + length;
  }
  return 'damaged';
}
