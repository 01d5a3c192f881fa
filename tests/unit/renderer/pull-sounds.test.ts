/** Fault C7: what is heard at the start, at the break and when readings no longer come, wherever one is; and silence. */
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Session, SessionState } from '../../../core/contract/session.ts';
import { CUES, LOUDNESSES, changeSound, cue } from '../../../renderer/design/sound-cue.ts';
import { soundThePull } from '../../../renderer/stations/pull/pull-sounds.ts';
import { session } from '../../../renderer/store/session-store.ts';

interface Tone {
  readonly hertz: number;
  readonly gain: number;
  readonly fromS: number;
  readonly toS: number;
}
/** What has reached the loudspeaker since it was last asked. */
let heard: Tone[] = [];

class Gain {
  readonly gain = { value: 1 };
  connect(to: unknown): unknown {
    return to;
  }
}
class Oscillator {
  readonly frequency = { value: 440 };
  #through: Gain | null = null;
  #fromS: number | null = null;
  connect(to: Gain): Gain {
    this.#through = to;
    return to;
  }
  start(fromS: number): void {
    this.#fromS = fromS;
  }
  stop(toS: number): void {
    if (this.#fromS === null || this.#through === null) throw new Error('Stopped before it was begun.');
    heard.push({ hertz: this.frequency.value, gain: this.#through.gain.value, fromS: this.#fromS, toS });
  }
}
/** As the engine's own, without a loudspeaker. */
class Speaker {
  readonly currentTime = 7;
  readonly destination = {};
  resume = (): Promise<void> => Promise.resolve();
  createOscillator = (): Oscillator => new Oscillator();
  createGain = (): Gain => new Gain();
}

const PULL_ID = 7;
function stands(state: SessionState, { fresh = true, pullId = PULL_ID } = {}): void {
  session.value = { state, signal: { fresh }, pull: { pullId } } as unknown as Session;
}
const pitches = (): number[] => heard.splice(0).map(({ hertz }) => hertz);

let stop = (): void => undefined;
beforeAll(() => vi.stubGlobal('AudioContext', Speaker));
beforeEach(() => {
  heard = [];
  changeSound({ on: true, loudness: 'usual' });
  session.value = null;
  stop = soundThePull();
});
afterEach(() => {
  stop();
  session.value = null;
});
afterAll(() => {
  vi.unstubAllGlobals();
  changeSound({ on: true, loudness: 'usual' });
});

describe('the cues of a pull', () => {
  it('rise at its start and fall at its break, each once, and say nothing of readings that go on', () => {
    stands('ready');
    expect(pitches()).toEqual([]);
    stands('pulling');
    expect(pitches()).toEqual([520, 780]);
    stands('pulling');
    expect(pitches()).toEqual([]);
    stands('broken');
    expect(pitches()).toEqual([780, 520, 390]);
    stands('broken');
    stands('ended');
    expect(pitches()).toEqual([]);
  });

  it('are four of one pitch when readings no longer come, once for each silence', () => {
    stands('pulling');
    stands('pulling', { fresh: false });
    expect(pitches()).toEqual([440, 440, 440, 440]);
    stands('pulling', { fresh: false });
    expect(pitches()).toEqual([]);
    stands('pulling');
    stands('pulling', { fresh: false });
    expect(pitches()).toEqual([440, 440, 440, 440]);
  });

  it('are not of a pull that stood there when the page was loaded, nor of another one', () => {
    stands('broken');
    expect(pitches()).toEqual([]);
    stands('pulling', { pullId: 8 });
    stands('broken', { pullId: 9, fresh: false });
    expect(pitches()).toEqual([]);
  });

  it('are not of silence after the break or before the next pull is made ready: nothing is lost then', () => {
    stands('broken');
    stands('broken', { fresh: false });
    stands('ended');
    stands('ended', { fresh: false });
    expect(pitches()).toEqual([]);
  });

  it('are told apart without their pitch: by their number, and no two sound alike', () => {
    expect(new Set(Object.values(CUES).map(({ length }) => length)).size).toBe(Object.keys(CUES).length);
  });

  it('come one tone after the other, and are louder by choice', () => {
    const gains = LOUDNESSES.map((loudness) => {
      changeSound({ loudness });
      cue('broken');
      const tones = heard.splice(0);
      tones.forEach((tone, i) => {
        expect(tone.toS).toBeGreaterThan(tone.fromS);
        expect(tone.fromS).toBeGreaterThanOrEqual(tones[i - 1]?.toS ?? 7);
      });
      expect(new Set(tones.map(({ gain }) => gain)).size).toBe(1);
      return tones[0]?.gain ?? 0;
    });
    expect(gains).toEqual([...gains].sort((a, b) => a - b));
    expect(new Set(gains).size).toBe(LOUDNESSES.length);
    expect(gains[0]).toBeGreaterThan(0);
  });

  it('are none once they are turned off, and are there again when they are turned on', () => {
    changeSound({ on: false });
    stands('ready');
    stands('pulling');
    stands('pulling', { fresh: false });
    stands('pulling');
    stands('broken');
    for (const which of Object.keys(CUES) as (keyof typeof CUES)[]) cue(which);
    expect(heard).toEqual([]);
    changeSound({ on: true });
    cue('trouble');
    expect(pitches()).toEqual([...CUES.trouble]);
  });
});
