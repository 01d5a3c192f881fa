/** Where a picture is written, and in which form: SVG or PDF on the command line; what asks for another is told who makes it. */
import { picturePage } from '../../core/certificate/paper/picture-page.ts';
import { PAPERS, type Paper } from '../../core/certificate/paper/paper-style.ts';
import type { Drawing } from '../../core/drawing/drawing.ts';
import { svgText } from '../../core/drawing/svg-text.ts';
import { type VerbArguments, oneOf } from './arguments.ts';
import { writeNewFile } from './new-file.ts';
import { paperFonts } from './paper-fonts.ts';
import { printPdf } from './print-pdf.ts';
import { InputError } from './verb.ts';

export const PICTURE_FILE_OPTIONS = {
  svg: { type: 'string' },
  pdf: { type: 'string' },
  png: { type: 'string' },
  paper: { type: 'string' },
} as const;

export const PICTURE_FILE_USAGE = '--svg FILE | --pdf FILE [--paper A4|Letter]';

export interface PictureFile {
  readonly path: string;
  readonly form: 'svg' | 'pdf';
  readonly paper: Paper;
  /** That names the file. */
  readonly option: 'svg' | 'pdf' | 'out';
}

/** Ends of names of other pictures. */
const OTHER_PICTURE = /\.(?:png|jpe?g|gif|webp|tiff?)$/i;

/** Undefined where no picture is asked for; `out` is an option that says the form by the end of its name. Throws an InputError. */
export function pictureFile(given: VerbArguments, out?: string): PictureFile | undefined {
  const { svg, pdf } = { svg: given.text('svg'), pdf: given.text('pdf') };
  const paper = oneOf('paper', given.text('paper'), PAPERS) ?? 'A4';
  const path = svg ?? pdf ?? out;
  if (given.text('png') !== undefined || OTHER_PICTURE.test(path ?? ''))
    throw new InputError(
      'picture-form-unknown',
      'Pictures of the command line are --svg FILE.svg and --pdf FILE.pdf. The window saves the same picture as PNG too.',
      given.text('png') === undefined ? 'svg' : 'png',
    );
  if (path === undefined) return undefined;
  if (svg !== undefined && pdf !== undefined)
    throw new InputError('options-exclude', 'Give --svg or --pdf, one picture at a time.', 'pdf');
  const [end] = /\.(?:svg|pdf)$/i.exec(path)?.map((text) => text.slice(1).toLowerCase()) ?? [];
  const form = svg !== undefined ? 'svg' : pdf !== undefined ? 'pdf' : end === 'pdf' ? 'pdf' : 'svg';
  if (end !== undefined && end !== form)
    throw new InputError(
      'picture-form-unknown',
      `--${form} makes a picture of that form, and the name ends with .${end}; end it with .${form}.`,
      form,
    );
  return { path, form, paper, option: svg !== undefined ? 'svg' : pdf !== undefined ? 'pdf' : 'out' };
}

/** Gives the bytes written. Throws an InputError where the file is there, a JobError where it can't be written. */
export async function writePicture(
  drawing: Drawing,
  { path, form, paper, option }: PictureFile,
  say: (line: string) => void,
): Promise<number> {
  const svg = svgText(drawing);
  if (form === 'svg') return writeNewFile(path, svg, option);
  const page = picturePage(svg, { paper, fonts: paperFonts() });
  return (await printPdf({ ...page, out: path, what: 'picture', option, pages: 1, say })).bytes;
}
