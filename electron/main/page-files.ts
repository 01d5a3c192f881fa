/** Serves the page's built files, and nothing else, under the page's own scheme. */
import { createHash } from 'node:crypto';
import { readdirSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { extname, join } from 'node:path';
import type { Ground } from './frame-theme.ts';
import { CAMERA_ADDRESS, PAGE_ADDRESS, isPageAddress } from './page-address.ts';

/**
 * Scripts, styles and fonts from the program's own files only; no connections, frames, forms or plug-ins; nothing may
 * be turned from text into markup. `ownStyle`: what else is a style, of a document that holds one.
 */
const contentPolicy = (ownStyle: string): string =>
  [
    "default-src 'none'",
    "script-src 'self'",
    `style-src 'self'${ownStyle}`,
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

const CAMERA_PAGE = fileOf(CAMERA_ADDRESS);

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
export const ASKED_FIRST: readonly string[] = ['index.html', 'main.js'];

const CONTENT_POLICY = contentPolicy('');

/** The one style that stands in the document itself, by its hash: no other is taken for one. */
function policyOfDocument(document: Buffer): string {
  const [, style] = /<style>([^]*?)<\/style>/.exec(document.toString('utf8')) ?? [];
  if (style === undefined) return CONTENT_POLICY;
  return contentPolicy(` 'sha256-${createHash('sha256').update(style).digest('base64')}'`);
}

const DOCUMENT = fileOf(PAGE_ADDRESS);
/** Written in the document, for its first picture; what stands there is the place to write another. */
const GROUND_WRITTEN = 'data-ground="light"';

export interface PageFileRequest {
  readonly url: string;
  readonly method: string;
}

export interface PageFileOptions {
  /** Is read at once, while the program still gets ready, and held until it is asked for. */
  readonly soon?: readonly string[];
  /** On which the page is going to be drawn: its document has it from the first picture on. */
  readonly ground?: () => Ground;
}

/** Answers one request of the page. The files are listed once, so no path from outside reaches the disk. */
export function servePageFiles(
  folder: string,
  { soon = [], ground = () => 'light' }: PageFileOptions = {},
): (request: PageFileRequest) => Promise<PageFile> {
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
    const bytes = first ?? (await readFile(join(folder, name)));
    return name === DOCUMENT
      ? Buffer.from(bytes.toString('utf8').replace(GROUND_WRITTEN, `data-ground="${ground()}"`))
      : bytes;
  };
  return async ({ url, method }) => {
    const name = isPageAddress(url) ? fileOf(url) : '';
    if (method !== 'GET' || !names.has(name)) return NOT_HERE;
    const bytes = await bytesOf(name);
    return {
      status: 200,
      headers: {
        'Content-Type': TYPES[extname(name)] ?? 'application/octet-stream',
        'Content-Security-Policy': name === DOCUMENT ? policyOfDocument(bytes) : CONTENT_POLICY,
        'Permissions-Policy': name === CAMERA_PAGE ? FEATURES_OF_CAMERA : FEATURES,
        'X-Content-Type-Options': 'nosniff',
        'Cross-Origin-Opener-Policy': 'same-origin',
        'Cross-Origin-Resource-Policy': 'same-origin',
        'Cache-Control': 'no-store',
      },
      bytes,
    };
  };
}

function fileOf(address: string): string {
  return new URL(address).pathname.slice(1);
}
