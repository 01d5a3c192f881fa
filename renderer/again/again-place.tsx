/** Everything that was found, evaluated again by this program: what changed beside what was stated, kept only when asked. */
import { type Signal, signal, useSignal } from '@preact/signals';
import { useLayoutEffect } from 'preact/hooks';
import type { Outcome } from '../../core/acceptance/verdict.ts';
import {
  AGAIN_PULLS_MAX,
  type EvaluatedAgain,
  type StatedBefore,
  flips,
} from '../../core/evaluation/evaluate-again.ts';
import type { KeptValue } from '../../core/contract/evaluation-requests.ts';
import { convert } from '../../core/quantity/units.ts';
import { METHOD_VERSION } from '../../core/results/evaluation.ts';
import { found } from '../archive/found-pulls.ts';
import { PullByName } from '../archive/pull-by-name.tsx';
import { Button } from '../design/button.tsx';
import { FaultBlock } from '../design/field.tsx';
import { focusFirstFault } from '../design/focus-fault.ts';
import { say } from '../design/said.tsx';
import { useWorkSaid } from '../design/told-in-parts.ts';
import { SymbolText } from '../design/symbol-text.tsx';
import { TableScroll } from '../design/table-scroll.tsx';
import { unitForValue } from '../numbers/display-unit.ts';
import { fixed, momentText, significant } from '../numbers/format.ts';
import { ReasonAndName } from '../people/reason-and-name.tsx';
import { person } from '../stations/set/person.ts';
import { HeldTyping, useHeldTyping } from '../store/held-typing.ts';
import { archiveView } from '../store/place.ts';
import { language, units } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import {
  beginAnew,
  busy,
  changed,
  done,
  fault,
  keepChanged,
  kept,
  run,
  sets,
  setsDone,
  stop,
  wanted,
  withoutStatement,
} from './evaluated-again.ts';
import '../overlay/overlay-head.css';
import '../stations/station.css';
import './again.css';

/** Pulls listed in the page; the command line lists all. */
const LISTED_MAX = 500;
/** Enough to see a change that a rule would round away. */
const DIGITS = 6;

const count = (n: number): string => fixed(n, 0, language.value);

export function AgainPlace() {
  const text = words.value.look.again;
  // Before the next key comes: an effect after the drawing would undo what it began.
  useLayoutEffect(() => {
    beginAnew([...(found.value ?? [])]);
    return stop;
  }, []);
  const all = wanted.value.length;
  const isDone = done.value >= all && (changed.value.length === 0 || setsDone.value);
  const progress = text.progress(
    count(done.value),
    count(all),
    count(changed.value.length),
    count(withoutStatement.value),
  );
  useWorkSaid({
    isUnderWay: busy.value === 'evaluating',
    part: all === 0 ? null : done.value / all,
    sentence: progress,
  });
  return (
    <div class="station again-place">
      <div class="overlay-head">
        <Button kind="compact" onPress={() => (archiveView.value = 'table')}>
          {words.value.look.back}
        </Button>
        <h2>{text.title}</h2>
      </div>
      <p class="pencil">{text.means(METHOD_VERSION)}</p>
      {(found.value?.length ?? 0) > AGAIN_PULLS_MAX ? <p>{text.tooMany(count(AGAIN_PULLS_MAX))}</p> : null}
      <div class="actions">
        {busy.value === null ? (
          <Button
            id="again-first"
            kind={isDone ? 'plain' : 'call'}
            onPress={() => {
              if (isDone) beginAnew([...(found.value ?? [])]);
              void run();
            }}
          >
            {done.value === 0 || isDone ? text.begin(count(all)) : text.goOn}
          </Button>
        ) : (
          <Button id="again-first" onPress={stop}>
            {text.stop}
          </Button>
        )}
        <span id="again-progress">{progress}</span>
      </div>
      <FaultBlock fault={fault.value} />
      {changed.value.length === 0 ? (
        isDone && all > 0 ? (
          <p class="empty">{withoutStatement.value === all ? text.nothingToCompare : text.nothing}</p>
        ) : null
      ) : (
        <>
          <ChangedTable lines={changed.value.slice(0, LISTED_MAX)} />
          {changed.value.length > LISTED_MAX ? (
            <p class="pencil">{text.more(count(changed.value.length - LISTED_MAX))}</p>
          ) : null}
          <SetsBlock />
          <KeepChanged />
        </>
      )}
    </div>
  );
}

function ChangedTable({ lines }: { readonly lines: readonly EvaluatedAgain[] }) {
  const text = words.value.look.again;
  return (
    <TableScroll label={text.changed} of="again-table">
      <table class="pull-table">
        <thead>
          <tr>
            <th scope="col">{text.pull}</th>
            <th scope="col">{text.value}</th>
            <th scope="col" class="amount">
              {text.before}
            </th>
            <th scope="col" class="amount">
              {text.after}
            </th>
          </tr>
        </thead>
        <tbody>
          {lines.flatMap((line) =>
            line.changes.map(({ symbol, before, after }, i) => (
              <tr key={`${String(line.pullId)} ${symbol}`}>
                {i === 0 ? <PullCell line={line} /> : null}
                <td>
                  <SymbolText text={symbol} />
                </td>
                <td class="amount number">{valueText(before)}</td>
                <td class="amount number">{valueText(after)}</td>
              </tr>
            )),
          )}
        </tbody>
      </table>
    </TableScroll>
  );
}

function PullCell({ line: { pullId, name, against, changes } }: { readonly line: EvaluatedAgain }) {
  const text = words.value.look.again;
  const number = kept.value.get(pullId);
  return (
    <th scope="rowgroup" rowSpan={changes.length}>
      <PullByName pullId={pullId} name={name} />
      <span class="pencil small">
        {against === null ? '' : againstText(against)}
        {number === undefined ? '' : `; ${text.keptAs(String(number))}`}
      </span>
    </th>
  );
}

function againstText(against: StatedBefore): string {
  const text = words.value.look.again;
  const { from, methodVersion } = against;
  return from === 'first-stated'
    ? text.firstStated(momentText(against.statedWallMs), against.programVersion, methodVersion)
    : text.against[from](against.number, methodVersion);
}

/** Every set that a changed pull is in, those whose verdicts are other ones first. */
function SetsBlock() {
  const text = words.value.look.again;
  const { outcomes, setOutcomes } = words.value.set;
  const shown = [...sets.value].sort((a, b) => Number(flips(b)) - Number(flips(a))).slice(0, LISTED_MAX);
  const outcome = (of: Outcome | null, said: typeof outcomes): string =>
    of === null ? words.value.common.none : said[of];
  if (!setsDone.value && busy.value !== 'judging') return null;
  return (
    <div class="block">
      <h3>{text.setsTitle}</h3>
      <p role="status">
        {busy.value === 'judging'
          ? text.judging
          : sets.value.length === 0
            ? text.noSets
            : text.setsFlip(count(sets.value.filter(flips).length), count(sets.value.length))}
      </p>
      {shown.length === 0 ? null : (
        <TableScroll label={text.setsTitle} of="again-table">
          <table class="pull-table" id="again-sets">
            <thead>
              <tr>
                <th scope="col">{text.set}</th>
                <th scope="col">{text.verdictBefore}</th>
                <th scope="col">{text.verdictNow}</th>
              </tr>
            </thead>
            <tbody>
              {shown.flatMap((set) => [
                <tr key={String(set.setId)} data-flips={flips(set)}>
                  <th scope="row">{set.setName}</th>
                  <td>{outcome(set.before.outcome, setOutcomes)}</td>
                  <td>
                    {set.before.outcome === set.after.outcome
                      ? text.asBefore
                      : outcome(set.after.outcome, setOutcomes)}
                  </td>
                </tr>,
                ...set.members
                  .filter((member) => member.before !== member.after)
                  .map((member) => (
                    <tr key={`${String(set.setId)} ${String(member.setMemberId)}`}>
                      <th scope="row" class="again-member">
                        {member.specimenName}
                      </th>
                      <td>{outcome(member.before, outcomes)}</td>
                      <td>{outcome(member.after, outcomes)}</td>
                    </tr>
                  )),
              ])}
            </tbody>
          </table>
        </TableScroll>
      )}
      {sets.value.length > LISTED_MAX ? (
        <p class="pencil">{text.moreSets(count(sets.value.length - LISTED_MAX))}</p>
      ) : null}
    </div>
  );
}

function valueText(value: KeptValue | null): string {
  if (value === null) return words.value.look.again.notGiven;
  const unit = unitForValue(value.value, value.unit, units.value);
  return `${significant(convert(value.value, value.unit, unit), DIGITS, language.value)} ${unit}`;
}

/** The same reason for all that is kept at once. */
const WHOLE = 'found';
const held = new HeldTyping<{ readonly reason: Signal<string> }>('againReason');

function KeepChanged() {
  const text = words.value.look.again;
  const { reason } = useHeldTyping(held, WHOLE, () => ({ reason: signal('') }));
  const by = useSignal(person.value);
  const tried = useSignal(false);
  const left = changed.value.filter(({ pullId }) => !kept.value.has(pullId)).length;
  const keep = async (): Promise<void> => {
    tried.value = true;
    if (reason.value.trim() === '') {
      focusFirstFault('.again-place');
      return;
    }
    const given = by.value.trim();
    const number = await keepChanged({
      reason: reason.value.trim(),
      ...(given === '' ? {} : { by: given }),
    });
    if (given !== '') person.value = given;
    if (changed.value.every(({ pullId }) => kept.value.has(pullId))) held.letGo(WHOLE);
    say(text.kept(count(number)));
  };
  return (
    <section class="block again-keep" aria-labelledby="again-keep-title">
      <h3 id="again-keep-title">{text.keepTitle}</h3>
      <p class="pencil">{text.keepMeans}</p>
      <ReasonAndName id="again" words={text} reason={reason} by={by} tried={tried.value} />
      <div class="actions">
        <Button
          id="again-keep"
          notNow={left === 0 ? text.nothingToKeep : undefined}
          onPress={() => {
            if (busy.value === null) void keep();
          }}
        >
          {text.keep(count(left))}
        </Button>
      </div>
    </section>
  );
}
