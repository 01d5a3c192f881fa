/** How a certificate looks on paper: black ink, rules, room for signatures; readable in grey. Sizes in mm and pt. */

export const PAPERS = ['A4', 'Letter'] as const;
export type Paper = (typeof PAPERS)[number];

export const PAPER_MM: Readonly<Record<Paper, { readonly width: number; readonly height: number }>> = {
  A4: { width: 210, height: 297 },
  Letter: { width: 215.9, height: 279.4 },
};

/** Head and foot of each page stand in these. */
export const MARGIN_MM = { top: 18, right: 16, bottom: 20, left: 20 } as const;

/** What a page is printed on. */
export interface Sheet {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marginMm: {
    readonly top: number;
    readonly right: number;
    readonly bottom: number;
    readonly left: number;
  };
}

export function sheetOf(paper: Paper): Sheet {
  const { width, height } = PAPER_MM[paper];
  return { widthMm: width, heightMm: height, marginMm: MARGIN_MM };
}

export interface EmbeddedFont {
  readonly weight: 400 | 700;
  /** WOFF2, base64. */
  readonly base64: string;
  /** As CSS writes it, "U+0000-00FF"; absent: all that the font has. */
  readonly unicodeRange?: string;
}

export const FONT_NAME = 'Certificate Text';

export function paperStyle(paper: Paper, fonts: readonly EmbeddedFont[]): string {
  const { width, height } = PAPER_MM[paper];
  const { top, right, bottom, left } = MARGIN_MM;
  return `${fontFaces(fonts, FONT_NAME)}
@page { size: ${String(width)}mm ${String(height)}mm; margin: ${String(top)}mm ${String(right)}mm ${String(bottom)}mm ${String(left)}mm; }
* { box-sizing: border-box; }
body { margin: 0; font: 9.5pt/1.35 '${FONT_NAME}', 'DejaVu Sans', Arial, sans-serif; color: #15191c; font-variant-numeric: tabular-nums; }
h1 { font-size: 19pt; line-height: 1.15; margin: 0 0 1mm; }
h2 { font-size: 12.5pt; margin: 7mm 0 2mm; padding-top: 2mm; border-top: 0.6mm solid #15191c; break-after: avoid; overflow-wrap: anywhere; }
h3 { font-size: 10pt; margin: 4mm 0 1mm; break-after: avoid; }
p { margin: 0 0 1.5mm; overflow-wrap: anywhere; }
.top { display: grid; grid-template-columns: 1fr auto; gap: 8mm; margin-bottom: 4mm; }
.top .laboratory { text-align: right; max-width: 80mm; overflow-wrap: anywhere; }
.number { font-size: 11pt; font-weight: 700; }
dl { display: grid; grid-template-columns: 42mm 1fr; gap: 0.6mm 4mm; margin: 0; }
.pair { display: grid; grid-template-columns: 1fr 1fr; gap: 0 8mm; }
.pair dl { grid-template-columns: 30mm 1fr; align-content: start; }
dt { color: #495158; }
dd { margin: 0; overflow-wrap: anywhere; white-space: pre-wrap; }
table { width: 100%; border-collapse: collapse; }
thead { display: table-header-group; }
tr, dt, dd, li { break-inside: avoid; }
th { text-align: left; font-weight: 700; border-bottom: 0.35mm solid #15191c; padding: 0.8mm 2mm 0.8mm 0; vertical-align: bottom; }
td { border-bottom: 0.12mm solid #9aa29b; padding: 0.8mm 2mm 0.8mm 0; vertical-align: top; overflow-wrap: anywhere; }
.amount { text-align: right; }
.results, .withheld { table-layout: fixed; }
.results .symbol { width: 14mm; }
.results .name { width: 43mm; }
.results .amount { width: 27mm; }
.results td.amount { white-space: nowrap; }
.results .factor { text-align: right; padding-right: 0; }
.results tbody { break-inside: avoid; border-bottom: 0.12mm solid #9aa29b; }
.results td { border-bottom: 0; }
.results .remarks td { color: #495158; font-size: 8.5pt; padding-top: 0; }
.withheld td:nth-child(1) { width: 14mm; }
.withheld td:nth-child(2) { width: 50mm; }
.outcome { font-size: 13pt; font-weight: 700; border: 0.5mm solid #15191c; padding: 1.5mm 3mm; display: inline-block; margin: 0 0 2mm; }
.outcome[data-outcome='reject'] { border-width: 1.2mm; }
.outcome[data-outcome='undecided'] { border-style: dashed; }
.evidence, .outcome, .voided { break-after: avoid; }
.evidence { font-weight: 700; border: 0.5mm solid #15191c; padding: 1mm 3mm; margin: 0 0 2.5mm; }
.curve { break-inside: avoid; margin: 3mm 0 0; }
.curve svg { display: block; max-width: 100%; height: auto; }
.note, .voided { color: #495158; font-size: 8.5pt; }
.voided { border: 0.35mm dashed #15191c; padding: 1mm 2mm; color: #15191c; font-size: 9.5pt; font-weight: 700; }
.photo { break-inside: avoid; margin: 3mm 0 0; }
.photo img { max-width: 100%; max-height: 75mm; display: block; }
.deviations li { overflow-wrap: anywhere; }
.signatures, .by-hand { display: grid; grid-template-columns: 1fr 1fr; gap: 6mm 10mm; break-inside: avoid; }
.signatures > div, .by-hand > div { border-top: 0.35mm solid #15191c; padding-top: 1mm; margin-top: 12mm; overflow-wrap: anywhere; }
.together { break-inside: avoid; }
.cautions { font-size: 8.5pt; margin-top: 6mm; break-inside: avoid; }
.end { text-align: center; font-weight: 700; margin-top: 6mm; letter-spacing: 0.04em; }`;
}

export const fontFaces = (fonts: readonly EmbeddedFont[], name: string): string =>
  fonts.map((font) => face(font, name)).join('\n');

const face = ({ weight, base64, unicodeRange }: EmbeddedFont, name: string): string =>
  `@font-face { font-family: '${name}'; font-weight: ${String(weight)}; src: url(data:font/woff2;base64,${base64}) format('woff2');${unicodeRange === undefined ? '' : ` unicode-range: ${unicodeRange};`} }`;
