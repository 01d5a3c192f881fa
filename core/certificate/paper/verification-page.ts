/** The certificate of a verification, of force or extension, as one HTML page for printing: worksheet, class, working. */
import type { CalibrationForm } from '../../instruments/calibration.ts';
import { type InstrumentForm, KIND_WORDS } from '../../instruments/instrument.ts';
import { readExtensionWorksheet } from '../../verification/extension-worksheet.ts';
import { readWorksheet } from '../../verification/worksheet.ts';
import { ENGLISH_PAPER, type PaperText, type PaperWords } from '../../words/paper-words.ts';
import type { CertificateContent, Fact } from '../certificate-content.ts';
import { extensionVerificationBody } from './extension-verification-body.ts';
import { factList } from './fact-list.ts';
import { NO_LABORATORY } from '../compose-certificate.ts';
import { forceVerificationBody } from './force-verification-body.ts';
import { momentOnPaper } from './moment-on-paper.ts';
import { headAndFoot } from './head-and-foot.ts';
import { html, ready, typed } from './markup.ts';
import { CONTENT_POLICY, type PaperOptions } from './paper-options.ts';
import { paperStyle } from './paper-style.ts';
import type { VerificationBody } from './verification-body.ts';

export interface VerificationInput {
  readonly laboratory: CertificateContent['laboratory'];
  readonly instrument: InstrumentForm;
  readonly calibration: CalibrationForm;
  /** Calibration that stands in its place; null where it stands itself. */
  readonly supersededBy: number | null;
  readonly programVersion: string;
  /** ISO 8601, when it is printed. */
  readonly made: string;
}

export interface VerificationPaper {
  readonly html: string;
  readonly head: string;
  readonly foot: string;
}

export const VERIFICATION_TITLE = 'Certificate of verification';

/** Null where the calibration holds no worksheet that can be read. */
export function verificationPaper(
  input: VerificationInput,
  { paper, fonts, words = ENGLISH_PAPER }: PaperOptions,
): VerificationPaper | null {
  const { text } = words;
  const title = text(VERIFICATION_TITLE);
  const body = bodyOf(input.calibration, words);
  if (body === null) return null;
  const { certificateNumber } = input.calibration;
  const notices =
    input.supersededBy === null
      ? []
      : [
          text(
            'Superseded by calibration {1} of the same instrument; this one counts no more.',
            String(input.supersededBy),
          ),
        ];
  const page = html`<!doctype html>
    <html lang="${words.language}">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content="${CONTENT_POLICY}" />
        <title>${`${title} ${certificateNumber}`}</title>
        <style>
          ${ready(paperStyle(paper, fonts))}
          ${ready(TABLE_STYLE)}
        </style>
      </head>
      <body>
        <header class="top">
          <div>
            <h1>${title}</h1>
            <p class="number">${typed(certificateNumber)}</p>
          </div>
          <div class="laboratory">
            <strong
              >${input.laboratory === NO_LABORATORY ? text('No laboratory is named in this archive') : typed(input.laboratory.name)}</strong
            >${input.laboratory.lines.map((line) => html`<br />${typed(line)}`)}
          </div>
        </header>
        ${notices.map((notice) => html`<p class="evidence">${notice}</p>`)}
        <h2>${text('Instrument')}</h2>
        ${factList(instrumentFacts(input.instrument, words), words)}
        <h2>${text('Verification')}</h2>
        ${factList(calibrationFacts(input, body.facts, words), words)}
        <h2>${text('Result')}</h2>
        ${body.verdict}
        <h2>${body.tableTitle}</h2>
        ${body.table}
        <h2>${text('Working')}</h2>
        ${body.working}
        <section class="cautions">
          <p>
            ${text('The results relate only to this instrument as it was set up and to the conditions at the time.')}
          </p>
          <p>${body.caution}</p>
        </section>
        <p class="end">${text('End of certificate')}</p>
      </body>
    </html>`;
  return { html: page.html, ...headAndFoot({ number: certificateNumber, title, notices }, words) };
}

const TABLE_STYLE = `.readings th, .readings td { text-align: right; padding: 0.8mm 1.5mm; }
.readings th:first-child, .readings td:first-child { text-align: left; }
.readings + .note { margin-top: 1.5mm; }
.working td { font-size: 8.5pt; }
.working tr:nth-child(-n + 4) { break-after: avoid; }
.working td:first-child { width: 24mm; }`;

const facts = ({ text }: PaperWords, pairs: readonly (readonly [PaperText, string | undefined])[]): Fact[] =>
  pairs.flatMap(([label, value]) => (value === undefined ? [] : [{ label: text(label), value }]));

function instrumentFacts(
  { kind, name, serialNumber, description, range, resolution }: InstrumentForm,
  words: PaperWords,
): Fact[] {
  return facts(words, [
    ['kind', words.said(KIND_WORDS[kind])],
    ['name', name],
    ['serial number', serialNumber],
    ['description', description],
    ['range', range === undefined ? undefined : words.text('{1} to {2}', range.from, range.to)],
    ['resolution', resolution],
  ]);
}

/** Of the worksheet that there is; null where there is none that can be read. */
function bodyOf({ worksheet, extensionSheet }: CalibrationForm, words: PaperWords): VerificationBody | null {
  if (extensionSheet !== undefined) {
    const extension = readExtensionWorksheet(extensionSheet);
    return extension.ok ? extensionVerificationBody(extension.read, words) : null;
  }
  const force = readWorksheet(worksheet);
  return force.ok ? forceVerificationBody(force.read, words) : null;
}

function calibrationFacts(
  { calibration, programVersion, made }: VerificationInput,
  ofTheSheet: readonly Fact[],
  words: PaperWords,
): Fact[] {
  const { calibratedOn, dueOn, by, notes } = calibration;
  const sheet = calibration.extensionSheet ?? calibration.worksheet;
  return [
    ...facts(words, [
      ['day', calibratedOn],
      ['due', dueOn],
      ['verified by', by],
      ['reference', sheet?.reference],
      ['temperature', sheet?.temperature],
    ]),
    ...ofTheSheet,
    ...facts(words, [
      ['remarks', notes ?? sheet?.notes],
      ['worked out by', words.text('Gaugemark {1}, printed {2}', programVersion, momentOnPaper(made))],
    ]),
  ];
}
