/** `gaugemark certificate --archive FILE --set ID --out FILE.pdf`: a set or one of its specimens on paper, or the same content as CSV or JSON. */
import { extname, resolve } from 'node:path';
import { certificateCsv } from '../../../core/certificate/certificate-csv.ts';
import { type CertificateContent, languageOf } from '../../../core/certificate/certificate-content.ts';
import { certificatePage } from '../../../core/certificate/paper/certificate-page.ts';
import { headAndFoot } from '../../../core/certificate/paper/head-and-foot.ts';
import { PAPERS, type Paper, sheetOf } from '../../../core/certificate/paper/paper-style.ts';
import type { Certified } from '../../../core/contract/certificate-requests.ts';
import type { RequestOf } from '../../../core/contract/index.ts';
import { SIGNATURE_MEANINGS } from '../../../core/contract/signature-requests.ts';
import { paperWords } from '../../../core/words/load-paper-words.ts';
import { PAPER_LANGUAGES } from '../../../core/words/paper-words.ts';
import { type VerbArguments, oneOf, takeArguments } from '../arguments.ts';
import { photosOnPaper } from '../../photos/photos-on-paper.ts';
import { pinFromFile } from '../pin-file.ts';
import { writeNewFile } from '../new-file.ts';
import { paperFonts } from '../paper-fonts.ts';
import { printPdf } from '../print-pdf.ts';
import { type RecorderAccess, existingArchive, recorderAccess } from '../recorder-access.ts';
import { EXIT_DONE, InputError, type Verb } from '../verb.ts';

const FORMS = ['.pdf', '.csv', '.json'] as const;

export const verb: Verb = {
  name: 'certificate',
  summary: 'a set of specimens, or one of them, as a certificate: PDF, CSV or JSON',
  usage: `gaugemark certificate --set ID|--specimen ID|--pull ID --out FILE.pdf|FILE.csv|FILE.json [--archive FILE] [--paper A4|Letter]
  [--language en|es] [--sign NAME --meaning WORD [--pin-file FILE]] [--json]

  Made from the archive alone: the set with its rules, each specimen's dimensions, results, fracture, curve and verdict.
  A number is given when it is issued; made again later from the same content it keeps the number and says so. Never
  written over an existing file.

  --set ID       number of the set in the archive
  --specimen ID  number of one specimen: its own certificate, by the rules of the set that it is in; in no set without a
                 verdict, of the one pull that it has
  --pull ID      number of one pull: the same for its specimen
  --out FILE     its ending says what is made
  --paper WORD   A4 (default) or Letter
  --language WORD
                 en or es, of everything that the program writes in it; left out, that of the newest certificate about the
                 same, else en. Names, clauses and all that was typed stay as they are
  --sign NAME    signs it: a name, or the name or sign of a person of this machine (gaugemark people), whose PIN is then
                 asked for where there is one. The signature names the number and the hash of what it says; a later
                 certificate that says something else has none
  --meaning WORD ${SIGNATURE_MEANINGS.join(', ')}
  --pin-file F   the PIN, as the file's first line
  --json         one JSON document on stdout: number, file, outcome

  gaugemark certificate --archive shop.gaugemark --set 3 --out pqr-41.pdf --paper Letter`,
  run: async (args, io) => {
    const given = takeArguments(args, OPTIONS, [], 'certificate');
    const which = whichOne(given);
    const out = outFile(given.text('out'));
    const paper = oneOf('paper', given.text('paper'), PAPERS) ?? 'A4';
    const asked = oneOf('language', given.text('language'), PAPER_LANGUAGES);
    const language = asked === undefined ? {} : { language: asked };
    const signing = signingOf(given);
    const access = await recorderAccess({
      archive: existingArchive(given.text('archive')),
      // Issuing is kept in the archive.
      toRecord: true,
      note: io.err,
    });
    try {
      const about = await certified(access, which);
      if (signing !== null) {
        const { number: issued } = await access.ask('certificate.issue', { about, ...language });
        await access.ask('certificate.sign', { about, number: issued, ...signing });
      }
      const { number, again, content } = await access.ask('certificate.issue', { about, ...language });
      await write(content, { out, paper, access, say: io.err });
      const verdict = content.kind === 'set' ? content.setVerdict : content.specimens[0]?.verdict;
      io.out(
        given.has('json')
          ? JSON.stringify({
              number,
              again,
              path: out.path,
              outcome: verdict?.outcome ?? null,
              ...(content.notices.length === 0 ? {} : { notices: content.notices }),
            })
          : `Certificate ${number}${again ? ' (made again)' : ''} is in ${out.path}. ${[verdict?.sentence ?? 'Not judged: no rules chosen.', ...content.notices].filter(Boolean).join(' ')}`,
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
  specimen: { type: 'string' },
  pull: { type: 'string' },
  out: { type: 'string' },
  paper: { type: 'string' },
  language: { type: 'string' },
  sign: { type: 'string' },
  meaning: { type: 'string' },
  'pin-file': { type: 'string' },
  json: { type: 'boolean' },
} as const;

type Signing = Pick<RequestOf<'certificate.sign'>, 'printedName' | 'meaning' | 'pin'>;

/** Null where it is not to be signed. Throws an InputError. */
function signingOf(given: VerbArguments): Signing | null {
  const printedName = given.text('sign');
  const meaning = oneOf('meaning', given.text('meaning'), SIGNATURE_MEANINGS);
  const pin = pinFromFile(given.text('pin-file'));
  if (printedName === undefined && meaning === undefined) return null;
  if (printedName === undefined || meaning === undefined)
    throw new InputError(
      'option-missing',
      `A signature needs a name and what it means: --sign NAME --meaning "${SIGNATURE_MEANINGS.join('|')}".`,
      printedName === undefined ? 'sign' : 'meaning',
    );
  return { printedName, meaning, ...(pin === undefined ? {} : { pin }) };
}

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

const NAMED_BY = ['set', 'specimen', 'pull'] as const;

interface WhichOne {
  readonly by: (typeof NAMED_BY)[number];
  readonly id: number;
}

function whichOne(given: VerbArguments): WhichOne {
  const named = NAMED_BY.flatMap((by) => {
    const text = given.text(by);
    return text === undefined ? [] : [{ by, text }];
  });
  const [one, other] = named;
  if (one === undefined || other !== undefined)
    throw new InputError(
      other === undefined ? 'argument-missing' : 'arguments-conflict',
      `Give the number of one set with --set, or of one specimen with --specimen, or of one pull with --pull${other === undefined ? '' : '; one of them only'}.`,
      other?.by ?? 'set',
    );
  if (!/^[1-9]\d{0,8}$/.test(one.text))
    throw new InputError(
      'argument-missing',
      `Give the number of the ${one.by} with --${one.by}, a whole number such as 3, not "${one.text.slice(0, 40)}".`,
      one.by,
    );
  return { by: one.by, id: Number(one.text) };
}

/** What is in no set is certified without a verdict: the one pull of it that counts. */
async function certified(access: RecorderAccess, { by, id }: WhichOne): Promise<Certified> {
  if (by === 'set') return { setId: id };
  if (by === 'pull') return { pullId: id };
  const { places, pullIds } = await access.ask('set.of-specimen', { specimenId: id });
  const [place] = places;
  if (place !== undefined) return { setId: place.setId, setMemberId: place.setMemberId };
  const [pullId, other] = pullIds;
  if (pullId !== undefined && other === undefined) return { pullId };
  throw new InputError(
    'not-in-a-set',
    `Specimen ${String(id)} is in no set of this archive, and ${pullId === undefined ? 'no pull of it counts' : `it has several pulls: ${pullIds.join(', ')}`}. ${pullId === undefined ? '"gaugemark archive list" shows what is there.' : 'Name one with --pull for a certificate without a verdict, or put the specimen into a set first.'}`,
    by,
  );
}

interface Writing {
  readonly out: OutFile;
  readonly paper: Paper;
  readonly access: RecorderAccess;
  readonly say: (line: string) => void;
}

async function write(
  content: CertificateContent,
  { out: { path, form }, paper, access, say }: Writing,
): Promise<void> {
  if (form === '.pdf') {
    const photos = await photosOnPaper(
      content,
      async (photoId) => (await access.ask('photo.get', { photoId })).bytes,
    );
    const words = await paperWords(languageOf(content));
    await printPdf({
      html: certificatePage(content, { paper, fonts: paperFonts(), photos, words }),
      sheet: sheetOf(paper),
      ...headAndFoot(content, words),
      out: path,
      what: 'certificate',
      say,
    });
    return;
  }
  const text = form === '.csv' ? certificateCsv(content) : `${JSON.stringify(content, null, 2)}\n`;
  writeNewFile(path, text, 'out');
}
