/** One specimen on paper: verdict first, then what was measured, what the curve says, where it broke, the record. */
import type { AxisInput } from '../../drawing/axis.ts';
import { curvePlot } from '../../drawing/curve-plot.ts';
import { svgText } from '../../drawing/svg-text.ts';
import type { PaperText, PaperWords } from '../../words/paper-words.ts';
import type {
  CurveContent,
  PhotoContent,
  ResultRow,
  SpecimenContent,
  VerdictContent,
} from '../certificate-content.ts';
import { axisEnds } from './axis-ends.ts';
import { factList, outcomeMark } from './fact-list.ts';
import { type Markup, NOTHING, html, ready, typed } from './markup.ts';
import { FONT_NAME } from './paper-style.ts';

/** A photo as it was kept. */
export interface PhotoBytes {
  readonly mediaType: string;
  readonly base64: string;
}

/** The narrower of the two papers between its margins. */
const CURVE_MM = { width: 172, height: 92 } as const;

export interface SectionOptions {
  /** Among the specimens of the page. */
  readonly place: number;
  readonly photos: ReadonlyMap<string, PhotoBytes>;
  readonly words: PaperWords;
}

export function specimenSection(specimen: SpecimenContent, { place, photos, words }: SectionOptions): Markup {
  const { text } = words;
  return html`<section class="specimen">
    <h2>${text('Specimen')} ${typed(specimen.name)}</h2>
    ${specimen.voided === null ? NOTHING : html`<p class="voided">${typed(specimen.voided)}</p>`}
    ${specimen.retestOf === null ? NOTHING : html`<p>${text('Retest of')} ${typed(specimen.retestOf)}</p>`}
    ${specimen.readings === null ? NOTHING : html`<p class="evidence">${specimen.readings.notice}</p>`}
    ${specimen.verdict === null ? NOTHING : verdict(specimen.verdict, specimen.readings?.mark ?? null, words)}
    <div class="pair">
      <div>
        <h3>${text('Dimensions')}</h3>
        ${factList(specimen.dimensions, words)}
      </div>
      <div>
        <h3>${text('Fracture')}</h3>
        ${factList(specimen.fracture, words)}
      </div>
    </div>
    ${specimen.results.length === 0 ? NOTHING : resultTable(specimen.results, words)}
    ${specimen.withheld.length === 0 ? NOTHING : withheld(specimen.withheld, words)}
    ${specimen.curve === null ? NOTHING : curvePicture(specimen.name, specimen.curve, place, words)}
    ${specimen.photos.map((photo) => photoFigure(photo, photos.get(photo.sha256), words))}
    ${
      specimen.speed.length === 0
        ? NOTHING
        : html`<h3>${text('Speed of testing')}</h3>
            ${specimen.speed.map((one) => html`<p>${one}</p>`)}`
    }
    ${
      specimen.equipment.length === 0
        ? NOTHING
        : html`<h3>${text('Equipment')}</h3>
            ${factList(specimen.equipment, words)}`
    }
    ${
      specimen.record.length === 0
        ? NOTHING
        : html`<h3>${text('Record')}</h3>
            ${factList(specimen.record, words)}`
    }
  </section> `;
}

function verdict(v: VerdictContent, beside: string | null, words: PaperWords): Markup {
  const { text, said } = words;
  const lists: readonly (readonly [PaperText, readonly string[]])[] = [
    ['Questionable', v.questionable],
    ['Missing', v.missing],
    ['Other readings of the rule', v.otherReadings],
    ['By other rules', v.otherPacks],
    ['Remarks', v.remarks],
  ];
  return html`${outcomeMark({ of: 'specimen', outcome: v.outcome, beside }, words)}
    <p>
      ${typed(v.sentence)}${v.clause === null ? '' : html` <span class="note">${typed(v.clause)}${v.clauseOrigin === null ? '' : `; ${v.clauseOrigin}`}</span>`}
    </p>
    ${v.outcome === v.outcomeOfRules ? NOTHING : html`<p>${text('The rules alone give: {1}.', said(v.outcomeOfRules))}</p>`}
    ${factList(v.comparisons, words)}
    ${
      v.decision.length === 0
        ? NOTHING
        : html`<h3>${text('Decision rule')}</h3>
            ${factList(v.decision, words)}`
    }
    ${lists.map(([title, sentences]) =>
      sentences.length === 0
        ? NOTHING
        : html`<h3>${text(title)}</h3>
            ${sentences.map((one) => html`<p>${typed(one)}</p>`)}`,
    )}`;
}

const RESULT_COLUMNS = [
  ['symbol', 'Symbol'],
  ['name', 'Result'],
  ['amount', 'Reported'],
  ['amount', 'SI'],
  ['amount', 'US customary'],
  ['amount', 'Expanded uncertainty'],
  ['factor', 'k'],
] as const satisfies readonly (readonly [string, PaperText])[];

function resultTable(rows: readonly ResultRow[], words: PaperWords): Markup {
  return html`<h3>${words.text('Results')}</h3>
    <table class="results">
      <thead>
        <tr>
          ${RESULT_COLUMNS.map(([kind, title]) => html`<th class="${kind}">${words.text(title)}</th>`)}
        </tr>
      </thead>
      ${rows.map((row) => resultBody(row, words))}
    </table>`;
}

/** A body of its own for each result, so that its remarks stay with it at the end of a page. */
function resultBody(row: ResultRow, { text }: PaperWords): Markup {
  const remarks = [
    ...(row.reported === null ? [] : [text('reported by {1}', row.reported.rule)]),
    ...row.remarks,
  ];
  const { uncertainty } = row;
  const cells = [row.reported?.text ?? '', row.si, row.us ?? ''];
  return html`<tbody>
    <tr>
      <td>${row.symbol}</td>
      <td>${row.name}</td>
      ${cells.map((cell) => html`<td class="amount">${cell}</td>`)}
      <td class="amount">
        ${uncertainty?.si ?? ''}${uncertainty === null || uncertainty.us === null ? '' : html`<br />${uncertainty.us}`}
      </td>
      <td class="factor">${uncertainty?.coverageFactor ?? ''}</td>
    </tr>
    ${
      remarks.length === 0
        ? NOTHING
        : html`<tr class="remarks">
            <td></td>
            <td colspan="6">${remarks.map(asSentence).join(' ')}</td>
          </tr>`
    }
  </tbody>`;
}

/** Some of what stands one after the other are sentences already, others are not. */
const asSentence = (text: string): string => (/[.!?]$/.test(text) ? text : `${text}.`);

function withheld(rows: SpecimenContent['withheld'], { text }: PaperWords): Markup {
  return html`<h3>${text('Withheld')}</h3>
    <table class="withheld">
      <tbody>
        ${rows.map(
          ({ symbol, name, reason }) =>
            html`<tr>
              <td>${symbol}</td>
              <td>${name}</td>
              <td>${reason}</td>
            </tr>`,
        )}
      </tbody>
    </table>`;
}

function curvePicture(name: string, curve: CurveContent, place: number, words: PaperWords): Markup {
  const { overTime } = curve;
  const own = onePicture(name, curve, `curve-${String(place)}-`, words);
  return overTime === null
    ? own
    : html`${own}${onePicture(words.text('{1} over time', name), overTime, `curve-${String(place)}-time-`, words)}`;
}

/** Words beside the maximum don't lie on the curve. */
const ROOM_ABOVE = 1.04;

function onePicture(name: string, curve: CurveContent, idPrefix: string, words: PaperWords): Markup {
  const drawing = curvePlot({
    widthMm: CURVE_MM.width,
    heightMm: CURVE_MM.height,
    title: words.text('Curve of {1}', name),
    x: axis(
      words,
      curve.xLabel,
      axisEnds(curve.x, [...curve.marks.map((mark) => mark.x), ...curve.lines.map((line) => line.x1)]),
    ),
    y: axis(
      words,
      curve.yLabel,
      axisEnds(
        curve.y,
        curve.marks.map((mark) => mark.y),
        ROOM_ABOVE,
      ),
    ),
    traces: [{ name, x: curve.x, y: curve.y, length: curve.x.length, gaps: curve.lifts }],
    lines: curve.lines,
    marks: curve.marks,
  });
  // What is drawn is described in English; in another language the words at the marks say it.
  const description =
    words.language === 'en' ? drawing.description : curve.marks.map((mark) => mark.words).join('; ');
  const svg = svgText(
    { ...drawing, description },
    {
      fontFamily: `'${FONT_NAME}', 'DejaVu Sans', Arial, sans-serif`,
      idPrefix,
    },
  );
  return html`<div class="curve">
    ${ready(svg)}${curve.note === null ? NOTHING : html`<p class="note">${curve.note}</p>`}
  </div>`;
}

/** "extension, mm" → title and unit, which the drawing puts together in English. */
function axis(words: PaperWords, label: string, range: ReturnType<typeof axisEnds>): AxisInput {
  const comma = label.lastIndexOf(', ');
  const [title, unit] = comma === -1 ? [label, '1'] : [label.slice(0, comma), label.slice(comma + 2)];
  return {
    ...(words.language === 'en' || unit === '1'
      ? { title, unit }
      : { title: words.text('{1} in {2}', title, unit === 'in' ? words.text('inches') : unit), unit: '' }),
    ...(range === undefined ? {} : { range }),
  };
}

/** Pictures that the printing page can show; anything else is named by its hash. */
const SHOWN: ReadonlySet<string> = new Set(['image/jpeg', 'image/png', 'image/webp']);

function photoFigure(
  { sha256, caption }: PhotoContent,
  bytes: PhotoBytes | undefined,
  { text }: PaperWords,
): Markup {
  const picture =
    bytes === undefined || !SHOWN.has(bytes.mediaType)
      ? html`<p class="note">${text('The photo itself could not be put on this page.')}</p>`
      : html`<img alt="${caption}" src="data:${bytes.mediaType};base64,${bytes.base64}" />`;
  return html`<figure class="photo">
    ${picture}
    <figcaption>${typed(caption)}<span class="note"> SHA-256 ${sha256}</span></figcaption>
  </figure>`;
}
