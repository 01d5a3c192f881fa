/** The page that a picture's PDF is printed from. How it comes out on paper is looked at in tests/app/picture-pdf.test.ts. */
import { describe, expect, it } from 'vitest';
import { PAPERS, PAPER_MM } from '../../../core/certificate/paper/paper-style.ts';
import { picturePage } from '../../../core/certificate/paper/picture-page.ts';
import type { Drawing } from '../../../core/drawing/drawing.ts';
import { svgText } from '../../../core/drawing/svg-text.ts';
import { pagesOfPdf, requirePdf } from '../../../electron/print/pages-of-pdf.ts';

const FONT = { weight: 400, base64: 'Zm9udA==' } as const;
const drawing = (over: Partial<Drawing> = {}): Drawing => ({
  widthMm: 260,
  heightMm: 165,
  title: 'a "curve" <b>',
  description: 'of W-17 & W-18',
  shapes: [{ kind: 'line', x1: 0, y1: 0, x2: 9, y2: 9, stroke: { colour: '#15191c', widthMm: 0.2 } }],
  ...over,
});
const imageOf = (html: string): string =>
  Buffer.from(/src="data:image\/svg\+xml;base64,([^"]+)"/.exec(html)?.[1] ?? '', 'base64').toString('utf8');

describe('the page of a picture', () => {
  it.each(PAPERS)('is %s turned across, the picture in its middle', (paper) => {
    const { sheet } = picturePage(svgText(drawing()), { paper, fonts: [FONT] });
    expect([sheet.widthMm, sheet.heightMm]).toEqual([PAPER_MM[paper].height, PAPER_MM[paper].width]);
    const { top, right, bottom, left } = sheet.marginMm;
    expect(left).toBe(right);
    expect(sheet.widthMm - left - right).toBeCloseTo(260, 9);
    // A little more than the picture, so that rounding makes no second page.
    expect(sheet.heightMm - top - bottom).toBeGreaterThan(165);
    expect(Math.min(top, right, bottom, left)).toBeGreaterThan(5);
  });

  it('is as high as a picture with many names under it', () => {
    const { sheet } = picturePage(svgText(drawing({ heightMm: 240 })), { paper: 'A4', fonts: [] });
    expect(sheet.heightMm).toBe(258);
    expect(sheet.widthMm).toBe(297);
  });

  it('holds the very drawing, with its letters, and nothing that was typed as markup', () => {
    const svg = svgText(drawing());
    const { html } = picturePage(svg, { paper: 'A4', fonts: [FONT] });
    const image = imageOf(html);
    expect(image).toContain("font-family: 'Atkinson Hyperlegible'");
    expect(image.replace(/<style>.*?<\/style>/s, '')).toBe(svg);
    expect(html).toContain("default-src 'none'");
    expect(html).not.toContain('<b>');
  });

  it.each([
    ['', 'nothing'],
    ['<svg xmlns="http://www.w3.org/2000/svg"></svg>', 'a drawing without a size'],
    ['<svg width="9999mm" height="10mm"></svg>', 'a drawing of ten metres'],
    ['<svg width="0mm" height="10mm"></svg>', 'a drawing without width'],
  ])('refuses %j, %s', (svg) => {
    expect(() => picturePage(svg, { paper: 'A4', fonts: [] })).toThrow(RangeError);
  });
});

describe('a printed PDF', () => {
  // Written by hand after ISO 32000-1, 7.5: header, two page objects in their tree, trailer.
  const page = '<</Type /Page\n/Parent 1 0 R>>';
  const text = `%PDF-1.4\n2 0 obj\n${page}\nendobj\n3 0 obj\n${page}\nendobj\n1 0 obj\n<</Type /Pages\n/Count 2>>\nendobj\ntrailer\nstartxref\n9\n%%EOF\n`;
  const pdf = Buffer.from(text, 'latin1');

  it('is counted by its pages', () => {
    expect(pagesOfPdf(pdf)).toBe(2);
    expect(() => requirePdf(pdf, 2)).not.toThrow();
    expect(() => requirePdf(pdf, 1)).toThrow(/2 pages instead of 1/);
  });

  it('is none where it was cut off, is another file, or has no page', () => {
    for (const bad of [
      pdf.subarray(0, pdf.length - 8),
      Buffer.from('<html></html>%%EOF'),
      Buffer.from('%PDF-1.4\n%%EOF\n'),
      Buffer.alloc(0),
    ])
      expect(() => requirePdf(bad)).toThrow(/no whole PDF/);
  });
});
