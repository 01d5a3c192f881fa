/** One verdict with all it rests on: sentence, margin, comparisons, doubts, what is missing, what others would say. */
import type { ComponentChildren } from 'preact';
import { originText } from '../../../core/acceptance/source-status.ts';
import type { Check, Verdict } from '../../../core/acceptance/verdict.ts';
import type { MemberVerdict } from '../../../core/contract/set-requests.ts';
import { ReadingsMark } from '../../design/readings-mark.tsx';
import { TableScroll } from '../../design/table-scroll.tsx';
import { asShown, significant } from '../../numbers/format.ts';
import { unbroken } from '../../numbers/prose.ts';
import { language } from '../../store/view-settings.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';
import { VerdictWord } from '../result/verdict-word.tsx';
import { OutcomeWord } from './outcome-word.tsx';
import './verdict-block.css';

const PERCENT_DIGITS = 3;
/** Below this a probability is told as "less than". */
const PERCENT_SHOWN_MIN = 0.01;

export function VerdictBlock({ member }: { readonly member: MemberVerdict }) {
  const text = words.value.set;
  const { verdict, outcome } = member;
  if (outcome === null || verdict === null)
    return member.faults.length > 0 ? (
      <Part title={text.verdict.faults}>
        <List items={member.faults} />
      </Part>
    ) : (
      <p class="pencil">{text.verdict.notYet}</p>
    );
  const last = member.overrides.at(-1);
  return (
    <div class="verdict-block">
      <p class="verdict-head">
        <OutcomeWord outcome={outcome} large />
        <ReadingsMark readings={member.readings} />
        {member.questionable ? <Questionable /> : null}
      </p>
      {last === undefined ? null : (
        <div class="overridden">
          {member.overrides.map((one) => (
            <p key={`${one.person}${one.at ?? ''}`}>
              <strong>{text.verdict.decidedBy(one.person, text.outcomes[one.to])}</strong>{' '}
              {one.at === undefined ? '' : `(${one.at.slice(0, 16).replace('T', ' ')}) `}
              {one.reason}
            </p>
          ))}
          <p class="pencil">{text.verdict.rulesSaid(text.outcomes[verdict.outcome])}</p>
        </div>
      )}
      <p class="verdict-sentence">{unbroken(told(verdict.sentence))}</p>
      <dl class="verdict-facts">
        {verdict.margin === null ? null : (
          <>
            <dt>{text.verdict.margin}</dt>
            <dd class="number">
              {text.verdict.marginText(
                shown(verdict.margin.text),
                significant(verdict.margin.ratio * 100, PERCENT_DIGITS, language.value),
              )}
            </dd>
          </>
        )}
        {verdict.clause === null ? null : (
          <>
            <dt>{text.verdict.clause}</dt>
            <dd>
              {told(verdict.clause)} <span class="pencil">{clauseOrigin(verdict)}</span>
            </dd>
          </>
        )}
      </dl>
      {verdict.validity.reasons.length === 0 ? null : (
        <Part title={text.verdict.questionable}>
          <List items={verdict.validity.reasons.map((reason) => reason.sentence)} />
          {verdict.validity.outcomeIfCleared === null ? null : (
            <p class="pencil">{text.verdict.ifCleared(text.outcomes[verdict.validity.outcomeIfCleared])}</p>
          )}
        </Part>
      )}
      {verdict.missing.length === 0 ? null : (
        <Part title={text.verdict.missing}>
          <List items={verdict.missing.map((fact) => fact.sentence)} />
        </Part>
      )}
      <Checks checks={verdict.checks} />
      <Decision verdict={verdict} />
      {verdict.otherPacks.length === 0 ? null : (
        <Part title={text.verdict.otherwise}>
          <ul class="other-packs">
            {verdict.otherPacks.map((other) => (
              <li key={other.pack.id}>
                <strong>{told(other.pack.name)}</strong> <OutcomeWord outcome={other.outcome} />
                <p>{told(other.sentence)}</p>
              </li>
            ))}
          </ul>
        </Part>
      )}
      {verdict.otherReadings.length === 0 ? null : (
        <Part title={text.verdict.otherReading}>
          <ul class="other-packs">
            {verdict.otherReadings.map((reading) => (
              <li key={reading.says}>
                <OutcomeWord outcome={reading.outcome} /> {told(reading.says)} ({shown(reading.limit.text)})
              </li>
            ))}
          </ul>
        </Part>
      )}
      {verdict.remarks.length === 0 ? null : (
        <Part title={text.verdict.remarks}>
          <List items={verdict.remarks} />
        </Part>
      )}
      <p class="pencil small">{told(verdict.caution)}</p>
    </div>
  );
}

/** Where the clause of a verdict was seen. */
export const clauseOrigin = ({ clauseStatus, clauseSource }: Verdict): string =>
  originText({ status: clauseStatus, source: clauseSource }, told) ?? '';

export function Questionable() {
  return (
    <span class="questionable">
      <svg viewBox="0 0 24 24" width="20" height="20" aria-hidden="true">
        <path d="M12 3 22 21H2Z" fill="none" stroke="currentColor" stroke-width="2.2" />
        <path d="M12 9.5v5M12 16.5v2" stroke="currentColor" stroke-width="2.2" />
      </svg>
      {words.value.set.questionable}
    </span>
  );
}

function Part({ title, children }: { readonly title: string; readonly children: ComponentChildren }) {
  return (
    <section class="verdict-part">
      <h3>{title}</h3>
      {children}
    </section>
  );
}

function List({ items }: { readonly items: readonly string[] }) {
  return (
    <ul class="verdict-list">
      {items.map((item) => (
        <li key={item}>{told(item).replace(/^\p{Ll}/u, (first) => first.toUpperCase())}</li>
      ))}
    </ul>
  );
}

/** Sign, groups and decimal sign as numbers of the screen have them. */
const shown = (text: string): string => asShown(text, language.value);

const MET = { met: 'yes', 'not-met': 'no', unknown: 'unknown', 'nothing-specified': 'unknown' } as const;

function Checks({ checks }: { readonly checks: readonly Check[] }) {
  const text = words.value.set.verdict;
  if (checks.length === 0) return null;
  return (
    <Part title={text.checks}>
      <TableScroll label={text.checks}>
        <table class="checks-table">
          <thead>
            <tr>
              <th scope="col">{text.quantity}</th>
              <th scope="col">{text.compared}</th>
              <th scope="col">{text.limit}</th>
              <th scope="col">{text.margin}</th>
              <td />
            </tr>
          </thead>
          <tbody>
            {checks.map((check) => (
              <tr key={check.quantity}>
                <th scope="row">{text.quantities[check.quantity]}</th>
                <td class="number">
                  {check.compared === null ? words.value.common.none : shown(check.compared.text)}
                </td>
                <td>
                  {check.limit === null ? (
                    words.value.common.none
                  ) : (
                    <>
                      {text.comparisons[check.comparison]}{' '}
                      <span class="number">{shown(check.limit.text)}</span>
                      {check.limitFrom === null ? null : (
                        <span class="pencil small"> {unbroken(told(check.limitFrom))}</span>
                      )}
                    </>
                  )}
                </td>
                <td class="number">
                  {check.margin === null ? words.value.common.none : shown(check.margin.text)}
                </td>
                <td>
                  <VerdictWord met={MET[check.state]} word={text.states[check.state]} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableScroll>
    </Part>
  );
}

/** Told whenever the uncertainty of the strength is known, also where the value alone decides. */
function Decision({ verdict: { decision } }: { readonly verdict: Verdict }) {
  const text = words.value.set;
  if (decision === null) return null;
  const amount = (value: number) => `${significant(value, PERCENT_DIGITS, language.value)} ${decision.unit}`;
  const percent = (share: number) =>
    share * 100 < PERCENT_SHOWN_MIN
      ? `< ${significant(PERCENT_SHOWN_MIN, 1, language.value)}`
      : significant(share * 100, 2, language.value);
  const { probabilityOfFalseAccept: falseAccept, probabilityOfFalseReject: falseReject } = decision;
  return (
    <Part title={text.verdict.uncertainty}>
      <p>
        <span class="number">
          {text.verdict.expanded(
            amount(decision.expandedUncertainty),
            significant(decision.coverageFactor, PERCENT_DIGITS, language.value),
          )}
        </span>{' '}
        · {text.verdict.rule}: {text.form.decisions[decision.name]}
        {decision.guardBand === 0 ? '' : ` · ${text.verdict.guardBand(amount(decision.guardBand))}`}
      </p>
      {falseAccept === null ? null : <p>{text.verdict.falseAccept(percent(falseAccept))}</p>}
      {falseReject === null ? null : <p>{text.verdict.falseReject(percent(falseReject))}</p>}
    </Part>
  );
}
