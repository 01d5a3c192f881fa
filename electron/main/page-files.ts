/** Serves the page's built files, and nothing else, under the page's own scheme. */
import { readdirSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { extname, join } from 'node:path';
import { isPageAddress } from './page-address.ts';

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

/** Answers one request of the page. The files are listed once, so no path from outside reaches the disk. */
export function servePageFiles(
  folder: string,
): (request: { url: string; method: string }) => Promise<Response> {
  const names = new Set(
    readdirSync(folder, { withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => entry.name),
  );
  return async ({ url, method }) => {
    const name = isPageAddress(url) ? new URL(url).pathname.slice(1) : '';
    if (method !== 'GET' || !names.has(name)) return new Response('Not here.', { status: 404 });
    return new Response(await readFile(join(folder, name)), {
      headers: {
        'Content-Type': TYPES[extname(name)] ?? 'application/octet-stream',
        'Content-Security-Policy': CONTENT_POLICY,
        'X-Content-Type-Options': 'nosniff',
        'Cross-Origin-Opener-Policy': 'same-origin',
        'Cross-Origin-Resource-Policy': 'same-origin',
        'Cache-Control': 'no-store',
      },
    });
  };
}
