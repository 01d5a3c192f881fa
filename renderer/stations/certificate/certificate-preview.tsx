/** What the certificate says, from the same content that the paper is made of. */
import {
  type CertificateContent,
  type Fact,
  type SpecimenContent,
  languageOf,
} from '../../../core/certificate/certificate-content.ts';
import type { PaperLanguage } from '../../../core/words/paper-words.ts';
import { SymbolText } from '../../design/symbol-text.tsx';
import { TableScroll } from '../../design/table-scroll.tsx';
import { signatureText } from '../../trail/signature-text.ts';
import { en } from '../../words/en.ts';
import { es } from '../../words/es.ts';
import { words } from '../../words/words.ts';
import { OutcomeWord } from '../set/outcome-word.tsx';
import '../../design/readings-mark.css';
import '../set/verdict-block.css';

/** What the paper writes in words of the page. */
const SAID = { en, es } as const;

export function CertificatePreview({ content }: { readonly content: CertificateContent }) {
  const text = words.value.set.certificate;
  // Of what the paper says; heads, tables and signatures here are told in the language of the page.
  const lang = languageOf(content);
  const said = SAID[lang];
  return (
    <section class="preview" aria-label={text.preview}>
      <h2>{text.preview}</h2>
      <p>
        <strong>
          <bdi>{content.laboratory.name}</bdi>
        </strong>
        {content.laboratory.lines.map((line) => (
          <span key={line} class="pencil">
            {' '}
            · <bdi>{line}</bdi>
          </span>
        ))}
      </p>
      {content.notices.map((notice) => (
        <p class="readings-notice" lang={lang} key={notice}>
          {notice}
        </p>
      ))}
      {content.setVerdict === null ? null : (
        <>
          <p lang={lang}>
            <OutcomeWord outcome={content.setVerdict.outcome} large ofSet said={said} />
            {content.noticeMark === null ? null : <strong class="readings-mark">{content.noticeMark}</strong>}
          </p>
          <p class="verdict-sentence" lang={lang}>
            <bdi>{content.setVerdict.sentence}</bdi>
          </p>
        </>
      )}
      <Facts facts={content.set.length === 0 ? content.rules : content.set} lang={lang} />
      {content.specimens.map((specimen) => (
        <Specimen key={specimen.name} specimen={specimen} lang={lang} />
      ))}
      <h3>{text.deviations}</h3>
      {content.deviations.length === 0 ? (
        <p class="pencil">{text.noDeviations}</p>
      ) : (
        <ul class="verdict-list" lang={lang}>
          {content.deviations.map((deviation) => (
            <li key={deviation}>
              <bdi>{deviation}</bdi>
            </li>
          ))}
        </ul>
      )}
      {content.signatures.length === 0 ? null : (
        <>
          <h3>{text.signatures}</h3>
          <ul class="verdict-list" id="signatures-shown">
            {content.signatures.map((one) => (
              <li key={`${one.meaning} ${one.printedName} ${one.at}`}>
                <bdi>{signatureText(one)}</bdi>
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

function Specimen({ specimen, lang }: { readonly specimen: SpecimenContent; readonly lang: PaperLanguage }) {
  const text = words.value.set.certificate;
  const said = SAID[lang];
  return (
    <article class="preview-specimen">
      <h3 lang={lang}>
        <bdi>{specimen.name}</bdi>{' '}
        {specimen.verdict === null ? (
          <span class="pencil">{said.set.notJudged}</span>
        ) : (
          <OutcomeWord outcome={specimen.verdict.outcome} said={said} />
        )}
        {specimen.readings === null ? null : <strong class="readings-mark">{specimen.readings.mark}</strong>}
      </h3>
      {specimen.voided === null ? null : (
        <p lang={lang}>
          <bdi>{specimen.voided}</bdi>
        </p>
      )}
      {specimen.retestOf === null ? null : (
        <p class="pencil" lang={lang}>
          <bdi>{specimen.retestOf}</bdi>
        </p>
      )}
      {specimen.verdict === null ? null : (
        <p lang={lang}>
          <bdi>{specimen.verdict.sentence}</bdi>
        </p>
      )}
      {specimen.results.length === 0 ? null : (
        <TableScroll label={words.value.copy.resultsOf(specimen.name)}>
          <table class="checks-table">
            <thead>
              <tr>
                <th scope="col">{text.symbol}</th>
                <th scope="col">{text.reported}</th>
                <th scope="col">{text.si}</th>
                <th scope="col">{text.us}</th>
              </tr>
            </thead>
            <tbody>
              {specimen.results.map((row) => (
                <tr key={row.symbol}>
                  <th scope="row" lang={lang}>
                    <SymbolText text={row.symbol} /> <span class="pencil">{row.name}</span>
                  </th>
                  <td class="number">{row.reported?.text ?? words.value.common.none}</td>
                  <td class="number">{row.si}</td>
                  <td class="number">{row.us ?? words.value.common.none}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </TableScroll>
      )}
      <Facts facts={specimen.fracture} lang={lang} />
      <p class="pencil small">{specimen.curve === null ? text.noCurve : text.curve}</p>
    </article>
  );
}

function Facts({ facts, lang }: { readonly facts: readonly Fact[]; readonly lang: PaperLanguage }) {
  return (
    <dl class="facts" lang={lang}>
      {facts.map(({ label, value }) => (
        <>
          <dt key={label}>
            <bdi>{label}</bdi>
          </dt>
          <dd>
            <bdi>{value}</bdi>
          </dd>
        </>
      ))}
    </dl>
  );
}
