/** The certificate as a PDF, read back by a general-purpose reader (Poppler): text, pages, size, fonts, vectors. */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { crc32, deflateSync } from 'node:zlib';
import { expect, it } from 'vitest';
import { composeCertificate } from '../../core/certificate/compose-certificate.ts';
import { certificatePage } from '../../core/certificate/paper/certificate-page.ts';
import { headAndFoot } from '../../core/certificate/paper/head-and-foot.ts';
import { PAPERS, PAPER_MM, sheetOf } from '../../core/certificate/paper/paper-style.ts';
import { paperFonts } from '../../electron/command-line/paper-fonts.ts';
import { printPdf } from '../../electron/command-line/print-pdf.ts';
import { exampleInput } from '../unit/certificate/example-input.ts';
import { scratch } from './recorder-process.ts';

const read = (tool: string, ...args: string[]): string => execFileSync(tool, args, { encoding: 'utf8' });
const POINTS_PER_MM = 72 / 25.4;
/** The printing counts in whole device units; a page a third of a millimetre off is the same sheet. */
const SHEET_POINTS_OFF = 1;

it.each(PAPERS)(
  'is printed on %s: number and page x of y on each page, fonts embedded, curve as vectors up to where it was broken (P13)',
  async (paper) => {
    const out = join(scratch(), 'certificate.pdf');
    const content = composeCertificate(exampleInput());
    await printPdf({
      html: certificatePage(content, { paper, fonts: paperFonts() }),
      sheet: sheetOf(paper),
      what: 'certificate',
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
    curveEndsWhereItWasBroken(out, pages);
    // No picture in it: what is drawn is drawn as lines.
    expect(read('pdfimages', '-list', out).split('\n').slice(2).join('')).toBe('');
  },
);

/** The curve read back as its corner points, of the example's closed form (tests/unit/certificate/example-input.ts). */
function curveEndsWhereItWasBroken(out: string, pages: number): void {
  const drawings = Array.from({ length: pages }, (_, page) =>
    read('pdftocairo', '-svg', '-f', String(page + 1), '-l', String(page + 1), out, '-'),
  );
  // Letters are curved; the longest path of straight strokes is the curve.
  const [longest = ''] = drawings
    .flatMap((svg) => [...svg.matchAll(/<path[^>]* d="(M [^"CZ]+)"/g)].map(([, path = '']) => path))
    .sort((a, b) => b.length - a.length);
  const points = longest
    .split(/[ML]/)
    .map((point) => point.trim().split(/\s+/).map(Number))
    .filter((point) => point.length === 2);
  const [first, last] = [points[0], points.at(-1)];
  const highest = Math.min(...points.map(([, y = 0]) => y));
  const furthest = Math.max(...points.map(([x = 0]) => x));
  const heightOf = ([, y = 0]: number[] = []): number => (first?.[1] ?? 0) - y;
  // 400 MPa + 200 MPa (1 − ((8 % − 5 %) / 4.8 %)²) at the break, of 600 MPa at the maximum.
  const atBreak = (400 + 200 * (1 - (3 / 4.8) ** 2)) / 600;
  expect(heightOf(last) / heightOf([0, highest])).toBeCloseTo(atBreak, 3);
  expect(last?.[0]).toBe(furthest);
}

/** A picture of three colours, uncompressed but for what the form asks for. */
function png(width: number, height: number): Uint8Array {
  const chunk = (name: string, data: Uint8Array): Buffer => {
    const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
    const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
    length.writeUInt32BE(data.length);
    check.writeUInt32BE(crc32(body));
    return Buffer.concat([length, body, check]);
  };
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  // Eight bits, red green blue.
  head.set([8, 2, 0, 0, 0], 8);
  const row = Buffer.alloc(1 + 3 * width);
  for (let x = 0; x < width; x++) row.set([(x * 255) / width, 128, 255 - (x * 255) / width], 1 + 3 * x);
  return Buffer.concat([
    Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]),
    chunk('IHDR', head),
    chunk('IDAT', deflateSync(Buffer.concat(Array.from({ length: height }, () => row)))),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

it('a large photo stands on paper with the points that paper shows, a small one as it is, both by their hash', async () => {
  const out = join(scratch(), 'certificate.pdf');
  const input = exampleInput();
  const photos = [png(4_000, 2_500), png(300, 200)].map((bytes, index) => ({
    photoId: index + 1,
    sha256: createHash('sha256').update(bytes).digest('hex'),
    mediaType: 'image/png',
    caption: `photo ${String(index + 1)}`,
    bytes,
  }));
  const [first, ...others] = input.specimens;
  if (first === undefined) throw new Error('the example has no specimen');
  const content = composeCertificate({
    ...input,
    specimens: [
      {
        ...first,
        photos: photos.map(({ photoId, sha256, mediaType, caption }) => ({
          photoId,
          sha256,
          mediaType,
          caption,
        })),
      },
      ...others,
    ],
  });
  await printPdf({
    html: certificatePage(content, {
      paper: 'A4',
      fonts: paperFonts(),
      photos: new Map(
        photos.map(({ sha256, mediaType, bytes }) => [
          sha256,
          { mediaType, base64: Buffer.from(bytes).toString('base64') },
        ]),
      ),
    }),
    sheet: sheetOf('A4'),
    what: 'certificate',
    ...headAndFoot(content),
    out,
    say: () => undefined,
  });
  const sizes = read('pdfimages', '-list', out)
    .split('\n')
    .slice(2)
    .filter((line) => / image /.test(line))
    .map((line) => line.trim().split(/\s+/).slice(3, 5).map(Number));
  expect(sizes).toEqual([
    [1_600, 1_000],
    [300, 200],
  ]);
  const text = read('pdftotext', '-layout', out, '-').replace(/\s+/g, '');
  for (const { sha256 } of photos) expect(text).toContain(sha256);
});

it('names of 300 characters, with markup or turned writing, are text on paper and leave no page wider (P13)', async () => {
  const out = join(scratch(), 'certificate.pdf');
  const name = `<b>W</b>\u202e${'Zwolle '.repeat(40)}end`;
  const input = exampleInput({
    laboratory: { name, lines: [name] },
    signatures: [{ printedName: name, at: '2031-04-02', meaning: 'tested by' }],
  });
  const content = composeCertificate(input);
  await printPdf({
    html: certificatePage(content, { paper: 'A4', fonts: paperFonts() }),
    sheet: sheetOf('A4'),
    what: 'certificate',
    ...headAndFoot(content),
    out,
    say: () => undefined,
  });
  const words = read('pdftotext', '-bbox', out, '-');
  const sheet = PAPER_MM.A4.width * POINTS_PER_MM;
  const ends = [...words.matchAll(/<word xMin="([\d.-]+)"[^>]* xMax="([\d.]+)"/g)];
  expect(ends.length).toBeGreaterThan(100);
  for (const [, from, to] of ends) {
    expect(Number(from)).toBeGreaterThanOrEqual(0);
    expect(Number(to)).toBeLessThanOrEqual(sheet);
  }
  // Three times whole, markup and all, in whichever direction it is written.
  const text = read('pdftotext', '-layout', out, '-');
  expect(text.match(/Zwolle|ellowZ/g)?.length).toBe(3 * 40);
});

it('never writes over a file that is there', async () => {
  const out = join(scratch(), 'certificate.pdf');
  execFileSync('touch', [out]);
  await expect(
    printPdf({
      html: '<p>new</p>',
      sheet: sheetOf('A4'),
      what: 'certificate',
      head: '<p></p>',
      foot: '<p></p>',
      out,
      say: () => undefined,
    }),
  ).rejects.toThrow(/not written over/);
  expect(existsSync(out)).toBe(true);
  expect(readFileSync(out).length).toBe(0);
});
