/** What the certificate says, from the same content that the paper is made of. */
import type {
  CertificateContent,
  Fact,
  SpecimenContent,
} from '../../../core/certificate/certificate-content.ts';
import { SymbolText } from '../../design/symbol-text.tsx';
import { words } from '../../words/words.ts';
import { OutcomeWord } from '../set/outcome-word.tsx';
import '../../design/readings-mark.css';
import '../set/verdict-block.css';

export function CertificatePreview({ content }: { readonly content: CertificateContent }) {
  const text = words.value.set.certificate;
  return (
    <section class="preview" aria-label={text.preview}>
      <h2>{text.preview}</h2>
      <p>
        <strong>{content.laboratory.name}</strong>
        {content.laboratory.lines.map((line) => (
          <span key={line} class="pencil">
            {' '}
            · {line}
          </span>
        ))}
      </p>
      {content.notices.map((notice) => (
        <p class="readings-notice" key={notice}>
          {notice}
        </p>
      ))}
      {content.setVerdict === null ? null : (
        <>
          <p>
            <OutcomeWord outcome={content.setVerdict.outcome} large />
            {content.noticeMark === null ? null : <strong class="readings-mark">{content.noticeMark}</strong>}
          </p>
          <p class="verdict-sentence">{content.setVerdict.sentence}</p>
        </>
      )}
      <Facts facts={content.set} />
      {content.specimens.map((specimen) => (
        <Specimen key={specimen.name} specimen={specimen} />
      ))}
      <h3>{text.deviations}</h3>
      {content.deviations.length === 0 ? (
        <p class="pencil">{text.noDeviations}</p>
      ) : (
        <ul class="verdict-list">
          {content.deviations.map((deviation) => (
            <li key={deviation}>{deviation}</li>
          ))}
        </ul>
      )}
    </section>
  );
}

function Specimen({ specimen }: { readonly specimen: SpecimenContent }) {
  const text = words.value.set.certificate;
  return (
    <article class="preview-specimen">
      <h3>
        {specimen.name}{' '}
        {specimen.verdict === null ? (
          <span class="pencil">{words.value.set.notJudged}</span>
        ) : (
          <OutcomeWord outcome={specimen.verdict.outcome} />
        )}
        {specimen.readings === null ? null : <strong class="readings-mark">{specimen.readings.mark}</strong>}
      </h3>
      {specimen.voided === null ? null : <p>{specimen.voided}</p>}
      {specimen.retestOf === null ? null : <p class="pencil">{specimen.retestOf}</p>}
      {specimen.verdict === null ? null : <p>{specimen.verdict.sentence}</p>}
      {specimen.results.length === 0 ? null : (
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
                <th scope="row">
                  <SymbolText text={row.symbol} /> <span class="pencil">{row.name}</span>
                </th>
                <td class="number">{row.reported?.text ?? words.value.common.none}</td>
                <td class="number">{row.si}</td>
                <td class="number">{row.us ?? words.value.common.none}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <Facts facts={specimen.fracture} />
      <p class="pencil small">{specimen.curve === null ? text.noCurve : text.curve}</p>
    </article>
  );
}

function Facts({ facts }: { readonly facts: readonly Fact[] }) {
  return (
    <dl class="facts">
      {facts.map(({ label, value }) => (
        <>
          <dt key={label}>{label}</dt>
          <dd>{value}</dd>
        </>
      ))}
    </dl>
  );
}
