/** The program started for printing only: one page to PDF, then the end. The command line has no Electron of its own. */
import { app } from 'electron';
import { readFileSync, writeFileSync } from 'node:fs';
import { z } from 'zod';
import { printPage } from './print-page.ts';

const mm = z.number().positive().max(2_000);
const printJob = z.strictObject({
  page: z.string().min(1),
  widthMm: mm,
  heightMm: mm,
  marginMm: z.strictObject({ top: mm, right: mm, bottom: mm, left: mm }),
  head: z.string(),
  foot: z.string(),
});

/** Ends the program with 0 when the PDF is written, with 1 and the reason on stderr when not. Opens no archive and no port. */
export function printAndEnd({ job, out }: { readonly job: string; readonly out: string }): void {
  app.disableHardwareAcceleration();
  // Otherwise the program would end with its hidden window, before the file is written.
  app.on('window-all-closed', () => undefined);
  print(job, out).then(
    () => app.exit(0),
    (error: unknown) => {
      process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
      app.exit(1);
    },
  );
}

async function print(job: string, out: string): Promise<void> {
  const read = printJob.parse(JSON.parse(readFileSync(job, 'utf8')));
  await app.whenReady();
  // "wx": a file that is there already is never written over.
  writeFileSync(out, await printPage(read), { flag: 'wx' });
}
