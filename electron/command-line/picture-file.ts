/** Where a picture is written: SVG on the command line; what asks for another form is told who makes it. */
import type { VerbArguments } from './arguments.ts';
import { InputError } from './verb.ts';

export const PICTURE_FILE_OPTIONS = { svg: { type: 'string' }, png: { type: 'string' } } as const;

/** Undefined where no picture is asked for. Throws an InputError. */
export function svgPath(given: VerbArguments): string | undefined {
  const path = given.text('svg');
  const end = /\.(png|jpe?g|gif|webp|pdf|tiff?)$/i.exec(path ?? '');
  if (given.text('png') !== undefined || end !== null)
    throw new InputError(
      'picture-form-unknown',
      'Pictures of the command line are SVG: --svg FILE.svg. The window saves the same picture as PNG too, and a PDF is what "gaugemark certificate" makes.',
      given.text('png') === undefined ? 'svg' : 'png',
    );
  return path;
}
