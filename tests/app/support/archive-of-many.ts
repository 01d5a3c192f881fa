/** An archive of one published curve under many names: what is looked at is the finding and comparing, not the numbers. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Archive } from '../../../core/archive/archive.ts';
import type { SpecimenFile } from '../../../core/specimen/specimen-file.ts';
import { importFile } from '../../../electron/recorder/import-file.ts';
import { archiveIn } from './gaugemark-window.ts';

const CURVE = readFileSync(new URL('../../../fixtures/curves/42crmos4-46NT71.csv', import.meta.url), 'utf8');

/** The archive of a window in this folder, with specimens K-1, K-2, …; whoever asks for it closes it. */
export function archiveOfMany(
  folder: string,
  pulls: number,
  specimen: (number: number) => Omit<SpecimenFile, 'id'>,
): Archive {
  const archive = new Archive(archiveIn(folder), { programVersion: 'test', wallMs: Date.now });
  for (let i = 1; i <= pulls; i++) {
    const file = join(folder, `curve-${String(i)}.csv`);
    writeFileSync(file, `${CURVE.trimEnd()}\n# ${String(i)}\n`);
    importFile(archive, {
      file,
      operator: 'Okafor',
      specimen: { id: `K-${String(i)}`, ...specimen(i) },
    });
  }
  return archive;
}
