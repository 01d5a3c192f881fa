/** A PDF from a page of HTML: through Electron's own printing, in a process that is started for it and ends with it. */
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Sheet } from '../../core/certificate/paper/paper-style.ts';
import { pagesOfPdf, requirePdf } from '../print/pages-of-pdf.ts';
import { prepare } from '../setup/prepare.mjs';
import { isRoot, projectFolder } from '../setup/places.mjs';
import { fileExists } from './existing-file.ts';
import { type FileOption, writeNewBytes } from './new-file.ts';

/** The start of Electron on a busy machine, and the printing of a long certificate. */
const PRINT_MS_MAX = 180_000;
const COMPLAINT_LENGTH_MAX = 2_000;

export interface PrintRequest {
  readonly html: string;
  readonly sheet: Sheet;
  /** HTML of head and foot of each page. */
  readonly head: string;
  readonly foot: string;
  readonly out: string;
  readonly what: 'certificate' | 'picture' | 'table';
  /** Option that names the file. */
  readonly option?: FileOption;
  /** How many it must have; left out: any number. */
  readonly pages?: number;
  readonly say: (line: string) => void;
}

export interface PrintedPdf {
  readonly bytes: number;
  readonly pages: number;
}

/**
 * Printed beside, looked at, then put in place whole; gives its bytes and pages. Throws an InputError where `out` is there already,
 * a JobError where it can't be written, an Error where printing failed.
 */
export async function printPdf({
  html,
  sheet,
  head,
  foot,
  out,
  what,
  option = 'out',
  pages,
  say,
}: PrintRequest): Promise<PrintedPdf> {
  if (existsSync(out)) throw fileExists(out, option);
  const prepared = await prepare({ say, unseen: true });
  const folder = mkdtempSync(join(tmpdir(), 'gaugemark-print-'));
  try {
    const page = join(folder, 'page.html');
    const job = join(folder, 'job.json');
    const printed = join(folder, 'printed.pdf');
    writeFileSync(page, html);
    writeFileSync(job, JSON.stringify({ page, ...sheet, head, foot }));
    await electron(
      prepared,
      [`--user-data-dir=${join(folder, 'settings')}`],
      ['--print', job, '--print-to', printed],
    );
    const bytes = readFileSync(printed);
    requirePdf(bytes, pages);
    await writeNewBytes(out, bytes, { what, option });
    return { bytes: bytes.length, pages: pagesOfPdf(bytes) ?? 0 };
  } finally {
    prepared.end();
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

function electron(
  prepared: Awaited<ReturnType<typeof prepare>>,
  switches: readonly string[],
  ask: readonly string[],
): Promise<void> {
  return new Promise((resolve, reject) => {
    const child = spawn(
      prepared.electron,
      [...(isRoot ? ['--no-sandbox'] : []), ...switches, projectFolder, ...ask],
      { env: prepared.environment, stdio: ['ignore', 'ignore', 'pipe'], timeout: PRINT_MS_MAX },
    );
    let complaint = '';
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      complaint = (complaint + text).slice(-COMPLAINT_LENGTH_MAX);
    });
    child.once('error', reject);
    child.once('exit', (code, signal) => {
      if (code === 0) resolve();
      else
        reject(
          new Error(
            `The PDF was not made: printing ended with ${code ?? signal ?? 'no code'}. ${complaint.trim()}`,
          ),
        );
    });
  });
}
