/** What the certificate says of a force-measuring system: class by ISO 7500-1, range within ASTM E4, forces, working. */
import { ISO_CLASSES } from '../../verification/class-limits.ts';
import { STEP_HEADS, stepFigures, stepFindings } from '../../verification/step-figures.ts';
import { type Verification, type VerifiedRange, verifyForce } from '../../verification/verify-force.ts';
import type { ReadWorksheet } from '../../verification/worksheet.ts';
import { type Markup, NOTHING, html } from './markup.ts';
import { type VerificationBody, readingsTable, workingTable, zerosLine } from './verification-body.ts';

export function forceVerificationBody(read: ReadWorksheet): VerificationBody {
  const found = verifyForce(read);
  return {
    facts: [{ label: 'resolution of the display', value: `${read.resolution.text} ${read.unit}` }],
    verdict: verdict(found),
    tableTitle: 'Forces',
    table: html`${table(found, read)}${zerosLine(
      'force',
      read.zeros,
      `${found.unit}${found.zero === null ? '' : `; f0 = ${found.zero.text} %`}.`,
    )}`,
    working: working(found),
    caution:
      'The limits of the classes of ISO 7500-1 are from memory; check them, and what ASTM E4 asks for, against your own copies. The standards and the local authority govern.',
  };
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

const table = (found: Verification, read: ReadWorksheet): Markup =>
  readingsTable({
    applied: `F, ${found.unit}`,
    runCount: found.runCount,
    figureHeads: STEP_HEADS,
    rows: found.steps.map((step, place) => ({
      appliedText: step.appliedText,
      read: read.steps[place],
      figures: [...stepFigures(step), step.e4.within ? 'within' : 'OUTSIDE'],
    })),
    note: 'F force applied (mean of the runs); q indication error, b repeatability, v reversibility, a resolution, relative (ISO 7500-1); E error of the run furthest off, R spread of the runs (ASTM E4).',
  });

const working = ({ steps, zero, unit }: Verification): Markup =>
  workingTable([
    ...steps.flatMap((step) =>
      stepFindings(step).map((finding) => ({ of: `${step.appliedText} ${unit}`, working: finding.working })),
    ),
    ...(zero === null ? [] : [{ of: 'without force', working: zero.working }]),
  ]);
