/** What the certificate says of a force-measuring system: class by ISO 7500-1, range within ASTM E4, forces, working. */
import { ISO_CLASSES } from '../../verification/class-limits.ts';
import { STEP_HEADS, stepFigures, stepFindings } from '../../verification/step-figures.ts';
import { type Verification, type VerifiedRange, verifyForce } from '../../verification/verify-force.ts';
import type { ReadWorksheet } from '../../verification/worksheet.ts';
import type { PaperWords } from '../../words/paper-words.ts';
import { type Markup, NOTHING, html } from './markup.ts';
import {
  type VerificationBody,
  readingsTable,
  stepRows,
  workingTable,
  zerosLine,
} from './verification-body.ts';

export function forceVerificationBody(read: ReadWorksheet, words: PaperWords): VerificationBody {
  const { text } = words;
  const found = verifyForce(read);
  return {
    facts: [{ label: text('resolution of the display'), value: `${read.resolution.text} ${read.unit}` }],
    verdict: verdict(found, words),
    tableTitle: text('Forces'),
    table: html`${table(found, read, words)}${zerosLine(
      'force',
      read.zeros,
      `${found.unit}${found.zero === null ? '' : `; f0 = ${found.zero.text} %`}.`,
      words,
    )}`,
    working: working(found, words),
    caution: text(
      'The limits of the classes of ISO 7500-1 are from memory; check them, and what ASTM E4 asks for, against your own copies. The standards and the local authority govern.',
    ),
  };
}

const rangeText = ({ fromText, toText }: VerifiedRange, unit: string, { text }: PaperWords): string =>
  `${text('{1} to {2}', fromText, toText)} ${unit}`;

function verdict({ iso, e4, unit, remarks }: Verification, words: PaperWords): Markup {
  const { text, said } = words;
  const ranges = ISO_CLASSES.flatMap((one) => {
    const range = iso.ranges[one];
    return range === null ? [] : [text('class {1}: {2}', one, rangeText(range, unit, words))];
  });
  const limits = ISO_CLASSES.map((one) =>
    text('class {1} from {2}', one, `${iso.lowerLimits[one].text} ${unit}`),
  );
  return html`<p class="outcome">
      ${iso.class === null ? text('{1}: no class stated', 'ISO 7500-1') : text('{1}: class {2}', 'ISO 7500-1', iso.class)}
    </p>
    ${iso.withheld.map((sentence) => html`<p>${said(sentence)}</p>`)}
    ${ranges.length === 0 ? NOTHING : html`<p>${text('Every force holds the limits of {1}.', ranges.join('; '))}</p>`}
    <p>${text('The resolution allows {1}.', limits.join(', '))}</p>
    <p class="outcome">
      ${e4.range === null ? text('ASTM E4: no range within ±1 %') : text('ASTM E4: within ±1 % from {1}', rangeText(e4.range, unit, words))}
    </p>
    ${e4.withheld.map((sentence) => html`<p>${said(sentence)}</p>`)}
    <p>${said(e4.lowerLimit.working.substituted)}.</p>
    ${remarks.map((remark) => html`<p class="note">${said(remark)}</p>`)}`;
}

const table = (found: Verification, read: ReadWorksheet, words: PaperWords): Markup =>
  readingsTable(
    {
      applied: `F, ${found.unit}`,
      runCount: found.runCount,
      figureHeads: STEP_HEADS.map(words.said),
      rows: stepRows(found.steps, read.steps, (step) => [
        ...stepFigures(step).map(words.said),
        words.text(step.e4.within ? 'within' : 'OUTSIDE'),
      ]),
      note: words.text(
        'F force applied (mean of the runs); q indication error, b repeatability, v reversibility, a resolution, relative (ISO 7500-1); E error of the run furthest off, R spread of the runs (ASTM E4).',
      ),
    },
    words,
  );

const working = ({ steps, zero, unit }: Verification, words: PaperWords): Markup =>
  workingTable(
    [
      ...steps.flatMap((step) =>
        stepFindings(step).map((finding) => ({
          of: `${step.appliedText} ${unit}`,
          working: finding.working,
        })),
      ),
      ...(zero === null ? [] : [{ of: 'without force', working: zero.working }]),
    ],
    words,
  );
