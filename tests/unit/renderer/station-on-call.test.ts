/** One obvious next step: what the rail calls for, what each station knows, and what the sheet of the result calls for. */
import { signal } from '@preact/signals';
import type { ComponentChildren, VNode } from 'preact';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Session, SessionState } from '../../../core/contract/session.ts';
import { FoundActs, StepFromList } from '../../../renderer/archive/found-acts.tsx';
import { markMore, unmarkAll } from '../../../renderer/archive/marked-pulls.ts';
import { knownAt, stationOnCall } from '../../../renderer/stations/known.ts';
import { WayOn, stationNamed } from '../../../renderer/stations/marked-step.tsx';
import { endedPull, typedPullId } from '../../../renderer/stations/opened-pull.ts';
import { nextOfPull } from '../../../renderer/stations/pull/next-of-pull.ts';
import { PullControls } from '../../../renderer/stations/pull/pull-controls.tsx';
import { WhatComesNext } from '../../../renderer/stations/pull/pull-state.tsx';
import { ResultStation } from '../../../renderer/stations/result/result-station.tsx';
import { type OpenedSet, carried, openedSet } from '../../../renderer/stations/set/open-set.ts';
import { type Place, STATIONS, archiveView, place } from '../../../renderer/store/place.ts';
import type { OpenedPull } from '../../../renderer/store/kept-pull.ts';
import { learning, session } from '../../../renderer/store/session-store.ts';
import { changeDraft, leftDraft, markKept, newDraft } from '../../../renderer/store/specimen-draft.ts';

const PULL_ID = 7;

interface Rules {
  readonly trigger?: { readonly kind: string };
  readonly breakRule?: { readonly kind: string };
  readonly tailS?: number | null;
  readonly closesInS?: number | null;
  readonly heldOpenS?: number | null;
  readonly tailEndsInS?: number | null;
  readonly loadIsBack?: boolean;
}

/** Only what the rail asks of a session. */
function stands(state: SessionState, rules: Rules = {}): void {
  session.value = {
    state,
    readout: state === 'closed' ? null : {},
    archive: { fault: null },
    signal: { fresh: false, lastReadingWallMs: null, silentMs: 0 },
    pull:
      state === 'closed' || state === 'listening'
        ? null
        : {
            pullId: PULL_ID,
            specimenName: 'P-1',
            peak: null,
            heldOpenS: null,
            tailEndsInS: null,
            loadIsBack: false,
            ...rules,
          },
  } as unknown as Session;
}

function opened(noted: boolean): void {
  endedPull.value = {
    pullId: PULL_ID,
    kept: signal({
      specimenName: 'P-1',
      typed: null,
      fractureNotes: noted ? [{ fractureNoteId: 1, supersedes: null, note: { place: 'weld-metal' } }] : [],
    }),
    evaluation: signal(null),
    fault: signal(null),
  } as unknown as OpenedPull;
}

/** A set of one specimen, which is this pull's or another's. */
function setOf(stage: 'to-pull' | 'done', pullId: number | null): void {
  openedSet.value = {
    kept: {
      setId: 1,
      certificate: null,
      set: { form: { name: 'S' } },
      members: [{ setMemberId: 1, pullId }],
    },
    judged: {
      outcome: stage === 'done' ? 'accepted' : 'undecided',
      counts: { required: 1, missing: 0, specimens: 1, judged: stage === 'done' ? 1 : 0 },
      members: [{ setMemberId: 1, stage, specimenName: 'P-2', outcome: null }],
    },
  } as unknown as OpenedSet;
}

/** As at a first start, whatever other tests of this process entered. */
function anew(): void {
  session.value = null;
  endedPull.value = null;
  openedSet.value = null;
  carried.value = null;
  typedPullId.value = null;
  place.value = 'specimen';
  newDraft();
  leftDraft.value = null;
  learning.value = null;
}
beforeEach(anew);
afterEach(anew);

interface ButtonLike {
  readonly kind?: string;
  readonly id?: string;
  readonly children?: ComponentChildren;
}

/** Ids of the buttons of this tree that are drawn as the next step. */
function calls(of: ComponentChildren): string[] {
  if (Array.isArray(of)) return of.flatMap((one: ComponentChildren) => calls(one));
  if (of === null || typeof of !== 'object' || !('props' in of)) return [];
  const { kind, id, children } = (of as VNode<ButtonLike>).props;
  return [...(kind === 'call' ? [id ?? ''] : []), ...calls(children)];
}
/** With what its parts make, where a part stands for a button or the way on. */
function withWays(of: ComponentChildren): ComponentChildren {
  if (Array.isArray(of)) return of.map((one: ComponentChildren) => withWays(one));
  if (of === null || typeof of !== 'object' || !('props' in of)) return of;
  const { type, props } = of as VNode<ButtonLike>;
  if (type === WayOn) return withWays(WayOn({ beside: [] }));
  if (type === StepFromList) return withWays(StepFromList());
  return { ...of, props: { ...props, children: withWays(props.children) } } as VNode;
}
const calledOnResult = (): string[] => calls(ResultStation());

describe('the station on call', () => {
  it('is specimen, readout, pull, in the order of the job', () => {
    stands('closed');
    expect(stationOnCall()).toBe('specimen');
    for (const state of ['ready', 'pulling', 'broken', 'stopped'] as const) {
      stands(state);
      expect(stationOnCall(), state).toBe('pull');
    }
  });

  it('is the fracture after the pull until its place is noted, with a set open too, then what follows', () => {
    stands('ended');
    opened(false);
    expect(stationOnCall()).toBe('fracture');
    setOf('to-pull', PULL_ID);
    expect(stationOnCall()).toBe('fracture');
    opened(true);
    expect(stationOnCall()).toBe('set');
    setOf('done', PULL_ID);
    expect(stationOnCall()).toBe('certificate');
    openedSet.value = null;
    place.value = 'archive';
    expect(stationOnCall()).toBe('result');
  });

  it('is where somebody has gone to while the order is free', () => {
    const onCallAt = (where: Place): string => {
      place.value = where;
      return stationOnCall();
    };
    stands('closed');
    expect([onCallAt('set'), onCallAt('specimen'), onCallAt('readout'), onCallAt('pull')]).toEqual([
      'set',
      'specimen',
      'readout',
      'specimen',
    ]);
    // A set that is open asks for its specimen, and its readout may be opened before.
    setOf('to-pull', null);
    expect([onCallAt('set'), onCallAt('specimen'), onCallAt('readout')]).toEqual(['set', 'set', 'readout']);
    changeDraft({ id: 'P-9' });
    expect(onCallAt('specimen')).toBe('specimen');
    // With a pull noted: its result, then the next specimen, or the set.
    stands('ended');
    opened(true);
    newDraft();
    expect([onCallAt('fracture'), onCallAt('result'), onCallAt('specimen')]).toEqual([
      'result',
      'set',
      'set',
    ]);
    openedSet.value = null;
    expect([onCallAt('result'), onCallAt('specimen'), onCallAt('set')]).toEqual([
      'specimen',
      'specimen',
      'set',
    ]);
  });

  it('is the fracture for whoever went there while a tail runs, and never while load is back', () => {
    opened(false);
    place.value = 'fracture';
    stands('broken', { heldOpenS: 600, tailEndsInS: 2 });
    expect(stationOnCall()).toBe('fracture');
    stands('broken', { heldOpenS: 600, tailEndsInS: 0, loadIsBack: true });
    expect(stationOnCall()).toBe('pull');
  });

  it('stays the pull while the tail runs and while load is back behind a marked break', () => {
    opened(false);
    stands('broken', { heldOpenS: 600, tailEndsInS: 2 });
    expect(stationOnCall()).toBe('pull');
    stands('broken', { heldOpenS: 600, tailEndsInS: 0, loadIsBack: true });
    expect(stationOnCall()).toBe('pull');
    stands('broken', { heldOpenS: 600, tailEndsInS: 0 });
    expect(stationOnCall()).toBe('fracture');
  });
});

describe('what a station knows', () => {
  it('is done for the fracture when a place is noted, and says which', () => {
    stands('ended');
    expect(knownAt('fracture')).toEqual({ text: 'after the pull', done: false });
    opened(false);
    expect(knownAt('fracture').done).toBe(false);
    opened(true);
    expect(knownAt('fracture')).toEqual({ text: 'Weld metal', done: true });
  });

  it('is something for every station from the first start on, and nothing is done then', () => {
    for (const station of STATIONS) {
      expect(knownAt(station).text, station).not.toBe('');
      expect(knownAt(station).done, station).toBe(false);
    }
  });
});

/** Everything that the sheet of the pull marks: what is pressed, what is led to, and what happens by itself. */
function markedOnPull(): string[] {
  const now = session.value;
  if (now === null) throw new Error('There is no session.');
  return [
    ...calls(PullControls()),
    ...calls(WhatComesNext({ session: now })),
    ...calls(WayOn({ beside: [placeOnFoot()] })),
    ...(nextOfPull().kind === 'itself' ? ['by itself'] : []),
  ];
}
/** What `WhatComesNext` has a button to. */
const placeOnFoot = () => (knownAt('fracture').done ? 'result' : 'fracture');

describe('the sheet of the pull', () => {
  const BY_HAND = { kind: 'by-hand' };
  const byItself = { trigger: { kind: 'force' }, breakRule: { kind: 'force-drop' }, tailS: 5 };
  const starts = [byItself.trigger, BY_HAND];
  const breaks = [byItself.breakRule, BY_HAND];
  const tails = [5, null];

  it('has exactly one next step in every state, started and broken by itself or by hand, and the rail names the same', () => {
    let cases = 0;
    place.value = 'pull';
    for (const trigger of starts)
      for (const breakRule of breaks)
        for (const tailS of tails)
          for (const tailEndsInS of tailS === null ? [null] : [2, 0])
            for (const loadIsBack of [false, true])
              for (const state of ['ready', 'pulling', 'broken', 'stopped', 'ended'] as const) {
                if (loadIsBack && state !== 'broken') continue;
                for (const noted of state === 'ended' ? [false, true] : [false]) {
                  opened(noted);
                  stands(state, {
                    trigger,
                    breakRule,
                    tailS,
                    tailEndsInS: state === 'ready' || state === 'pulling' ? null : tailEndsInS,
                    closesInS: state === 'broken' || state === 'stopped' ? 600 : null,
                    heldOpenS: 600,
                    loadIsBack,
                  });
                  const about = JSON.stringify(session.value);
                  const marked = markedOnPull();
                  expect(marked, about).toHaveLength(1);
                  const named = stationOnCall();
                  const leadsTo =
                    { 'to-fracture': 'fracture', 'to-result': 'result' }[marked[0] ?? ''] ?? 'pull';
                  expect(leadsTo, about).toBe(named);
                  cases++;
                }
              }
    expect(cases).toBeGreaterThan(80);
  });

  it.each([
    ['ready', { trigger: BY_HAND }, 'act-start'],
    ['ready', {}, 'by itself'],
    ['pulling', { breakRule: BY_HAND }, 'act-markBreak'],
    ['pulling', {}, 'by itself'],
    ['broken', { tailS: null, tailEndsInS: null }, 'act-close'],
    ['broken', { loadIsBack: true }, 'act-goOn'],
    ['broken', { tailEndsInS: 0 }, 'to-fracture'],
    ['stopped', { tailS: null, tailEndsInS: null }, 'act-close'],
    ['ended', {}, 'to-fracture'],
  ] as const)('when %s with %j, marks %s', (state, rules, marked) => {
    place.value = 'pull';
    opened(false);
    stands(state, { ...byItself, heldOpenS: 600, closesInS: 600, tailEndsInS: 2, ...rules });
    expect(markedOnPull()).toEqual([marked]);
  });

  it('marks making ready, also where it can’t be done yet: pressed, it says why', () => {
    place.value = 'pull';
    changeDraft({ id: 'P-1' });
    stands('listening');
    expect(markedOnPull()).toEqual(['to-station-on-call']);
    markKept(1);
    expect(markedOnPull()).toEqual(['act-ready']);
  });
});

describe('the list of the archive', () => {
  const listed = (): string[] => calls(withWays(FoundActs({})));
  beforeEach(() => {
    place.value = 'archive';
  });
  afterEach(unmarkAll);

  it('marks the way back to the job, and the rail names the same', () => {
    setOf('to-pull', null);
    expect([listed(), stationNamed()]).toEqual([['to-station-on-call'], 'set']);
    expect(calls(withWays(StepFromList()))).toEqual(['to-station-on-call']);
  });

  it('marks what looks at the marked pulls instead, and the rail nothing beside it', () => {
    stands('listening');
    markMore([4]);
    expect([listed(), stationNamed()]).toEqual([['open-marked'], null]);
    markMore([5]);
    expect([listed(), stationNamed()]).toEqual([['lay-over'], null]);
    // Where the search finds nothing only the step is there.
    expect(calls(withWays(StepFromList()))).toEqual(['lay-over']);
    // Those that are laid over each other are looked at already.
    archiveView.value = 'overlay';
    expect(stationNamed()).toBe('specimen');
    archiveView.value = 'table';
  });

  it('marks the pull that is recorded before all else', () => {
    stands('pulling');
    markMore([4, 5]);
    expect([listed(), stationNamed()]).toEqual([['to-station-on-call'], 'pull']);
  });
});

describe('the sheet of the result', () => {
  beforeEach(() => {
    place.value = 'result';
  });

  it('calls for the fracture while its place is not noted, outside a set and in one', () => {
    stands('ended');
    opened(false);
    expect(calledOnResult()).toEqual(['to-fracture']);
    setOf('to-pull', PULL_ID);
    expect(calledOnResult()).toEqual(['to-fracture']);
  });

  it('then calls for the next specimen, or for the set that the rail calls for', () => {
    stands('ended');
    opened(true);
    expect(calledOnResult()).toEqual(['next-specimen']);
    setOf('to-pull', PULL_ID);
    expect(calledOnResult()).toEqual(['to-set']);
    setOf('to-pull', null);
    expect(stationOnCall()).toBe('set');
    expect(calledOnResult()).toEqual(['to-set']);
    setOf('done', PULL_ID);
    expect(calledOnResult()).toEqual(['to-set']);
  });

  it('calls for nothing while the pull needs its person: the next specimen would close its record', () => {
    opened(false);
    stands('broken', { heldOpenS: 600, tailEndsInS: 2 });
    expect(calledOnResult()).toEqual([]);
    stands('broken', { heldOpenS: 600, tailEndsInS: 0, loadIsBack: true });
    expect(calledOnResult()).toEqual([]);
  });
});
