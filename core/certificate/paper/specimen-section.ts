/** One specimen on paper: verdict first, then what was measured, what the curve says, where it broke, the record. */
import type { AxisInput } from '../../drawing/axis.ts';
import { curvePlot } from '../../drawing/curve-plot.ts';
import { svgText } from '../../drawing/svg-text.ts';
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

export function specimenSection(
  specimen: SpecimenContent,
  place: number,
  photos: ReadonlyMap<string, PhotoBytes>,
): Markup {
  return html`<section class="specimen">
    <h2>Specimen ${typed(specimen.name)}</h2>
    ${specimen.voided === null ? NOTHING : html`<p class="voided">${typed(specimen.voided)}</p>`}
    ${specimen.retestOf === null ? NOTHING : html`<p>Retest of ${typed(specimen.retestOf)}</p>`}
    ${specimen.readings === null ? NOTHING : html`<p class="evidence">${specimen.readings.notice}</p>`}
    ${specimen.verdict === null ? NOTHING : verdict(specimen.verdict, specimen.readings?.mark ?? null)}
    <div class="pair">
      <div>
        <h3>Dimensions</h3>
        ${factList(specimen.dimensions)}
      </div>
      <div>
        <h3>Fracture</h3>
        ${factList(specimen.fracture)}
      </div>
    </div>
    ${specimen.results.length === 0 ? NOTHING : resultTable(specimen.results)}
    ${specimen.withheld.length === 0 ? NOTHING : withheld(specimen.withheld)}
    ${specimen.curve === null ? NOTHING : curvePicture(specimen.name, specimen.curve, place)}
    ${specimen.photos.map((photo) => photoFigure(photo, photos.get(photo.sha256)))}
    ${
      specimen.speed.length === 0
        ? NOTHING
        : html`<h3>Speed of testing</h3>
            ${specimen.speed.map((one) => html`<p>${one}</p>`)}`
    }
    ${
      specimen.equipment.length === 0
        ? NOTHING
        : html`<h3>Equipment</h3>
            ${factList(specimen.equipment)}`
    }
    ${
      specimen.record.length === 0
        ? NOTHING
        : html`<h3>Record</h3>
            ${factList(specimen.record)}`
    }
  </section> `;
}

function verdict(v: VerdictContent, beside: string | null): Markup {
  const lists: readonly (readonly [string, readonly string[]])[] = [
    ['Questionable', v.questionable],
    ['Missing', v.missing],
    ['Other readings of the rule', v.otherReadings],
    ['By other rules', v.otherPacks],
    ['Remarks', v.remarks],
  ];
  return html`${outcomeMark(v.outcome, beside)}
    <p>
      ${typed(v.sentence)}${v.clause === null ? '' : html` <span class="note">${typed(v.clause)}${v.clauseOrigin === null ? '' : `; ${v.clauseOrigin}`}</span>`}
    </p>
    ${v.outcome === v.outcomeOfRules ? NOTHING : html`<p>The rules alone give: ${v.outcomeOfRules}.</p>`}
    ${factList(v.comparisons)}
    ${
      v.decision.length === 0
        ? NOTHING
        : html`<h3>Decision rule</h3>
            ${factList(v.decision)}`
    }
    ${lists.map(([title, sentences]) =>
      sentences.length === 0
        ? NOTHING
        : html`<h3>${title}</h3>
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
] as const;

function resultTable(rows: readonly ResultRow[]): Markup {
  return html`<h3>Results</h3>
    <table class="results">
      <thead>
        <tr>
          ${RESULT_COLUMNS.map(([kind, title]) => html`<th class="${kind}">${title}</th>`)}
        </tr>
      </thead>
      ${rows.map(resultBody)}
    </table>`;
}

/** A body of its own for each result, so that its remarks stay with it at the end of a page. */
function resultBody(row: ResultRow): Markup {
  const remarks = [...(row.reported === null ? [] : [`reported by ${row.reported.rule}`]), ...row.remarks];
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

function withheld(rows: SpecimenContent['withheld']): Markup {
  return html`<h3>Withheld</h3>
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

function curvePicture(name: string, curve: CurveContent, place: number): Markup {
  return html`${onePicture(name, curve, `curve-${String(place)}-`)}${curve.overTime === null ? NOTHING : onePicture(`${name} over time`, curve.overTime, `curve-${String(place)}-time-`)}`;
}

/** Words beside the maximum don't lie on the curve. */
const ROOM_ABOVE = 1.04;

function onePicture(name: string, curve: CurveContent, idPrefix: string): Markup {
  const drawing = curvePlot({
    widthMm: CURVE_MM.width,
    heightMm: CURVE_MM.height,
    title: `Curve of ${name}`,
    x: axis(
      curve.xLabel,
      axisEnds(curve.x, [...curve.marks.map((mark) => mark.x), ...curve.lines.map((line) => line.x1)]),
    ),
    y: axis(
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
  const svg = svgText(drawing, {
    fontFamily: `'${FONT_NAME}', 'DejaVu Sans', Arial, sans-serif`,
    idPrefix,
  });
  return html`<div class="curve">
    ${ready(svg)}${curve.note === null ? NOTHING : html`<p class="note">${curve.note}</p>`}
  </div>`;
}

/** "extension, mm" → title and unit. */
function axis(label: string, range: ReturnType<typeof axisEnds>): AxisInput {
  const comma = label.lastIndexOf(', ');
  return {
    ...(comma === -1
      ? { title: label, unit: '1' }
      : { title: label.slice(0, comma), unit: label.slice(comma + 2) }),
    ...(range === undefined ? {} : { range }),
  };
}

/** Pictures that the printing page can show; anything else is named by its hash. */
const SHOWN: ReadonlySet<string> = new Set(['image/jpeg', 'image/png', 'image/webp']);

function photoFigure({ sha256, caption }: PhotoContent, bytes: PhotoBytes | undefined): Markup {
  const picture =
    bytes === undefined || !SHOWN.has(bytes.mediaType)
      ? html`<p class="note">The photo itself could not be put on this page.</p>`
      : html`<img alt="${caption}" src="data:${bytes.mediaType};base64,${bytes.base64}" />`;
  return html`<figure class="photo">
    ${picture}
    <figcaption>${typed(caption)}<span class="note"> SHA-256 ${sha256}</span></figcaption>
  </figure>`;
}
