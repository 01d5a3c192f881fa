/** Certificates made from the archive alone, each in its language. The same content keeps the number that it was issued under. */
import { createHash } from 'node:crypto';
import type { CertificateContent } from '../../core/certificate/certificate-content.ts';
import type { CertifiedSpecimen } from '../../core/certificate/certificate-input.ts';
import { composeCertificate } from '../../core/certificate/compose-certificate.ts';
import type { Certified } from '../../core/contract/certificate-requests.ts';
import type { ReplyOf, RequestOf } from '../../core/contract/index.ts';
import type { Signature } from '../../core/contract/signature-requests.ts';
import { momentText } from '../../core/exchange/export/moment-text.ts';
import { paperWords } from '../../core/words/load-paper-words.ts';
import type { PaperWords } from '../../core/words/paper-words.ts';
import type { Composed } from './certified-specimen.ts';
import { pullCertificate } from './pull-certificate.ts';
import type { Recorder } from './recorder.ts';
import { setCertificate } from './set-certificate.ts';
import { utcOffsetMinutes } from './utc-offset.ts';

/** Stands for number and moment while the content is hashed. */
const NOT_YET = 'not issued yet';

export async function issueCertificate(
  recorder: Recorder,
  asked: RequestOf<'certificate.issue'>,
): Promise<ReplyOf<'certificate.issue'>> {
  const about = await asJudged(recorder, asked.about);
  const words = await wordsOf(recorder, about, asked);
  const { language } = words;
  const input = await composed(recorder, about, words);
  const contentSha256 = contentHash(input, words);
  const now = Date.now();
  const last = await recorder.archive.call('lastIssued', about, contentSha256, language);
  const before = last?.saysTheSame === true ? last : null;
  const issued =
    before ??
    (await recorder.archive.call('issueCertificate', {
      about,
      contentSha256,
      language,
      utcOffsetMinutes: utcOffsetMinutes(now),
      results: input.results,
    }));
  const firstIssued = momentText(issued.issuedWallMs, issued.utcOffsetMinutes);
  const content = composeCertificate(
    {
      ...input,
      signatures: await signaturesUnder(recorder, issued.number),
      number: issued.number,
      issued: before === null ? firstIssued : momentText(now, utcOffsetMinutes(now)),
      firstIssued,
    },
    words,
  );
  return { number: issued.number, again: before !== null, content };
}

/** The same without issuing: number, moment and signatures where the same content was issued before. */
export async function previewCertificate(
  recorder: Recorder,
  asked: RequestOf<'certificate.preview'>,
): Promise<ReplyOf<'certificate.preview'>> {
  const about = await asJudged(recorder, asked.about);
  const words = await wordsOf(recorder, about, asked);
  const input = await composed(recorder, about, words);
  const hash = contentHash(input, words);
  const last = await recorder.archive.call('lastIssued', about, hash, words.language);
  const before = last?.saysTheSame === true ? last : null;
  const number = before?.number ?? null;
  const content = composeCertificate(
    {
      ...input,
      signatures: number === null ? [] : await signaturesUnder(recorder, number),
      number: number ?? NOT_YET,
      issued: before === null ? NOT_YET : momentText(before.issuedWallMs, before.utcOffsetMinutes),
    },
    words,
  );
  const outdated =
    last === null || before !== null
      ? null
      : {
          number: last.number,
          issuedWallMs: last.issuedWallMs,
          evaluatedWallMs: await evaluatedSince(recorder, input, last.issuedWallMs),
        };
  return { content, number, outdated };
}

/** When what it rests on was last evaluated anew after that moment; null where it was not. */
async function evaluatedSince(
  recorder: Recorder,
  { results }: Composed,
  issuedWallMs: number,
): Promise<number | null> {
  let newest = issuedWallMs;
  for (const { pullId } of results) {
    const { standing } = await recorder.archive.call('statedOf', pullId);
    newest = Math.max(newest, standing?.keptWallMs ?? newest);
  }
  return newest > issuedWallMs ? newest : null;
}

/** The hash of what the certificate of this number would say now, in the language that it was issued in. */
export async function contentSha256Now(
  recorder: Recorder,
  { about: asked, number }: Pick<RequestOf<'certificate.sign'>, 'about' | 'number'>,
): Promise<Uint8Array> {
  const about = await asJudged(recorder, asked);
  const words = await paperWords((await recorder.archive.call('languageOfCertificate', number)) ?? 'en');
  return contentHash(await composed(recorder, about, words), words);
}

/** What was issued stays in its language unless another is asked for. */
async function wordsOf(
  recorder: Recorder,
  about: Certified,
  { language, beginIn = 'en' }: RequestOf<'certificate.issue'>,
): Promise<PaperWords> {
  return paperWords(language ?? (await recorder.archive.call('lastLanguage', about)) ?? beginIn);
}

/** A specimen is judged by the rules of a set; of several sets the one that it was put into last counts. */
async function asJudged(recorder: Recorder, asked: Certified): Promise<Certified> {
  if (!('pullId' in asked)) return asked;
  const [newest] = await recorder.archive.call('membershipsOf', asked);
  return newest === undefined ? asked : { setId: newest.setId, setMemberId: newest.setMemberId };
}

const composed = (recorder: Recorder, about: Certified, words: PaperWords): Promise<Composed> =>
  'pullId' in about ? pullCertificate(recorder, about.pullId, words) : setCertificate(recorder, about, words);

/** What is hashed names neither the certificate's number nor its signatures: these stand under it, not in it. */
const contentHash = (input: Composed, words: PaperWords): Uint8Array =>
  createHash('sha256')
    .update(JSON.stringify(unnumbered(input, words)))
    .digest();

/** Neither the moment nor the version of the program makes it another certificate; another figure in it does. */
const unnumbered = (input: Composed, words: PaperWords): CertificateContent =>
  composeCertificate(
    {
      ...input,
      programVersion: NOT_YET,
      specimens: input.specimens.map(evaluatedByAnyVersion),
      number: NOT_YET,
      issued: NOT_YET,
    },
    words,
  );

const evaluatedByAnyVersion = (one: CertifiedSpecimen): CertifiedSpecimen =>
  one.record === null ? one : { ...one, record: { ...one.record, evaluatedBy: NOT_YET } };

async function signaturesUnder(
  recorder: Recorder,
  number: string,
): Promise<CertificateContent['signatures']> {
  return (await recorder.archive.call('signaturesOf', number)).map(signatureContent);
}

const signatureContent = ({
  printedName,
  meaning,
  byPin,
  wallMs,
  utcOffsetMinutes: offset,
  contentSha256,
}: Signature): CertificateContent['signatures'][number] => ({
  printedName,
  meaning,
  at: momentText(wallMs, offset),
  byPin,
  contentSha256,
});
