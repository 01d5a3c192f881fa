/** The certificate of a verification, of force or extension, as one HTML page for printing: worksheet, class, working. */
import type { CalibrationForm } from '../../instruments/calibration.ts';
import { type InstrumentForm, KIND_WORDS } from '../../instruments/instrument.ts';
import { readExtensionWorksheet } from '../../verification/extension-worksheet.ts';
import { readWorksheet } from '../../verification/worksheet.ts';
import type { CertificateContent, Fact } from '../certificate-content.ts';
import { extensionVerificationBody } from './extension-verification-body.ts';
import { factList } from './fact-list.ts';
import { forceVerificationBody } from './force-verification-body.ts';
import { momentOnPaper } from './moment-on-paper.ts';
import { headAndFoot } from './head-and-foot.ts';
import { html, ready, typed } from './markup.ts';
import { type EmbeddedFont, type Paper, paperStyle } from './paper-style.ts';
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
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; font-src data:";
const CAUTION =
  'The results relate only to this instrument as it was set up and to the conditions at the time.';

/** Null where the calibration holds no worksheet that can be read. */
export function verificationPaper(
  input: VerificationInput,
  { paper, fonts }: { readonly paper: Paper; readonly fonts: readonly EmbeddedFont[] },
): VerificationPaper | null {
  const body = bodyOf(input.calibration);
  if (body === null) return null;
  const { certificateNumber } = input.calibration;
  const notices =
    input.supersededBy === null
      ? []
      : [
          `Superseded by calibration ${String(input.supersededBy)} of the same instrument; this one counts no more.`,
        ];
  const { html: text } = html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content="${POLICY}" />
        <title>${`${VERIFICATION_TITLE} ${certificateNumber}`}</title>
        <style>
          ${ready(paperStyle(paper, fonts))}
          ${ready(TABLE_STYLE)}
        </style>
      </head>
      <body>
        <header class="top">
          <div>
            <h1>${VERIFICATION_TITLE}</h1>
            <p class="number">${typed(certificateNumber)}</p>
          </div>
          <div class="laboratory">
            <strong>${typed(input.laboratory.name)}</strong
            >${input.laboratory.lines.map((line) => html`<br />${typed(line)}`)}
          </div>
        </header>
        ${notices.map((notice) => html`<p class="evidence">${notice}</p>`)}
        <h2>Instrument</h2>
        ${factList(instrumentFacts(input.instrument))}
        <h2>Verification</h2>
        ${factList(calibrationFacts(input, body.facts))}
        <h2>Result</h2>
        ${body.verdict}
        <h2>${body.tableTitle}</h2>
        ${body.table}
        <h2>Working</h2>
        ${body.working}
        <section class="cautions">
          <p>${CAUTION}</p>
          <p>${body.caution}</p>
        </section>
        <p class="end">End of certificate</p>
      </body>
    </html>`;
  return { html: text, ...headAndFoot({ number: certificateNumber, title: VERIFICATION_TITLE, notices }) };
}

const TABLE_STYLE = `.readings th, .readings td { text-align: right; padding: 0.8mm 1.5mm; }
.readings th:first-child, .readings td:first-child { text-align: left; }
.readings + .note { margin-top: 1.5mm; }
.working td { font-size: 8.5pt; }
.working tr:nth-child(-n + 4) { break-after: avoid; }
.working td:first-child { width: 24mm; }`;

const facts = (pairs: readonly (readonly [string, string | undefined])[]): Fact[] =>
  pairs.flatMap(([label, value]) => (value === undefined ? [] : [{ label, value }]));

function instrumentFacts({
  kind,
  name,
  serialNumber,
  description,
  range,
  resolution,
}: InstrumentForm): Fact[] {
  return facts([
    ['kind', KIND_WORDS[kind]],
    ['name', name],
    ['serial number', serialNumber],
    ['description', description],
    ['range', range === undefined ? undefined : `${range.from} to ${range.to}`],
    ['resolution', resolution],
  ]);
}

/** Of the worksheet that there is; null where there is none that can be read. */
function bodyOf({ worksheet, extensionSheet }: CalibrationForm): VerificationBody | null {
  if (extensionSheet !== undefined) {
    const extension = readExtensionWorksheet(extensionSheet);
    return extension.ok ? extensionVerificationBody(extension.read) : null;
  }
  const force = readWorksheet(worksheet);
  return force.ok ? forceVerificationBody(force.read) : null;
}

function calibrationFacts(
  { calibration, programVersion, made }: VerificationInput,
  ofTheSheet: readonly Fact[],
): Fact[] {
  const { calibratedOn, dueOn, by, notes } = calibration;
  const sheet = calibration.extensionSheet ?? calibration.worksheet;
  return [
    ...facts([
      ['day', calibratedOn],
      ['due', dueOn],
      ['verified by', by],
      ['reference', sheet?.reference],
      ['temperature', sheet?.temperature],
    ]),
    ...ofTheSheet,
    ...facts([
      ['remarks', notes ?? sheet?.notes],
      ['worked out by', `Gaugemark ${programVersion}, printed ${momentOnPaper(made)}`],
    ]),
  ];
}
