/** Results over time are gathered pull by pull and judged set by set; stopped in either, it goes on where it stopped. */
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest';
import type { Bridge } from '../../../core/contract/bridge.ts';
import { connectStore } from '../../../renderer/store/session-store.ts';
import { trendRules } from '../../../core/trend/trend-pull.ts';
import {
  fault,
  gather,
  isGathering,
  isWhole,
  pulls,
  sets,
  setsJudged,
  stopGathering,
} from '../../../renderer/trend/trend-pulls.ts';

const PULLS = [1, 2, 3, 4];
const asked: string[] = [];
/** What is asked about these is not answered until the test lets it. */
const held = new Map<string, Promise<void>>();
/** Codes with which these are refused. */
const refused = new Map<string, string>();

interface Payload {
  readonly pullIds?: readonly number[];
  readonly pullId?: number;
  readonly setId?: number;
}

/** Every pull is in a set of its own, whose number is ten times its own. */
function answerTo(name: string, { pullIds = [], pullId = 0, setId = 0 }: Payload): unknown {
  switch (name) {
    case 'archive.lines':
      return {
        items: pullIds.map((id) => ({
          pullId: id,
          specimenName: `W-${String(id)}`,
          startedWallMs: id,
          started: '2026-03-01T08:00:00.000Z',
          pulledOn: null,
          setId: 10 * id,
          ended: true,
          // The last one counts no more: nothing comes of it.
          voidReason: id === PULLS.length ? 'slipped' : null,
        })),
      };
    case 'evaluation.known':
      return { items: [] };
    case 'set.get':
      return { set: { form: { baseMetals: [] } }, members: [{ setMemberId: setId, pullId: setId / 10 }] };
    case 'set.judge':
      return { members: [{ setMemberId: setId, verdict: null }] };
    case 'pull.evaluate':
      return { results: [{ symbol: 'Rm', value: 500 + pullId, unit: 'MPa' }] };
    default:
      return undefined;
  }
}

const bridge = {
  platform: 'linux',
  on: () => () => undefined,
  request: async (name: string, payload: Payload) => {
    const of = `${name} ${String(payload.pullId ?? payload.setId ?? '')}`;
    asked.push(of);
    await held.get(of);
    const code = refused.get(of);
    if (code !== undefined) return { ok: false, fault: { code, sentence: 'Not this one.' } };
    const value = answerTo(name, payload);
    return value === undefined
      ? { ok: false, fault: { code: 'refused', sentence: 'Not here.' } }
      : { ok: true, value };
  },
} as unknown as Bridge;

let letGo: () => void;
beforeAll(() => {
  letGo = connectStore(bridge);
});
afterAll(() => letGo());
afterEach(() => {
  stopGathering();
  held.clear();
  refused.clear();
  asked.length = 0;
});

const judgedOf = (): number[] => sets.value.map(({ setId }) => setId);
const askedOf = (name: string): string[] => asked.filter((one) => one.startsWith(name));
function hold(of: string): () => void {
  let letIt = (): void => undefined;
  held.set(of, new Promise<void>((resolve) => (letIt = resolve)));
  return letIt;
}
const until = async (is: () => boolean): Promise<void> => {
  for (let i = 0; i < 1_000 && !is(); i++) await new Promise((resolve) => setTimeout(resolve, 1));
  expect(is()).toBe(true);
};

it('is whole when every set is judged, also where nothing comes of the last pull', async () => {
  await gather(PULLS, true);
  expect(pulls.value.map(({ pullId }) => pullId)).toEqual([1, 2, 3]);
  expect([judgedOf(), isWhole.value]).toEqual([[10, 20, 30], true]);
});

it('stopped while its sets are judged keeps those that were, and goes on with the others', async () => {
  const letSecond = hold('set.judge 20');
  const first = gather(PULLS, true);
  await until(() => asked.includes('set.judge 20'));
  stopGathering();
  expect([isGathering.value, isWhole.value, judgedOf()]).toEqual([false, false, [10]]);
  expect(setsJudged.value).toEqual({ done: 1, all: 3 });
  letSecond();
  await first;
  // What was under way is not taken from a gathering that was stopped.
  expect(judgedOf()).toEqual([10]);
  held.clear();
  asked.length = 0;
  await gather([], false);
  expect([judgedOf(), isWhole.value, setsJudged.value]).toEqual([[10, 20, 30], true, { done: 3, all: 3 }]);
  expect(askedOf('set.judge')).toEqual(['set.judge 20', 'set.judge 30']);
  expect(askedOf('pull.evaluate')).toEqual([]);
});

it('stopped while pulls are evaluated goes on with those that are left', async () => {
  const letSecond = hold('pull.evaluate 2');
  const first = gather(PULLS, true);
  await until(() => asked.includes('pull.evaluate 2'));
  stopGathering();
  letSecond();
  await first;
  expect([pulls.value.map(({ pullId }) => pullId), isWhole.value]).toEqual([[1], false]);
  held.clear();
  asked.length = 0;
  await gather([], false);
  expect(askedOf('pull.evaluate')).toEqual(['pull.evaluate 2', 'pull.evaluate 3']);
  expect([judgedOf(), isWhole.value]).toEqual([[10, 20, 30], true]);
});

it('passes over a set that is refused: no verdict is known of its pulls, and those of the others are', async () => {
  refused.set('set.judge 20', 'rule-pack-damaged');
  await gather(PULLS, true);
  expect([judgedOf(), isWhole.value, fault.value?.sentence]).toEqual([[10, 20, 30], true, 'Not this one.']);
  const { whyNot } = trendRules(sets.value, pulls.value, 'Rm');
  expect([...whyNot].map(([{ pullId }, why]) => [pullId, why])).toContainEqual([2, 'no-verdict']);
});

it('asks again for a set of which nobody answered', async () => {
  refused.set('set.judge 20', 'recorder-gone');
  await gather(PULLS, true);
  expect([judgedOf(), isWhole.value]).toEqual([[10], false]);
  refused.clear();
  await gather([], false);
  expect([judgedOf(), isWhole.value, fault.value]).toEqual([[10, 20, 30], true, null]);
});
