/** A picture of curves as one page for printing: the very drawing that the SVG is, on a sheet turned across. */
import { PICTURE_FONT } from '../../drawing/svg-text.ts';
import { base64Text } from '../../exchange/export/base64.ts';
import { html, ready } from './markup.ts';
import { type EmbeddedFont, PAPER_MM, type Paper, type Sheet, fontFaces } from './paper-style.ts';

export interface PicturePage {
  readonly html: string;
  /** Nothing stands at head and foot. */
  readonly head: string;
  readonly foot: string;
  readonly sheet: Sheet;
}

export interface PicturePageOptions {
  readonly paper: Paper;
  readonly fonts: readonly EmbeddedFont[];
}

/** A sheet longer than this is no picture of ours. */
const SIDE_MM_MAX = 2_000;
const ROOT = /^<svg [^<>]*\bwidth="([\d.]{1,8})mm" height="([\d.]{1,8})mm"[^<>]*>/;
/** Free below the picture, so that the rounding of a printer's units makes no second page. */
const SLACK_MM = 1;
const EMPTY = '<span></span>';

/**
 * `svg`: as `svgText` makes it. A picture of many names is higher than the paper, and so is its sheet then. It is put in
 * as an image, in which nothing runs and nothing is loaded from elsewhere, whatever is written in it. Throws a RangeError
 * for what is no such drawing.
 */
export function picturePage(svg: string, { paper, fonts }: PicturePageOptions): PicturePage {
  const [root, width, height] = ROOT.exec(svg) ?? [];
  const [widthMm, heightMm] = [Number(width), Number(height)];
  if (
    root === undefined ||
    !(widthMm > 0 && widthMm <= SIDE_MM_MAX && heightMm > 0 && heightMm <= SIDE_MM_MAX)
  )
    throw new RangeError('that is no drawing with a size in millimetres');
  const style = `<style>${fontFaces(fonts, PICTURE_FONT)}</style>`;
  const whole = root + style + svg.slice(root.length);
  const said = (name: string): string => new RegExp(`<${name}>([^<"]*)</${name}>`).exec(svg)?.[1] ?? '';
  const source = `data:image/svg+xml;base64,${base64Text(new TextEncoder().encode(whole))}`;
  const size = `width: ${String(widthMm)}mm; height: ${String(heightMm)}mm;`;
  const page = html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta
          http-equiv="Content-Security-Policy"
          content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:"
        />
        <title>${ready(said('title'))}</title>
        <style>
          body { margin: 0; }
          img { display: block; ${ready(size)} }
        </style>
      </head>
      <body>
        <img src="${ready(source)}" alt="${ready(`${said('title')}. ${said('desc')}`)}" />
      </body>
    </html> `;
  return { html: page.html, head: EMPTY, foot: EMPTY, sheet: sheetAcross({ widthMm, heightMm }, paper) };
}

/** The paper turned across, made wider or higher where the picture needs it; the picture in its middle. */
function sheetAcross(
  { widthMm, heightMm }: { readonly widthMm: number; readonly heightMm: number },
  paper: Paper,
): Sheet {
  const { width: paperHeight, height: paperWidth } = PAPER_MM[paper];
  const side = Math.max(LEAST_MARGIN_MM, (paperWidth - widthMm) / 2);
  const above = Math.max(LEAST_MARGIN_MM, (paperHeight - heightMm) / 2);
  return {
    widthMm: widthMm + 2 * side,
    heightMm: heightMm + 2 * above,
    marginMm: { top: above, bottom: above - SLACK_MM, left: side, right: side },
  };
}

const LEAST_MARGIN_MM = 9;
