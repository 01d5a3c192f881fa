/** Every specimen of the set in a row: how far it is, how strong it was, where it broke, what the rules say. */
import type { MemberVerdict } from '../../../core/contract/set-requests.ts';
import { ReadingsMark } from '../../design/readings-mark.tsx';
import { TableScroll } from '../../design/table-scroll.tsx';
import { units } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { shownValue } from '../result/result-list.tsx';
import { type OpenedSet, shownMember } from './open-set.ts';
import { OutcomeWord } from './outcome-word.tsx';
import { StageWord } from './stage-word.tsx';
import { Questionable } from './verdict-block.tsx';

/** Rows of specimens that are asked for and not there yet; a class of hundreds is counted in words. */
const MISSING_ROWS_MAX = 12;

export function MemberTable({ opened: { kept, judged } }: { readonly opened: OpenedSet }) {
  const text = words.value.set;
  const missing = Math.min(judged.counts.missing ?? 0, MISSING_ROWS_MAX);
  return (
    <TableScroll label={text.table.title}>
      <table class="member-table">
        <thead>
          <tr>
            <th scope="col">{text.table.specimen}</th>
            <th scope="col">{text.table.state}</th>
            <th scope="col" class="amount">
              {text.table.strength}
            </th>
            <th scope="col">{text.table.broke}</th>
            <th scope="col">{text.table.verdict}</th>
          </tr>
        </thead>
        <tbody>
          {judged.members.map((member) => {
            const place = kept.members.find((one) => one.setMemberId === member.setMemberId);
            const original = kept.members.find((one) => one.setMemberId === place?.retestOf);
            return (
              <Row
                key={member.setMemberId}
                member={member}
                retestOf={original?.specimenName ?? null}
                voidReason={place?.voided?.reason ?? null}
              />
            );
          })}
          {Array.from({ length: missing }, (_, index) => (
            <tr key={`missing-${String(index)}`} class="missing-row">
              <td>{words.value.common.none}</td>
              <td>
                <StageWord stage="to-measure" />
              </td>
              <td class="amount">{words.value.common.none}</td>
              <td>{words.value.common.none}</td>
              <td>{text.table.missing}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </TableScroll>
  );
}

function Row({
  member,
  retestOf,
  voidReason,
}: {
  readonly member: MemberVerdict;
  readonly retestOf: string | null;
  readonly voidReason: string | null;
}) {
  const text = words.value.set;
  const shown = shownMember.value === member.setMemberId;
  const strength = member.strength === null ? null : shownValue(member.strength, units.value);
  return (
    <tr data-stage={member.stage} data-shown={shown}>
      <td>
        <button
          type="button"
          class="open-member"
          aria-expanded={shown}
          aria-label={text.table.look(member.specimenName)}
          onClick={() => (shownMember.value = shown ? null : member.setMemberId)}
        >
          {member.specimenName}
        </button>
        {retestOf === null ? null : <span class="pencil small"> {text.table.retestOf(retestOf)}</span>}
      </td>
      <td>
        <StageWord stage={member.stage} />
        {member.pull === 'typed' ? <span class="pencil small"> {text.typed}</span> : null}
        {member.pull === 'interrupted' ? <span class="pencil small"> {text.interrupted}</span> : null}
        {voidReason === null ? null : <span class="pencil small"> {voidReason}</span>}
      </td>
      <td class="amount number">
        {strength === null ? words.value.common.none : `${strength.text} ${strength.unit}`}
      </td>
      <td>{member.place === null ? words.value.common.none : words.value.fracture.places[member.place]}</td>
      <td class="row-verdict">
        {member.outcome === null ? (
          <span class="pencil">{text.notJudged}</span>
        ) : (
          <OutcomeWord outcome={member.outcome} />
        )}
        <ReadingsMark readings={member.readings} />
        {member.questionable ? <Questionable /> : null}
        {member.overrides.length === 0 ? null : <span class="pencil small"> {overriddenWords(member)}</span>}
      </td>
    </tr>
  );
}

/** The last word counts, and it is told that it was a person's. */
function overriddenWords({ overrides }: MemberVerdict): string {
  const { verdict, outcomes } = words.value.set;
  const last = overrides.at(-1);
  return last === undefined ? '' : verdict.decidedBy(last.person, outcomes[last.to]);
}
