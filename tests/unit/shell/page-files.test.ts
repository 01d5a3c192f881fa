import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { isPageAddress } from '../../../electron/main/page-address.ts';
import { type PageFile, servePageFiles } from '../../../electron/main/page-files.ts';

const scratch = mkdtempSync(join(tmpdir(), 'gaugemark-page-'));
const folder = join(scratch, 'renderer');
mkdirSync(folder);
writeFileSync(join(folder, 'index.html'), '<!doctype html>');
writeFileSync(join(folder, 'camera.html'), '<!doctype html>');
writeFileSync(join(folder, 'main.js'), '1');
writeFileSync(join(scratch, 'secret.txt'), 'secret');
afterAll(() => rmSync(scratch, { recursive: true }));

const serve = servePageFiles(folder, { soon: ['index.html', 'is-not-there.css'] });
const get = (url: string): Promise<PageFile> => serve({ url, method: 'GET' });

describe('files of the page', () => {
  it('come with their type and the content policy', async () => {
    const answer = await get('gaugemark://page/index.html');
    expect(answer.status).toBe(200);
    expect(answer.headers['Content-Type']).toContain('text/html');
    const policy = answer.headers['Content-Security-Policy'] ?? '';
    expect(policy).toContain("default-src 'none'");
    expect(policy).not.toMatch(/unsafe|\*|https?:/);
  });

  it('hold one style of their own, named by its hash in the policy of the document, and the ground that is coming', async () => {
    const style = 'html { background: black }';
    writeFileSync(join(folder, 'index.html'), `<html data-ground="light"><style>${style}</style></html>`);
    const document = await servePageFiles(folder, { ground: () => 'contrast' })({
      url: 'gaugemark://page/index.html',
      method: 'GET',
    });
    expect(document.bytes.toString()).toContain('<html data-ground="contrast">');
    const hash = createHash('sha256').update(style).digest('base64');
    expect(document.headers['Content-Security-Policy']).toContain(`style-src 'self' 'sha256-${hash}';`);
    const script = await get('gaugemark://page/main.js');
    expect(script.headers['Content-Security-Policy']).not.toContain('sha256');
  });

  it('turn the camera off in the page itself, but for its own sheet, and the microphone in both', async () => {
    const features = async (file: string): Promise<string> =>
      (await get(`gaugemark://page/${file}`)).headers['Permissions-Policy'] ?? '';
    expect(await features('index.html')).toMatch(/camera=\(\).*microphone=\(\)/);
    expect(await features('camera.html')).toMatch(/camera=\(self\).*microphone=\(\)/);
  });

  it.each([
    'gaugemark://page/../secret.txt',
    'gaugemark://page/..%2fsecret.txt',
    'gaugemark://page/%2e%2e/secret.txt',
    'gaugemark://page//etc/passwd',
    'gaugemark://page/',
    'gaugemark://elsewhere/index.html',
    'gaugemark://page@elsewhere/index.html',
    'file:///etc/passwd',
    'not an address',
  ])('nothing else is served: %s', async (url) => {
    expect((await get(url)).status).toBe(404);
  });

  it('are only read', async () => {
    expect((await serve({ url: 'gaugemark://page/index.html', method: 'POST' })).status).toBe(404);
  });
});

describe('the address of the page', () => {
  it('is told by its parts, not by how it begins', () => {
    expect(isPageAddress('gaugemark://page/index.html')).toBe(true);
    expect(isPageAddress('gaugemark://page.example.org/index.html')).toBe(false);
    expect(isPageAddress('https://gaugemark/page')).toBe(false);
    expect(isPageAddress('')).toBe(false);
  });
});
