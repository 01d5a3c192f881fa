/** The certificate as one HTML page for printing: everything it shows stands in the content, everything it needs in it. */
import { ENGLISH_PAPER, type PaperWords } from '../../words/paper-words.ts';
import { type CertificateContent, type SignatureContent, languageOf } from '../certificate-content.ts';
import { factList, outcomeMark } from './fact-list.ts';
import { momentOnPaper } from './moment-on-paper.ts';
import { type Markup, NOTHING, html, ready, typed } from './markup.ts';
import { CONTENT_POLICY, type PaperOptions } from './paper-options.ts';
import { paperStyle } from './paper-style.ts';
import { type PhotoBytes, specimenSection } from './specimen-section.ts';

export interface PageOptions extends PaperOptions {
  /** By SHA-256 as the content names it; one that is missing is said to be. */
  readonly photos?: ReadonlyMap<string, PhotoBytes>;
}

/** Photos stand in the page itself. */
const POLICY = `${CONTENT_POLICY}; img-src data:`;

/** A whole HTML document. Throws a RangeError where the words are not those of the content's language. */
export function certificatePage(content: CertificateContent, options: PageOptions): string {
  const { words = ENGLISH_PAPER } = options;
  const language = languageOf(content);
  if (words.language !== language)
    throw new RangeError(`the content is in ${language}, the words of the page in ${words.language}`);
  const { text } = words;
  const page = html`<!doctype html>
    <html lang="${language}">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content="${POLICY}" />
        <title>${`${content.title} ${content.number}`}</title>
        <style>
          ${ready(paperStyle(options.paper, options.fonts))}
        </style>
      </head>
      <body>
        <header class="top">
          <div>
            <h1>${content.title}</h1>
            <p class="number">${typed(content.number)}</p>
          </div>
          <div class="laboratory">
            <strong>${typed(content.laboratory.name)}</strong
            >${content.laboratory.lines.map((line) => html`<br />${typed(line)}`)}
          </div>
        </header>
        ${content.notices.map((notice) => html`<p class="evidence">${typed(notice)}</p>`)}
        ${factList(content.issue, words)}
        ${content.setVerdict === null ? NOTHING : setVerdict(content.setVerdict, content.noticeMark, words)}
        ${
          content.set.length === 0
            ? NOTHING
            : html`<h2>${text(content.kind === 'set' ? 'The set' : 'Purpose and material')}</h2>
                ${factList(content.set, words)}`
        }
        <h2>${text('Rules')}</h2>
        ${factList(content.rules, words)}
        ${content.specimens.map((specimen, place) => specimenSection(specimen, { place, photos: options.photos ?? new Map<string, PhotoBytes>(), words }))}
        ${content.deviations.length === 0 ? NOTHING : deviations(content.deviations, words)}
        ${content.signatures.length === 0 ? signedByHand(words) : signatures(content.signatures, words)}
        <section class="cautions">${content.cautions.map((caution) => html`<p>${caution}</p>`)}</section>
        <p class="end">${content.endMark}</p>
      </body>
    </html> `;
  return page.html;
}

function setVerdict(
  { outcome, sentence, remarks }: NonNullable<CertificateContent['setVerdict']>,
  beside: string | null,
  words: PaperWords,
): Markup {
  return html`<section>
    <h2>${words.text('Verdict on the set')}</h2>
    ${outcomeMark({ of: 'set', outcome, beside }, words)}
    <p>${typed(sentence)}</p>
    ${remarks.map((remark) => html`<p class="note">${typed(remark)}</p>`)}
  </section>`;
}

function deviations(sentences: readonly string[], { text }: PaperWords): Markup {
  return html`<section>
    <h2>${text('Deviations')}</h2>
    <ul class="deviations">
      ${sentences.map((one) => html`<li>${typed(one)}</li>`)}
    </ul>
  </section>`;
}

/** Room for ink; such a signature is on this sheet only. */
function signedByHand({ text }: PaperWords): Markup {
  return html`<section class="together">
    <h2>${text('Signatures')}</h2>
    <p class="note">
      ${text('No signature is kept under this certificate. What is signed here by hand, with printed name, date and time, stands on this sheet only.')}
    </p>
    <div class="by-hand">
      ${BY_HAND.map((meaning) => html`<div>${text('{1}: printed name, date, time, signature', text(meaning))}</div>`)}
    </div>
  </section>`;
}

const BY_HAND = ['tested by', 'approved by'] as const;

function signatures(all: readonly SignatureContent[], { text, said }: PaperWords): Markup {
  return html`<section>
    <h2>${text('Signatures')}</h2>
    <div class="signatures">
      ${all.map(
        ({ printedName, at, meaning, byPin, contentSha256 }) =>
          html`<div>
            <strong>${typed(printedName)}</strong><br />${said(meaning)}<br />${momentOnPaper(at)}
            <p class="note">
              ${text(byPin === true ? 'signed with a PIN' : 'signed by name')}${contentSha256 === undefined ? '' : `; ${text('content SHA-256 {1}', contentSha256)}`}
            </p>
          </div>`,
      )}
    </div>
  </section>`;
}
