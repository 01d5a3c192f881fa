/** The fonts of the certificate, where the command line finds them: in their package. */
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { EmbeddedFont } from '../../core/certificate/paper/paper-style.ts';
import { paperFontsIn } from '../print/paper-fonts.ts';

export function paperFonts(): EmbeddedFont[] {
  const { resolve } = createRequire(import.meta.url);
  return paperFontsIn(join(dirname(resolve('@fontsource/atkinson-hyperlegible/package.json')), 'files'));
}
