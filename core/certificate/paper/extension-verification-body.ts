/** What the certificate says of an extensometer: classes by ISO 9513 and ASTM E83, displacements, working. */
import { EXTENSION_HEADS, extensionFigures } from '../../verification/extension-figures.ts';
import type { ReadExtensionWorksheet } from '../../verification/extension-worksheet.ts';
import {
  type ExtensionVerdict,
  type ExtensionVerification,
  extensionWorkings,
  verifyExtension,
} from '../../verification/verify-extension.ts';
import { type Markup, NOTHING, html } from './markup.ts';
import { type VerificationBody, readingsTable, workingTable, zerosLine } from './verification-body.ts';

export function extensionVerificationBody(read: ReadExtensionWorksheet): VerificationBody {
  const found = verifyExtension(read);
  const { unit, resolution, gaugeLength, measuredGaugeLength } = read;
  const gauge = found.gaugeLength === null ? [] : ['the gauge length'];
  return {
    facts: [
      { label: 'gauge length, nominal', value: `${gaugeLength.text} ${unit}` },
      {
        label: 'gauge length, measured',
        value: measuredGaugeLength === null ? 'not measured' : `${measuredGaugeLength.text} ${unit}`,
      },
      { label: 'resolution', value: `${resolution.text} ${unit}` },
    ],
    verdict: html`${standing('ISO 9513', found.iso, ['the resolution', ...gauge])}${standing('ASTM E83', found.e83, gauge)}
    ${found.gaugeLength === null ? NOTHING : html`<p>Error of the gauge length: ${found.gaugeLength.percent.toFixed(3)} %.</p>`}
    ${found.remarks.map((remark) => html`<p class="note">${remark}</p>`)}`,
    tableTitle: 'Displacements',
    table: html`${table(found, read)}${zerosLine('displacement', read.zeros, `${unit}.`)}`,
    working: workingTable(extensionWorkings(found)),
    // That the limits are from memory stands with the remarks already.
    caution: 'The standards and the local authority govern.',
  };
}

/** Made when it is written: the first of its kind has a process load all that the engine knows of languages, 50 ms. */
const listed = (names: readonly string[]): string => new Intl.ListFormat('en-GB').format(names);

const standing = (
  standard: string,
  { class: held, withheld }: ExtensionVerdict<string>,
  beside: readonly string[],
): Markup =>
  html`<p class="outcome">${held === null ? `${standard}: no class stated` : `${standard}: class ${held}`}</p>
    <p>
      ${held === null ? withheld.join(' ') : `By the worst of ${listed(['all displacements', ...beside])}.`}
    </p>`;

const table = (found: ExtensionVerification, read: ReadExtensionWorksheet): Markup =>
  readingsTable({
    applied: `lt, ${found.unit}`,
    runCount: found.runCount,
    figureHeads: EXTENSION_HEADS,
    rows: found.steps.map((step, place) => ({
      appliedText: step.appliedText,
      read: read.steps[place],
      figures: extensionFigures(step),
    })),
    note: 'lt displacement applied, shown as mean of the runs; q bias of the run that is furthest off, as share of the lt of that run and absolute (ISO 9513); its share of the gauge length (ASTM E83); a resolution, as share of the lt of that run too.',
  });
