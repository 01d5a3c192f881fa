/** The fonts of the certificate, from the package that the window's come from too; they are embedded in the PDF. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { EmbeddedFont } from '../../core/certificate/paper/paper-style.ts';

const LATIN_EXTENDED =
  'U+0100-02BA,U+02BD-02C5,U+02C7-02CC,U+02CE-02D7,U+02DD-02FF,U+0304,U+0308,U+0329,U+1D00-1DBF,U+1E00-1E9F,U+1EF2-1EFF,U+2020,U+20A0-20AB,U+20AD-20C0,U+2113,U+2C60-2C7F,U+A720-A7FF';

/** @param folder holds the font files under the names of their package */
export function paperFontsIn(folder: string): EmbeddedFont[] {
  const file = (subset: string, weight: number): string =>
    readFileSync(join(folder, `atkinson-hyperlegible-${subset}-${String(weight)}-normal.woff2`)).toString(
      'base64',
    );
  return ([400, 700] as const).flatMap((weight) => [
    { weight, base64: file('latin', weight) },
    { weight, base64: file('latin-ext', weight), unicodeRange: LATIN_EXTENDED },
  ]);
}
