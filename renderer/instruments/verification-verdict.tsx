/** What a verification comes to: class, ranges, lowest forces, and the working of every figure. */
import { ISO_CLASSES } from '../../core/verification/class-limits.ts';
import { stepFindings } from '../../core/verification/step-figures.ts';
import type { PercentFinding, Verification, VerifiedRange } from '../../core/verification/verify-force.ts';
import { useSaidAtRest } from '../design/told-in-parts.ts';
import { asShown } from '../numbers/format.ts';
import { language } from '../store/view-settings.ts';
import { told } from '../words/told.ts';
import { words } from '../words/words.ts';

const withheld = (of: { readonly withheld: readonly string[] }): string => of.withheld.map(told).join(' ');

export function VerificationVerdict({ found }: { readonly found: Verification }) {
  const text = words.value.instruments.sheet;
  const { iso, e4, unit } = found;
  const rangeWords = ({ fromText, toText }: VerifiedRange): string =>
    text.range(asShown(fromText, language.value), asShown(toText, language.value), unit);
  const ranges = ISO_CLASSES.flatMap((one) => {
    const range = iso.ranges[one];
    return range === null ? [] : [text.isoRange(asShown(one, language.value), rangeWords(range))];
  });
  const isoWords = iso.class === null ? text.isoWithheld : text.iso(asShown(iso.class, language.value));
  const e4Words = e4.range === null ? text.e4None : text.e4Range(rangeWords(e4.range));
  // Every figure that is typed makes another one; a reader hears it when the keys rest.
  useSaidAtRest([isoWords, withheld(iso), e4Words, withheld(e4)].join(' '));
  return (
    <div class="worksheet-verdict" id="worksheet-verdict">
      <p>
        <strong>{isoWords}</strong> {withheld(iso)}
      </p>
      {ranges.length === 0 ? null : <p>{text.everyForce(ranges.join('; '))}</p>}
      <p>
        {text.lowest(
          ISO_CLASSES.map((one) =>
            text.lowestOf(
              asShown(one, language.value),
              asShown(`${iso.lowerLimits[one].text} ${unit}`, language.value),
            ),
          ).join(', '),
        )}
      </p>
      <p>
        <strong>{e4Words}</strong> {withheld(e4)}
      </p>
      {found.remarks.map((remark) => (
        <p key={remark} class="pencil small">
          {told(remark)}
        </p>
      ))}
    </div>
  );
}

export function VerificationWorking({ found }: { readonly found: Verification }) {
  const text = words.value.instruments.sheet;
  return (
    <details class="worksheet-working">
      <summary>{text.working}</summary>
      <ol>
        {found.steps.flatMap((step) =>
          stepFindings(step).map((finding) => (
            <WorkingLine key={`${step.appliedText} ${finding.symbol}`} finding={finding} />
          )),
        )}
        {found.zero === null ? null : <WorkingLine finding={found.zero} />}
      </ol>
    </details>
  );
}

function WorkingLine({ finding: { working } }: { readonly finding: PercentFinding }) {
  return (
    <li>
      <span class="number">{told(working.substituted)}</span>
      <span class="pencil small">
        {' '}
        {told(working.formula)}; {told(working.source)}
      </span>
    </li>
  );
}
