/** Serves the page's built files, and nothing else, under the page's own scheme. */
import { readdirSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { extname, join } from 'node:path';
import { CAMERA_ADDRESS, isPageAddress } from './page-address.ts';

/**
 * Scripts, styles and fonts from the program's own files only; no connections, frames, forms or plug-ins; nothing may
 * be turned from text into markup.
 */
const CONTENT_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "font-src 'self'",
  "img-src 'self' data: blob:",
  "connect-src 'none'",
  "frame-src 'none'",
  "frame-ancestors 'none'",
  "base-uri 'none'",
  "form-action 'none'",
  "require-trusted-types-for 'script'",
  "trusted-types 'none'",
].join('; ');

/** What no page of ours uses is off in the page itself too, whatever else would grant it; the camera's sheet has its picture. */
const OFF = ['microphone', 'geolocation', 'display-capture', 'usb', 'serial', 'hid', 'midi'].map(
  (name) => `${name}=()`,
);
const FEATURES = ['camera=()', ...OFF].join(', ');
const FEATURES_OF_CAMERA = ['camera=(self)', ...OFF].join(', ');

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.map': 'application/json; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
};

const CAMERA_PAGE = new URL(CAMERA_ADDRESS).pathname.slice(1);

export interface PageFile {
  readonly status: 200 | 404;
  readonly headers: Readonly<Record<string, string>>;
  readonly bytes: Buffer;
}

const NOT_HERE: PageFile = {
  status: 404,
  headers: { 'Content-Type': 'text/plain; charset=utf-8' },
  bytes: Buffer.from('Not here.'),
};

/** What the window's page asks for at its start. */
export const ASKED_FIRST: readonly string[] = ['index.html', 'first.css', 'main.css', 'main.js'];

/**
 * Answers one request of the page. The files are listed once, so no path from outside reaches the disk.
 * @param soon is read at once, while the program still gets ready, and held until it is asked for
 */
export function servePageFiles(
  folder: string,
  soon: readonly string[] = [],
): (request: { url: string; method: string }) => Promise<PageFile> {
  const names = new Set(
    readdirSync(folder, { withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => entry.name),
  );
  const early = new Map(
    soon
      .filter((name) => names.has(name))
      .map((name) => [
        name,
        // What could not be read is read again when it is asked for, and told then.
        readFile(join(folder, name)).catch(() => null),
      ]),
  );
  const bytesOf = async (name: string): Promise<Buffer> => {
    const first = (await early.get(name)) ?? null;
    early.delete(name);
    return first ?? readFile(join(folder, name));
  };
  return async ({ url, method }) => {
    const name = isPageAddress(url) ? new URL(url).pathname.slice(1) : '';
    if (method !== 'GET' || !names.has(name)) return NOT_HERE;
    return {
      status: 200,
      headers: {
        'Content-Type': TYPES[extname(name)] ?? 'application/octet-stream',
        'Content-Security-Policy': CONTENT_POLICY,
        'Permissions-Policy': name === CAMERA_PAGE ? FEATURES_OF_CAMERA : FEATURES,
        'X-Content-Type-Options': 'nosniff',
        'Cross-Origin-Opener-Policy': 'same-origin',
        'Cross-Origin-Resource-Policy': 'same-origin',
        'Cache-Control': 'no-store',
      },
      bytes: await bytesOf(name),
    };
  };
}
