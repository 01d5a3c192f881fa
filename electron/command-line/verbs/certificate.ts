/** `gaugemark certificate --archive FILE --set ID --out FILE.pdf`: one set on paper, or the same content as CSV or JSON. */
import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs';
import { extname, resolve } from 'node:path';
import { certificateCsv } from '../../../core/certificate/certificate-csv.ts';
import type { CertificateContent } from '../../../core/certificate/certificate-content.ts';
import { certificatePage } from '../../../core/certificate/paper/certificate-page.ts';
import { headAndFoot } from '../../../core/certificate/paper/head-and-foot.ts';
import { PAPERS, type Paper } from '../../../core/certificate/paper/paper-style.ts';
import { oneOf, takeArguments } from '../arguments.ts';
import { fileExists } from '../existing-file.ts';
import { paperFonts } from '../paper-fonts.ts';
import { printPdf } from '../print-pdf.ts';
import { existingArchive, recorderAccess } from '../recorder-access.ts';
import { EXIT_DONE, InputError, type Verb } from '../verb.ts';

const FORMS = ['.pdf', '.csv', '.json'] as const;

export const verb: Verb = {
  name: 'certificate',
  summary: 'one set of specimens as a certificate: PDF, CSV or JSON',
  usage: `gaugemark certificate --set ID --out FILE.pdf|FILE.csv|FILE.json [--archive FILE] [--paper A4|Letter] [--json]

  Made from the archive alone: the set with its rules, each specimen's dimensions, results, fracture, curve and verdict.
  A number is given when it is issued; made again later from the same content it keeps the number and says so. Never
  written over an existing file.

  --set ID       number of the set in the archive
  --out FILE     its ending says what is made
  --paper WORD   A4 (default) or Letter
  --json         one JSON document on stdout: number, file, outcome

  gaugemark certificate --archive shop.gaugemark --set 3 --out pqr-41.pdf --paper Letter`,
  run: async (args, io) => {
    const given = takeArguments(args, OPTIONS, [], 'certificate');
    const out = outFile(given.text('out'));
    const paper = oneOf('paper', given.text('paper'), PAPERS) ?? 'A4';
    const access = await recorderAccess({
      archive: existingArchive(given.text('archive')),
      // Issuing is kept in the archive.
      toRecord: true,
      note: io.err,
    });
    try {
      const { number, again, content } = await access.ask('set.certificate', {
        setId: setNumber(given.text('set')),
      });
      await write(content, out, paper, io.err);
      io.out(
        given.has('json')
          ? JSON.stringify({ number, again, path: out.path, outcome: content.setVerdict?.outcome ?? null })
          : `Certificate ${number}${again ? ' (made again)' : ''} is in ${out.path}. ${content.setVerdict?.sentence ?? ''}`,
      );
      return EXIT_DONE;
    } finally {
      await access.end();
    }
  },
};

const OPTIONS = {
  archive: { type: 'string' },
  set: { type: 'string' },
  out: { type: 'string' },
  paper: { type: 'string' },
  json: { type: 'boolean' },
} as const;

interface OutFile {
  readonly path: string;
  readonly form: (typeof FORMS)[number];
}

function outFile(out: string | undefined): OutFile {
  const form = FORMS.find((ending) => ending === extname(out ?? '').toLowerCase());
  if (out === undefined || form === undefined)
    throw new InputError(
      'argument-missing',
      `Name the file to make with --out; its ending is one of ${FORMS.join(', ')}.`,
      'out',
    );
  return { path: resolve(out), form };
}

function setNumber(text: string | undefined): number {
  if (text === undefined || !/^[1-9]\d{0,8}$/.test(text))
    throw new InputError(
      'argument-missing',
      `Give the number of the set with --set, a whole number such as 3${text === undefined ? '' : `, not "${text.slice(0, 40)}"`}.`,
      'set',
    );
  return Number(text);
}

async function write(
  content: CertificateContent,
  { path, form }: OutFile,
  paper: Paper,
  say: (line: string) => void,
): Promise<void> {
  if (form === '.pdf') {
    await printPdf({
      html: certificatePage(content, { paper, fonts: paperFonts() }),
      paper,
      ...headAndFoot(content.number, content.title),
      out: path,
      say,
    });
    return;
  }
  const text = form === '.csv' ? certificateCsv(content) : `${JSON.stringify(content, null, 2)}\n`;
  try {
    const file = openSync(path, 'wx');
    writeSync(file, text);
    fsyncSync(file);
    closeSync(file);
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'EEXIST') throw fileExists(path);
    throw error;
  }
}
