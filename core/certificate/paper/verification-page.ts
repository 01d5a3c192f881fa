/** The certificate of a verification of the force, as one HTML page for printing: worksheet, class, ranges, working. */
import type { CalibrationForm } from '../../instruments/calibration.ts';
import { type InstrumentForm, KIND_WORDS } from '../../instruments/instrument.ts';
import { ISO_CLASSES } from '../../verification/class-limits.ts';
import { STEP_HEADS, stepFigures, stepFindings } from '../../verification/step-figures.ts';
import type { PercentFinding, Verification, VerifiedRange } from '../../verification/verify-force.ts';
import { verifyForce } from '../../verification/verify-force.ts';
import { readWorksheet } from '../../verification/worksheet.ts';
import type { CertificateContent, Fact } from '../certificate-content.ts';
import { factList } from './fact-list.ts';
import { momentOnPaper } from './moment-on-paper.ts';
import { headAndFoot } from './head-and-foot.ts';
import { type Markup, NOTHING, html, ready, typed } from './markup.ts';
import { type EmbeddedFont, type Paper, paperStyle } from './paper-style.ts';

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
const CAUTIONS = [
  'The results relate only to this instrument as it was set up and to the conditions at the time.',
  'The limits of the classes of ISO 7500-1 are from memory; check them, and what ASTM E4 asks for, against your own copies. The standards and the local authority govern.',
] as const;

/** Null where the calibration holds no worksheet that can be read. */
export function verificationPaper(
  input: VerificationInput,
  { paper, fonts }: { readonly paper: Paper; readonly fonts: readonly EmbeddedFont[] },
): VerificationPaper | null {
  const read = readWorksheet(input.calibration.worksheet);
  if (!read.ok) return null;
  const found = verifyForce(read.read);
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
        ${factList(calibrationFacts(input))}
        <h2>Result</h2>
        ${verdict(found)}
        <h2>Forces</h2>
        ${forcesTable(found, read.read)}
        <h2>Working</h2>
        ${working(found)}
        <section class="cautions">${CAUTIONS.map((caution) => html`<p>${caution}</p>`)}</section>
        <p class="end">End of certificate</p>
      </body>
    </html>`;
  return { html: text, ...headAndFoot({ number: certificateNumber, title: VERIFICATION_TITLE, notices }) };
}

const TABLE_STYLE = `.forces th, .forces td { text-align: right; padding: 0.8mm 1.5mm; }
.forces th:first-child, .forces td:first-child { text-align: left; }
.working td { font-size: 8.5pt; }
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

function calibrationFacts({ calibration, programVersion, made }: VerificationInput): Fact[] {
  const { calibratedOn, dueOn, by, worksheet, notes } = calibration;
  return facts([
    ['day', calibratedOn],
    ['due', dueOn],
    ['verified by', by],
    ['reference', worksheet?.reference],
    ['temperature', worksheet?.temperature],
    [
      'resolution of the display',
      worksheet === undefined ? undefined : `${worksheet.resolution} ${worksheet.unit}`,
    ],
    ['remarks', notes ?? worksheet?.notes],
    ['worked out by', `Gaugemark ${programVersion}, printed ${momentOnPaper(made)}`],
  ]);
}

const rangeText = ({ fromText, toText }: VerifiedRange, unit: string): string =>
  `${fromText} to ${toText} ${unit}`;

function verdict({ iso, e4, unit, remarks }: Verification): Markup {
  const ranges = ISO_CLASSES.flatMap((one) => {
    const range = iso.ranges[one];
    return range === null ? [] : [`class ${one}: ${rangeText(range, unit)}`];
  });
  const limits = ISO_CLASSES.map((one) => `class ${one} from ${iso.lowerLimits[one].text} ${unit}`);
  return html`<p class="outcome">
      ${iso.class === null ? 'ISO 7500-1: no class stated' : `ISO 7500-1: class ${iso.class}`}
    </p>
    ${iso.withheld.map((sentence) => html`<p>${sentence}</p>`)}
    ${ranges.length === 0 ? NOTHING : html`<p>Every force holds the limits of ${ranges.join('; ')}.</p>`}
    <p>The resolution allows ${limits.join(', ')}.</p>
    <p class="outcome">
      ${e4.range === null ? 'ASTM E4: no range within ±1 %' : `ASTM E4: within ±1 % from ${rangeText(e4.range, unit)}`}
    </p>
    ${e4.withheld.map((sentence) => html`<p>${sentence}</p>`)}
    <p>${e4.lowerLimit.working.substituted}.</p>
    ${remarks.map((remark) => html`<p class="note">${remark}</p>`)}`;
}

type Read = Extract<ReturnType<typeof readWorksheet>, { ok: true }>['read'];

function forcesTable(found: Verification, read: Read): Markup {
  const runs = Array.from({ length: found.runCount }, (_, run) => run);
  const head = [`F, ${found.unit}`, ...runs.map((run) => `run ${String(run + 1)}`), 'down', ...STEP_HEADS];
  const rows = found.steps.map((step, place) => {
    const worked = read.steps[place];
    return [
      step.appliedText,
      ...runs.map((run) => worked?.runs[run]?.indicated.text ?? ''),
      worked?.descending?.indicated.text ?? '–',
      ...stepFigures(step),
      step.e4.within ? 'within' : 'OUTSIDE',
    ];
  });
  return html`<table class="forces">
      <thead>
        <tr>
          ${head.map((title) => html`<th>${title}</th>`)}
        </tr>
      </thead>
      <tbody>
        ${rows.map(
          (row) =>
            html`<tr>
              ${row.map((cell) => html`<td>${cell}</td>`)}
            </tr>`,
        )}
      </tbody>
    </table>
    ${
      found.zero === null
        ? NOTHING
        : html`<p>
            Without force: ${read.zeros.map((zero) => zero.text).join(', ')} ${found.unit}; f0 =
            ${found.zero.text} %.
          </p>`
    }
    <p class="note">
      F force applied (mean of the runs); q indication error, b repeatability, v reversibility, a resolution,
      relative (ISO 7500-1); E error of the run furthest off, R spread of the runs (ASTM E4).
    </p>`;
}

function working(found: Verification): Markup {
  const lines = found.steps.flatMap((step) =>
    stepFindings(step).map((finding) => ({ of: `${step.appliedText} ${found.unit}`, finding })),
  );
  const all = found.zero === null ? lines : [...lines, { of: 'without force', finding: found.zero }];
  const sources = [...new Set(all.map(({ finding }) => finding.working.source))];
  return html`<table class="working">
      <tbody>
        ${all.map(({ of, finding }) => workingRow(of, finding))}
      </tbody>
    </table>
    ${sources.map((source) => html`<p class="note">${source}</p>`)}`;
}

const workingRow = (of: string, { working: its }: PercentFinding): Markup =>
  html`<tr>
    <td>${of}</td>
    <td>${its.substituted}</td>
    <td>${its.formula}</td>
  </tr>`;
