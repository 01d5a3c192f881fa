/**
 * Pictures of a page made no larger than paper shows, before it is printed: a telephone's photo has twenty times the
 * points, and a PDF would carry them all. Done in a hidden sandboxed window, where a broken picture breaks nothing.
 */
import { BrowserWindow } from 'electron';
import { readFile, writeFile } from 'node:fs/promises';

/** The longer edge in points: the width of the text, 172 mm, at some 235 points to the inch. */
export const PICTURE_EDGE_MAX = 1_600;
const JPEG_QUALITY = 0.85;

/** As the certificate's page embeds its photos. */
const PICTURE = /data:image\/(?:jpeg|png|webp);base64,[A-Za-z0-9+/=]+/g;

export interface ShrinkWatch {
  /** Told before each picture: which of how many. */
  readonly onPicture?: (at: number, of: number) => void;
  /** Raised, the picture in hand is the last one; it rejects with the signal's reason. */
  readonly signal?: AbortSignal | undefined;
}

/** Rewrites the page with smaller pictures; one that can't be read stays as it is. What the archive keeps is not touched. */
export async function shrinkPictures(page: string, { onPicture, signal }: ShrinkWatch = {}): Promise<void> {
  const html = await readFile(page, 'utf8');
  const pictures = [...new Set(html.match(PICTURE) ?? [])];
  if (pictures.length === 0) return;
  const window = new BrowserWindow({
    show: false,
    webPreferences: {
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      partition: `shrink-${String(Date.now())}`,
    },
  });
  try {
    await window.loadURL('about:blank');
    const smaller = new Map<string, string>();
    for (const [index, picture] of pictures.entries()) {
      signal?.throwIfAborted();
      onPicture?.(index + 1, pictures.length);
      const made: unknown = await window.webContents.executeJavaScript(
        `(${SHRINK})(${JSON.stringify(picture)}, ${String(PICTURE_EDGE_MAX)}, ${String(JPEG_QUALITY)})`,
      );
      if (typeof made === 'string') smaller.set(picture, made);
    }
    if (smaller.size === 0) return;
    await writeFile(
      page,
      html.replace(PICTURE, (picture) => smaller.get(picture) ?? picture),
    );
  } finally {
    window.destroy();
  }
}

/** Runs in the hidden window. As the camera turned it, on white; null where it is small enough or can't be read. */
const SHRINK = `async (picture, edgeMax, quality) => {
  try {
    const bitmap = await createImageBitmap(await (await fetch(picture)).blob());
    const scale = edgeMax / Math.max(bitmap.width, bitmap.height);
    if (scale >= 1) return null;
    const canvas = document.createElement('canvas');
    canvas.width = Math.max(1, Math.round(bitmap.width * scale));
    canvas.height = Math.max(1, Math.round(bitmap.height * scale));
    const pen = canvas.getContext('2d');
    pen.fillStyle = '#fff';
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.imageSmoothingQuality = 'high';
    pen.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
    bitmap.close();
    return canvas.toDataURL('image/jpeg', quality);
  } catch {
    return null;
  }
}`;
