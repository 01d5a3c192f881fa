/** Set: what it is, its specimens at a glance, the verdict, and the one next step. Without one open: make or choose one. */
import { useEffect } from 'preact/hooks';
import { READINGS_ORIGINS, type ReadingsOrigin } from '../../../core/pull/readings-origin.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { FindKept, searchFor, typedName } from '../find-kept.tsx';
import { ReadingsMark, ReadingsNotice } from '../../design/readings-mark.tsx';
import { momentText } from '../../numbers/format.ts';
import { HeldAnswer } from '../../store/held-answer.ts';
import { goTo } from '../../store/place.ts';
import { archiveGeneration, recording, request, session } from '../../store/session-store.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';
import { MemberSheet } from './member-sheet.tsx';
import { MemberTable } from './member-table.tsx';
import { stationOnCall } from '../known.ts';
import { WayOn, kindOf } from '../marked-step.tsx';
import { leadsTo, measureForSet, nextStep, stepWords, takeStep } from './next-step.ts';
import {
  type OpenedSet,
  closeSet,
  openSet,
  openSetId,
  openedSet,
  refreshSet,
  setFault,
  shownMember,
} from './open-set.ts';
import { OutcomeWord } from './outcome-word.tsx';
import { PutIn } from './put-in.tsx';
import { beginSet, draftOfSet, packs, setDraft } from './set-draft.ts';
import { SetFacts } from './set-facts.tsx';
import { SetFormSheet } from './set-form-sheet.tsx';
import '../station.css';
import './set-station.css';

export function SetStation() {
  const draft = setDraft.value;
  const opened = openedSet.value;
  useEffect(() => {
    // What was done elsewhere, in the archive or on the command line, shows here.
    if (session.peek() !== null) void refreshSet();
  }, []);
  if (draft !== null) return <SetFormSheet key={draft.setId} draft={draft} />;
  if (opened === null)
    return openSetId.value === null ? (
      <ChooseSet />
    ) : (
      <div class="station">
        <FaultBlock fault={setFault.value} />
        {setFault.value === null ? (
          <p class="empty" role="status">
            {words.value.set.beingJudged}
          </p>
        ) : (
          <div class="actions">
            <Button onPress={closeSet}>{words.value.set.putAside}</Button>
          </div>
        )}
      </div>
    );
  return <OpenSet opened={opened} />;
}

/** Sets shown to choose from; a shop has a few under way, and others are found by their name. */
const SETS_SHOWN_MAX = 30;

const wanted = typedName();
const keptSets = new HeldAnswer(() =>
  request('set.list', { limit: SETS_SHOWN_MAX, ...searchFor(wanted.peek()) }),
);

function ChooseSet() {
  const text = words.value.set;
  const sets = keptSets.value.value?.items ?? null;
  const connected = session.value !== null;
  useEffect(() => {
    if (!connected) return;
    void keptSets.refresh().then((fault) => {
      if (fault !== null) setFault.value = fault;
    });
  }, [connected, archiveGeneration.value, wanted.value]);
  return (
    <div class="station">
      <p class="empty">{text.none}</p>
      <FaultBlock fault={setFault.value} />
      <div class="actions">
        <Button kind={kindOf('set')} id="make-set" onPress={beginSet}>
          {text.make}
        </Button>
        <Button kind={kindOf('specimen')} onPress={() => goTo('specimen')}>
          {text.withoutSet}
        </Button>
        <WayOn beside={['specimen']} />
      </div>
      <section class="block" aria-label={text.kept}>
        <h2>{text.kept}</h2>
        {sets?.length === 0 && wanted.value === '' ? <p class="pencil">{text.noKept}</p> : null}
        <FindKept
          id="find-kept-set"
          label={text.findKept}
          typed={wanted}
          isCut={(keptSets.value.value?.nextCursor ?? null) !== null}
          shown={SETS_SHOWN_MAX}
          none={sets?.length === 0 ? text.noKeptFits : null}
        />
        <ul class="set-list">
          {(sets ?? []).map((set) => {
            const about = `${purposeWords(set.purpose)} · ${rulesName(set.rulePackId)} · ${text.memberCount(String(set.memberCount))} · ${momentText(set.begunWallMs)}`;
            return (
              <li key={set.setId}>
                <button
                  type="button"
                  aria-label={`${text.open(set.name)} ${about}`}
                  onClick={() => openSet(set.setId)}
                >
                  <strong>{set.name}</strong> <span class="pencil small">{about}</span>
                </button>
              </li>
            );
          })}
        </ul>
      </section>
    </div>
  );
}

const purposeWords = (purpose: string): string => {
  const { purposes } = words.value.set.form;
  return purpose in purposes ? purposes[purpose as keyof typeof purposes] : purpose;
};

/** As the pack calls itself; a pack that is not at hand any more by what it was kept under. */
const rulesName = (rulePackId: string): string => {
  const known = packs().find(({ file }) => file.id === rulePackId);
  return known === undefined ? rulePackId : told(known.file.name);
};

function OpenSet({ opened }: { readonly opened: OpenedSet }) {
  const text = words.value.set;
  const { kept, judged } = opened;
  const step = nextStep(opened);
  const isFinished = step.kind === 'certificate' && stationOnCall() === 'set';
  const isItsOwn = !isFinished && stationOnCall() === 'set';
  const to = leadsTo(step);
  const { counts } = judged;
  const shown = judged.members.find((one) => one.setMemberId === shownMember.value);
  const place = kept.members.find((one) => one.setMemberId === shownMember.value);
  return (
    <div class="station set">
      <div class="set-head">
        <div>
          <h2 class="set-name">
            {kept.set.form.name} <OutcomeWord outcome={judged.outcome} ofSet />
            {originsIn(judged).map((readings) => (
              <ReadingsMark key={readings} readings={readings} />
            ))}
          </h2>
          <p class="pencil">
            {text.number(String(kept.setId))} · {purposeWords(kept.set.form.purpose)} ·{' '}
            {told(kept.set.pack.name)}, {told(kept.set.pack.edition)}
          </p>
        </div>
        <div class="actions">
          <Button
            kind="compact"
            id="correct-set"
            onPress={() => (setDraft.value = draftOfSet(kept.setId, kept.set.form))}
          >
            {text.correct}
          </Button>
          <Button kind={isFinished ? 'call' : 'compact'} id="close-set" onPress={closeSet}>
            {text.another}
          </Button>
        </div>
      </div>
      <SetFacts kept={kept} />
      <FaultBlock fault={setFault.value} />
      <div class="set-next">
        <Button kind={isItsOwn ? 'call' : kindOf(to)} id="set-step" onPress={() => void takeStep(step)}>
          {stepWords(step)}
        </Button>
        <WayOn beside={[to]} />
        {step.kind === 'measure' ? null : (
          <Button
            id="measure-another"
            notNow={recording.value ? text.notWhilePulling : undefined}
            onPress={() => void measureForSet(opened, null)}
          >
            {text.measureAnother}
          </Button>
        )}
        <p class="pencil">
          {text.counts(String(counts.measured), String(counts.pulled), String(counts.judged))}
          {counts.missing === null || counts.missing === 0
            ? ''
            : ` · ${text.missingCount(String(counts.missing))}`}
          {judged.required === null ? null : (
            <span class="small">
              {' '}
              ({text.requiredBy(String(judged.required.count), told(judged.required.says))})
            </span>
          )}
        </p>
      </div>
      <MemberTable opened={opened} />
      <PutIn opened={opened} />
      {shown === undefined || place === undefined ? null : (
        <MemberSheet opened={opened} member={shown} place={place} />
      )}
      <SetVerdict opened={opened} />
    </div>
  );
}

/** Kinds of readings in the set that no specimen gave. */
const originsIn = (judged: OpenedSet['judged']): ReadingsOrigin[] =>
  READINGS_ORIGINS.filter((origin) => judged.members.some((one) => one.readings === origin));

function SetVerdict({ opened: { judged } }: { readonly opened: OpenedSet }) {
  const text = words.value.set.verdict;
  return (
    <section class="set-verdict" aria-label={text.ofSet}>
      <h2>{text.ofSet}</h2>
      <p>
        <OutcomeWord outcome={judged.outcome} large ofSet />
      </p>
      {originsIn(judged).map((readings) => (
        <ReadingsNotice key={readings} readings={readings} />
      ))}
      <p class="verdict-sentence">{told(judged.sentence)}</p>
      {judged.remarks.map((remark) => (
        <p class="pencil" key={remark}>
          {told(remark)}
        </p>
      ))}
    </section>
  );
}
