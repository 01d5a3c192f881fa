/** One obvious next step: what the rail calls for, what each station knows, and what the sheet of the result calls for. */
import { signal } from '@preact/signals';
import type { ComponentChildren, VNode } from 'preact';
import { afterEach, describe, expect, it } from 'vitest';
import type { Session, SessionState } from '../../../core/contract/session.ts';
import { knownAt, stationOnCall } from '../../../renderer/stations/known.ts';
import { endedPull, typedPullId } from '../../../renderer/stations/opened-pull.ts';
import { ResultStation } from '../../../renderer/stations/result/result-station.tsx';
import { type OpenedSet, carried, openedSet } from '../../../renderer/stations/set/open-set.ts';
import { STATIONS } from '../../../renderer/store/place.ts';
import type { OpenedPull } from '../../../renderer/store/kept-pull.ts';
import { session } from '../../../renderer/store/session-store.ts';

const PULL_ID = 7;

interface Tail {
  readonly heldOpenS?: number | null;
  readonly tailEndsInS?: number | null;
  readonly loadIsBack?: boolean;
}

/** Only what the rail asks of a session. */
function stands(state: SessionState, tail: Tail = {}): void {
  session.value = {
    state,
    readout: null,
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
            ...tail,
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

afterEach(() => {
  session.value = null;
  endedPull.value = null;
  openedSet.value = null;
  carried.value = null;
  typedPullId.value = null;
});

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
    expect(stationOnCall()).toBe('result');
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

describe('the sheet of the result', () => {
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
