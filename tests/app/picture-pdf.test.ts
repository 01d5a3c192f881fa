/** Curves as PDF from the command line, read back by a general-purpose reader (Poppler): pages, size, text, fonts, vectors. */
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { PAPER_MM } from '../../core/certificate/paper/paper-style.ts';
import { pagesOfPdf } from '../../electron/print/pages-of-pdf.ts';
import { ran } from '../unit/command-line/in-process.ts';
import { scratch } from './recorder-process.ts';
import { fill, smallDisk } from './support/small-disk.ts';

const read = (tool: string, ...args: string[]): string => execFileSync(tool, args, { encoding: 'utf8' });
const POINTS_PER_MM = 72 / 25.4;
/** The printing counts in whole device units. */
const SHEET_POINTS_OFF = 1;

/** A record of our own: a straight line to 400 MPa on 100 mm², then it draws out and breaks. */
function record(slackMm: number): string {
  const rows = Array.from({ length: 220 }, (_, i) => {
    const force = i < 100 ? i * 400 : i < 200 ? 40_000 + (i - 100) * 20 : 40;
    const extension = slackMm + (i < 100 ? i * 0.001 : 0.1 + (i - 100) * 0.05);
    return [i / 10, force, extension].join(',');
  });
  return ['time_s,force_N,extension_mm', ...rows, ''].join('\n');
}

async function archiveOf(names: readonly string[]): Promise<string> {
  const folder = scratch();
  const archive = join(folder, 'a.gaugemark');
  for (const [i, id] of names.entries()) {
    writeFileSync(join(folder, `${String(i)}.csv`), record(i * 0.01));
    writeFileSync(
      join(folder, `${String(i)}.specimen.json`),
      JSON.stringify({
        ...{ id, geometry: { kind: 'flat', width: '20 mm', thickness: '5 mm' } },
        gaugeLength: '50 mm',
      }),
    );
    const kept = await ran('archive', 'import', join(folder, `${String(i)}.csv`), '--archive', archive);
    expect(kept.code, kept.err).toBe(0);
  }
  return archive;
}

function facts(pdf: string): { pages: number; widthMm: number; heightMm: number } {
  const info = read('pdfinfo', pdf);
  const [, width, height] = /Page size:\s+([\d.]+) x ([\d.]+)/.exec(info) ?? [];
  return {
    pages: Number(/Pages:\s+(\d+)/.exec(info)?.[1]),
    widthMm: Number(width) / POINTS_PER_MM,
    heightMm: Number(height) / POINTS_PER_MM,
  };
}

it('one curve and several over each other are one page each, as lines with their letters embedded', async () => {
  const archive = await archiveOf(['W-17 <b>"cap"', 'W-18']);
  const folder = join(archive, '..');
  const at = (name: string): string => join(folder, name);
  const one = await ran('archive', 'export', '1', '--archive', archive, '--out', at('one.pdf'));
  expect(one.code, one.err).toBe(0);
  expect(one.out).toContain('1 curve drawn to');
  const both = await ran(
    ...(['archive', 'overlay', '1', '2', '--archive', archive, '--pdf', at('both.pdf')] as const),
    ...(['--paper', 'Letter', '--axes', 'stress-strain', '--json'] as const),
  );
  // Nothing is set up any more, so nothing is told of it.
  expect([both.code, both.err]).toEqual([0, '']);
  expect(JSON.parse(both.out)).toMatchObject({
    path: at('both.pdf'),
    bytes: readFileSync(at('both.pdf')).length,
  });
  for (const [name, paper] of [
    ['one.pdf', 'A4'],
    ['both.pdf', 'Letter'],
  ] as const) {
    const { pages, widthMm, heightMm } = facts(at(name));
    expect(pages).toBe(1);
    expect(pagesOfPdf(readFileSync(at(name)))).toBe(1);
    expect(Math.abs(widthMm - PAPER_MM[paper].height)).toBeLessThan(SHEET_POINTS_OFF / POINTS_PER_MM);
    expect(Math.abs(heightMm - PAPER_MM[paper].width)).toBeLessThan(SHEET_POINTS_OFF / POINTS_PER_MM);
    // No picture of points in it, and every font within.
    expect(read('pdfimages', '-list', at(name)).split('\n').slice(2).join('')).toBe('');
    const fonts = read('pdffonts', at(name)).split('\n').slice(2).filter(Boolean);
    expect(fonts.join()).toContain('AtkinsonHyperlegible');
    for (const line of fonts) expect(line).toMatch(/ yes (yes|no) +(yes|no) /);
  }
  expect(read('pdftotext', '-layout', at('one.pdf'), '-')).toContain('W-17 <b>"cap"');
  // 41 980 N on 100 mm².
  const text = read('pdftotext', '-layout', at('both.pdf'), '-');
  for (const word of ['W-17', 'W-18', 'MPa']) expect(text).toContain(word);
  expect(readdirSync(folder).filter((name) => name.includes('.part-'))).toEqual([]);

  const twice = await ran('archive', 'export', '1', '--archive', archive, '--pdf', at('one.pdf'));
  expect([twice.code, twice.err]).toEqual([2, expect.stringContaining('give another name to --pdf')]);
  for (const flags of [
    ['--pdf', at('x.svg')],
    ['--svg', at('x.pdf')],
    ['--svg', at('x.svg'), '--pdf', at('x.pdf')],
    ['--out', at('x.png')],
  ]) {
    const wrong = await ran('archive', 'export', '1', '--archive', archive, ...flags);
    expect(wrong.code, flags.join(' ')).toBe(2);
  }
  expect(existsSync(at('x.svg')) || existsSync(at('x.pdf'))).toBe(false);
});

it('the results of a search are a table on as many pages as it says, with its head on each', async () => {
  const archive = await archiveOf(['W-17 <b>"cap"', 'W-18']);
  const to = join(archive, '..', 'found.pdf');
  const asked = ['archive', 'search', '--archive', archive, '--pdf', to];
  const done = await ran(...asked, '--json');
  expect(done.code, done.err).toBe(0);
  expect(JSON.parse(done.out)).toEqual({ path: to, rows: 2, pages: 1, blank: [] });
  const { pages, widthMm, heightMm } = facts(to);
  expect(pages).toBe(1);
  expect(widthMm).toBeGreaterThan(heightMm);
  const text = read('pdftotext', '-layout', to, '-');
  // 41 980 N on 100 mm² are 419.8 MPa, to 1 MPa by ISO 6892-1.
  for (const word of ['W-17 <b>"cap"', 'W-18', 'every pull', '420', 'page 1 of 1', 'IMPORTED readings: pull'])
    expect(text).toContain(word);
  const twice = await ran(...asked);
  expect([twice.code, twice.err]).toEqual([2, expect.stringContaining('give another name to --pdf')]);
});

it('on a full disk it is said, and there is no part of it', async (context) => {
  const disk = smallDisk(scratch());
  if ('skip' in disk) return context.skip(disk.skip);
  const archive = await archiveOf(['W-17']);
  fill(disk.path);
  const to = join(disk.path, 'c.pdf');
  const full = await ran('archive', 'export', '1', '--archive', archive, '--pdf', to);
  expect([full.code, full.err]).toEqual([
    1,
    expect.stringMatching(/is full, so the picture was not written/),
  ]);
  expect(readdirSync(disk.path)).toEqual(['filler']);
});
