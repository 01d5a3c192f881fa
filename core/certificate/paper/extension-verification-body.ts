/** What the certificate says of an extensometer: classes by ISO 9513 and ASTM E83, displacements, working. */
import { EXTENSION_HEADS, extensionFigures } from '../../verification/extension-figures.ts';
import type { ReadExtensionWorksheet } from '../../verification/extension-worksheet.ts';
import {
  type ExtensionVerdict,
  type ExtensionVerification,
  extensionWorkings,
  verifyExtension,
} from '../../verification/verify-extension.ts';
import type { PaperText, PaperWords } from '../../words/paper-words.ts';
import { type Markup, NOTHING, html } from './markup.ts';
import {
  type VerificationBody,
  readingsTable,
  stepRows,
  workingTable,
  zerosLine,
} from './verification-body.ts';

export function extensionVerificationBody(read: ReadExtensionWorksheet, words: PaperWords): VerificationBody {
  const { text, said } = words;
  const found = verifyExtension(read);
  const { unit, resolution, gaugeLength, measuredGaugeLength } = read;
  const gauge: readonly PaperText[] = found.gaugeLength === null ? [] : ['the gauge length'];
  return {
    facts: [
      { label: text('gauge length, nominal'), value: `${gaugeLength.text} ${unit}` },
      {
        label: text('gauge length, measured'),
        value: measuredGaugeLength === null ? text('not measured') : `${measuredGaugeLength.text} ${unit}`,
      },
      { label: text('resolution'), value: `${resolution.text} ${unit}` },
    ],
    verdict: html`${standing('ISO 9513', found.iso, ['the resolution', ...gauge], words)}${standing('ASTM E83', found.e83, gauge, words)}
    ${found.gaugeLength === null ? NOTHING : html`<p>${text('Error of the gauge length: {1} %.', found.gaugeLength.percent.toFixed(3))}</p>`}
    ${found.remarks.map((remark) => html`<p class="note">${said(remark)}</p>`)}`,
    tableTitle: text('Displacements'),
    table: html`${table(found, read, words)}${zerosLine('displacement', read.zeros, `${unit}.`, words)}`,
    working: workingTable(extensionWorkings(found), words),
    // That the limits are from memory stands with the remarks already.
    caution: text('The standards and the local authority govern.'),
  };
}

/** Made when it is written: the first of its kind has a process load all that the engine knows of languages, 50 ms. */
const listed = (names: readonly string[], { language }: PaperWords): string =>
  new Intl.ListFormat(language === 'en' ? 'en-GB' : language).format(names);

const standing = (
  standard: string,
  { class: held, withheld }: ExtensionVerdict<string>,
  beside: readonly PaperText[],
  words: PaperWords,
): Markup =>
  html`<p class="outcome">
      ${held === null ? words.text('{1}: no class stated', standard) : words.text('{1}: class {2}', standard, held)}
    </p>
    <p>
      ${
        held === null
          ? withheld.map(words.said).join(' ')
          : words.text(
              'By the worst of {1}.',
              listed(
                (['all displacements', ...beside] as const).map((one) => words.text(one)),
                words,
              ),
            )
      }
    </p>`;

const table = (found: ExtensionVerification, read: ReadExtensionWorksheet, words: PaperWords): Markup =>
  readingsTable(
    {
      applied: `lt, ${found.unit}`,
      runCount: found.runCount,
      figureHeads: EXTENSION_HEADS.map(words.said),
      rows: stepRows(found.steps, read.steps, (step) => extensionFigures(step).map(words.said)),
      note: words.text(
        'lt displacement applied, shown as mean of the runs; q bias of the run that is furthest off, as share of the lt of that run and absolute (ISO 9513); its share of the gauge length (ASTM E83); a resolution, as share of the lt of that run too.',
      ),
    },
    words,
  );
