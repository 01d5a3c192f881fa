/** One line of words for the state, with a shape; beside it whether readings are fresh. */
import { useEffect, useRef } from 'preact/hooks';
import { standingNote } from '../../../core/pull/standing-note.ts';
import type { Session } from '../../../core/contract/session.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { sayAloud } from '../../design/said.tsx';
import { SoundSwitch } from '../../design/sound-control.tsx';
import { grownWith } from '../../design/theme.ts';
import { StateWord } from '../../design/state-word.tsx';
import { clockText, fixed } from '../../numbers/format.ts';
import { goTo } from '../../store/place.ts';
import { heldOpen } from '../../store/session-store.ts';
import { language, viewSettings } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { WayOn, kindOf } from '../marked-step.tsx';
import { endedPull } from '../opened-pull.ts';
import { closesInText } from './go-on-words.ts';
import type { Freshness } from './freshness.ts';
import { nextOfPull } from './next-of-pull.ts';
import { nextSpecimen, pullErrand } from './pull-acts.ts';
import './pull-state.css';

export function PullState({ session, fresh }: { readonly session: Session; readonly fresh: Freshness }) {
  const text = words.value;
  const line = useRef<HTMLDivElement>(null);
  const { state } = session;
  const before = useRef(state);
  useEffect(() => {
    if (before.current === state) return;
    before.current = state;
    sayAloud(`${text.states[state]}. ${meaning(session)}`);
    // Whatever was pressed to get here must not be pressed again by the next stray key.
    const active = document.activeElement;
    if (active instanceof HTMLElement && active.closest('.pull-controls') !== null) line.current?.focus();
  }, [state]);
  return (
    <>
      <div
        class="pull-state"
        ref={line}
        tabIndex={-1}
        style={{ '--grown': grownWith(viewSettings.value.digitsMm).toFixed(2) }}
      >
        <StateWord state={state} />
        <span class="meaning">
          {nextOfPull().kind === 'itself' ? <span class="flag">{text.stations.now}</span> : null}{' '}
          {meaning(session)}
        </span>
        <SignalTrouble session={session} fresh={fresh} />
        {state === 'ended' || heldOpen.value ? <WhatComesNext session={session} /> : null}
        {state === 'ready' || state === 'pulling' ? <SoundSwitch /> : null}
      </div>
      <FaultBlock fault={pullErrand.fault.value} />
    </>
  );
}

/** Called for only when the tail is over: until then the next step may well be to take the break back. */
export function WhatComesNext({ session: { state } }: { readonly session: Session }) {
  const text = words.value.pull;
  return (
    <>
      {placeIsNoted() ? (
        <Button kind={kindOf('result')} id="to-result" onPress={() => goTo('result')}>
          {words.value.fracture.toResult}
        </Button>
      ) : (
        <Button kind={kindOf('fracture')} id="to-fracture" onPress={() => goTo('fracture')}>
          {text.toFracture}
        </Button>
      )}
      {state === 'ended' ? (
        <Button id="next-specimen" onPress={() => void nextSpecimen()}>
          {text.nextSpecimen}
        </Button>
      ) : null}
      <WayOn beside={[placeIsNoted() ? 'result' : 'fracture']} />
    </>
  );
}

const placeIsNoted = (): boolean => standingNote(endedPull.value?.kept.value?.fractureNotes ?? []) !== null;

export function meaning({ state, pull }: Session): string {
  const text = words.value.stateMeans;
  const held = words.value.heldOpen;
  switch (state) {
    case 'ready':
      return pull?.trigger.kind === 'by-hand' ? text.readyByHand : text.ready;
    case 'pulling':
      return pull?.breakRule.kind === 'by-hand' ? text.pullingByHand : text.pulling;
    case 'broken':
      if (pull?.loadIsBack === true) return held.loadIsBack;
      if ((pull?.closesInS ?? null) === null) return text.broken;
      return pull?.heldOpenS === null
        ? text.brokenCloses(fixed(Math.ceil(pull.closesInS ?? 0), 0, language.value))
        : held.broken(closesInText(pull?.closesInS ?? 0));
    case 'stopped':
      return (pull?.closesInS ?? null) === null
        ? text.stopped
        : held.stopped(closesInText(pull?.closesInS ?? 0));
    case 'ended':
      return placeIsNoted() ? text.endedNoted : text.ended;
    case 'closed':
    case 'listening':
      return text[state];
  }
}

function SignalTrouble({ session, fresh }: { readonly session: Session; readonly fresh: Freshness }) {
  const text = words.value.signal;
  if (session.readout === null || fresh.fresh || session.state === 'ended') return null;
  if (fresh.since === null) return <span class="signal-trouble">{text.none}</span>;
  const time = clockText(fresh.since);
  const seconds = fixed(fresh.silentS, 0, language.value);
  return (
    <span class="signal-trouble">{fresh.lost ? text.lost(seconds, time) : text.stale(seconds, time)}</span>
  );
}
