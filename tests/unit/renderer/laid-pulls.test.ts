/** Curves over each other: what draws each comes before what is read out of it. */
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Bridge } from '../../../core/contract/bridge.ts';
import { laidCurves } from '../../../renderer/overlay/overlay-curves.ts';
import { lay, layNothing, laid, stillRead } from '../../../renderer/overlay/laid-pulls.ts';
import { connectStore } from '../../../renderer/store/session-store.ts';
import { asInFiles, numberForm } from '../../../renderer/numbers/number-form.ts';
import { words } from '../../../renderer/words/words.ts';
import { block } from './reading-block.ts';

const LONG = 1;
const SHORT = 2;
const TYPED = 3;
/** N; the peak is the eighth of ten. */
const LOADS = [0, 10, 20, 30, 40, 50, 60, 90, 80, 5];
/** Kept of the long one, by their numbers: the peak is the fourth of them. */
const OUTLINE = [0, 2, 5, 7, 9];

const asked: string[] = [];
/** Requests that are not answered until the test lets them. */
let held: Promise<void> = Promise.resolve();
const NAMES_HELD = new Set<string>();

function answerTo(name: string, pullId: number): unknown {
  switch (name) {
    case 'pull.get':
      return {
        specimenName: `T-${String(pullId)}`,
        readingCount: LOADS.length,
        gaps: [],
        triggerSeq: 0,
        breakSeq: null,
        typed: pullId === TYPED ? {} : null,
        state: 'ended',
      };
    case 'pull.outline':
      return {
        outline:
          pullId === LONG
            ? {
                total: LOADS.length,
                readings: Float64Array.from(OUTLINE),
                elapsedUs: Float64Array.from(OUTLINE, (i) => i * 1_000),
                force: Float64Array.from(OUTLINE, (i) => LOADS[i] ?? Number.NaN),
                abscissa: null,
                along: null,
              }
            : null,
      };
    case 'pull.evaluate':
      return {
        results: [
          {
            symbol: 'Fm',
            value: 117_340,
            unit: 'N',
            rounded: [{ value: 117_300, unit: 'N', text: '117300' }],
          },
        ],
        withheld: [],
        proofs: [],
        marks: { maximumForce: 7, fracture: 9 },
        remarks: [],
        methodVersion: '3',
      };
    case 'pull.readings':
      return { basis: 0, total: LOADS.length, columns: block(0, LOADS) };
    default:
      throw new Error(name);
  }
}

const bridge = {
  platform: 'linux',
  on: () => () => undefined,
  request: async (name: string, payload: { readonly pullId?: number }) => {
    const { pullId } = payload;
    if (pullId === undefined) return { ok: false, fault: { code: 'refused', sentence: 'not in this test' } };
    asked.push(`${name} ${String(pullId)}`);
    if (NAMES_HELD.has(name)) await held;
    return { ok: true, value: answerTo(name, pullId) };
  },
} as unknown as Bridge;

let letGo = (): void => undefined;
beforeAll(() => {
  letGo = connectStore(bridge);
});
afterAll(() => letGo());
afterEach(() => {
  layNothing();
  NAMES_HELD.clear();
  asked.length = 0;
});

const seen = async (look: () => boolean): Promise<void> => {
  for (let i = 0; i < 1_000 && !look(); i++) await Promise.resolve();
  expect(look()).toBe(true);
};
const one = (pullId: number) => laid.value.find((its) => its.pullId === pullId);
const drawn = (form: 'load-time' | 'stress-strain') =>
  laidCurves(
    laid.value.flatMap(({ pull }) => (pull === null ? [] : [pull])),
    { form, alignment: { kind: 'elastic-zero' }, system: 'SI', words: words.value },
  );

describe('curves that are laid over each other', () => {
  it('are all drawn before the readings of a long one are asked for', async () => {
    await lay([LONG, SHORT, TYPED]);
    const first = (name: string, pullId: number): number => asked.indexOf(`${name} ${String(pullId)}`);
    expect(first('pull.readings', SHORT)).toBeGreaterThan(-1);
    expect(first('pull.readings', LONG)).toBeGreaterThan(first('pull.readings', SHORT));
    expect(first('pull.readings', LONG)).toBeGreaterThan(first('pull.evaluate', LONG));
    expect(first('pull.evaluate', LONG)).toBeGreaterThan(first('pull.outline', LONG));
    // Nothing is asked for twice.
    expect(new Set(asked).size).toBe(asked.length);
    expect(laid.value.map(({ state }) => state)).toEqual(['ready', 'ready', 'failed']);
    expect(one(TYPED)?.words?.()).toBe(words.value.look.noCurve);
    expect(stillRead.value).toBe(0);
  });

  it('stand as their outline until then, with what was found at its place in it', async () => {
    let answer = (): void => undefined;
    held = new Promise((done) => (answer = done));
    NAMES_HELD.add('pull.readings');
    const laying = lay([LONG]);
    await seen(() => asked.includes(`pull.readings ${String(LONG)}`));
    expect(one(LONG)).toMatchObject({ state: 'reading', pull: { isOutline: true } });
    expect(one(LONG)?.pull?.curve.length).toBe(OUTLINE.length);
    expect(one(LONG)?.pull?.evaluation?.marks).toEqual({ maximumForce: 3, fracture: 4 });
    expect(stillRead.value).toBe(1);
    const outlined = drawn('load-time');
    expect(outlined.curves[0]?.index.extent?.y.most).toBeCloseTo(0.09, 9);
    // What is not known of it yet is no lack of it.
    expect(outlined.notes.size).toBe(0);
    expect(drawn('stress-strain').notes.size).toBe(0);
    answer();
    await laying;
    expect(one(LONG)).toMatchObject({ state: 'ready', part: 1 });
    expect(one(LONG)?.pull?.isOutline).toBeUndefined();
    expect(one(LONG)?.pull?.curve.length).toBe(LOADS.length);
    expect(one(LONG)?.pull?.evaluation?.marks.maximumForce).toBe(7);
    expect(drawn('stress-strain').notes.get(LONG)).toBe(words.value.look.reasons['no-strain']);
  });

  it('have the figures at their signs in the decimal sign that was chosen, and in another as soon as that is', async () => {
    await lay([SHORT]);
    const said = (): string[] => (drawn('load-time').curves[0]?.plot.marks ?? []).map((mark) => mark.words);
    expect(said()).toContain('Fm 117.3 kN');
    numberForm.value = 'comma';
    expect(said()).toContain('Fm 117,3 kN');
    // A picture that is saved has a point, and the page its comma afterwards.
    expect(asInFiles(said)).toContain('Fm 117.3 kN');
    expect(said()).toContain('Fm 117,3 kN');
    numberForm.value = 'language';
  });

  it('are let go of while they are read: nothing more is asked for, and nothing comes back', async () => {
    let answer = (): void => undefined;
    held = new Promise((done) => (answer = done));
    NAMES_HELD.add('pull.outline');
    const laying = lay([LONG, SHORT]);
    await seen(() => asked.includes(`pull.outline ${String(LONG)}`));
    layNothing();
    answer();
    await laying;
    expect(asked.filter((name) => name.startsWith('pull.readings'))).toEqual([]);
    expect(laid.value).toEqual([]);
  });
});
