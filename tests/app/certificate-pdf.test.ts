/** The certificate as a PDF, read back by a general-purpose reader (Poppler): text, pages, size, fonts, vectors. */
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { composeCertificate } from '../../core/certificate/compose-certificate.ts';
import { certificatePage } from '../../core/certificate/paper/certificate-page.ts';
import { headAndFoot } from '../../core/certificate/paper/head-and-foot.ts';
import { PAPERS, PAPER_MM } from '../../core/certificate/paper/paper-style.ts';
import { paperFonts } from '../../electron/command-line/paper-fonts.ts';
import { printPdf } from '../../electron/command-line/print-pdf.ts';
import { exampleInput } from '../unit/certificate/example-input.ts';
import { scratch } from './recorder-process.ts';

const read = (tool: string, ...args: string[]): string => execFileSync(tool, args, { encoding: 'utf8' });
const POINTS_PER_MM = 72 / 25.4;
/** The printing counts in whole device units; a page a third of a millimetre off is the same sheet. */
const SHEET_POINTS_OFF = 1;

it.each(PAPERS)(
  'is printed on %s: number and page x of y on each page, fonts embedded, curve as vectors',
  async (paper) => {
    const out = join(scratch(), 'certificate.pdf');
    const content = composeCertificate(exampleInput());
    await printPdf({
      html: certificatePage(content, { paper, fonts: paperFonts() }),
      paper,
      ...headAndFoot(content),
      out,
      say: () => undefined,
    });

    const info = read('pdfinfo', out);
    const pages = Number(/Pages:\s+(\d+)/.exec(info)?.[1]);
    expect(pages).toBeGreaterThanOrEqual(2);
    const [, width, height] = /Page size:\s+([\d.]+) x ([\d.]+)/.exec(info) ?? [];
    expect(Math.abs(Number(width) - PAPER_MM[paper].width * POINTS_PER_MM)).toBeLessThan(SHEET_POINTS_OFF);
    expect(Math.abs(Number(height) - PAPER_MM[paper].height * POINTS_PER_MM)).toBeLessThan(SHEET_POINTS_OFF);
    for (let page = 1; page <= pages; page++) {
      const text = read('pdftotext', '-layout', '-f', String(page), '-l', String(page), out, '-');
      expect(text).toContain('C-2031-007');
      expect(text).toContain(`page ${String(page)} of ${String(pages)}`);
    }
    const text = read('pdftotext', '-layout', out, '-');
    expect(text).toContain('End of certificate C-2031-007');
    expect(text).toContain('=PQR 41 <b>');
    expect(text).toMatch(/maximum 60\s?000 N/);

    const fonts = read('pdffonts', out)
      .split('\n')
      .slice(2)
      .filter((line) => line !== '');
    expect(fonts.length).toBeGreaterThan(0);
    for (const line of fonts) expect(line).toMatch(/ yes (yes|no) +(yes|no) /);
    // No picture in it: what is drawn is drawn as lines.
    expect(read('pdfimages', '-list', out).split('\n').slice(2).join('')).toBe('');
  },
);

it('never writes over a file that is there', async () => {
  const out = join(scratch(), 'certificate.pdf');
  execFileSync('touch', [out]);
  await expect(
    printPdf({
      html: '<p>new</p>',
      paper: 'A4',
      head: '<p></p>',
      foot: '<p></p>',
      out,
      say: () => undefined,
    }),
  ).rejects.toThrow(/not written over/);
  expect(existsSync(out)).toBe(true);
  expect(readFileSync(out).length).toBe(0);
});
