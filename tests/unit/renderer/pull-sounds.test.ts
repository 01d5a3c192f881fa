/** Fault C7: what is heard at the start, at the break and when readings no longer come, wherever one is; and silence. */
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Session, SessionState } from '../../../core/contract/session.ts';
import { CUES, LOUDNESSES, changeSound, cue } from '../../../renderer/design/sound-cue.ts';
import { soundThePull } from '../../../renderer/stations/pull/pull-sounds.ts';
import { notices, recorderLink, session } from '../../../renderer/store/session-store.ts';

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
function stands(state: SessionState, { fresh = true, pullId = PULL_ID, gaps = 0 } = {}): void {
  session.value = {
    state,
    signal: { fresh },
    pull: { pullId, gaps: Array.from({ length: gaps }, () => ({})) },
  } as unknown as Session;
}
function alarms(...codes: readonly string[]): void {
  notices.value = new Map(
    codes.map((code) => [code, { severity: 'alarm', code, sentence: '', since: 0, over: false }]),
  );
}
/** Long enough for the next trouble to be heard. */
const later = (): unknown => vi.advanceTimersByTime(10_000);
const TROUBLE = [...CUES.trouble];
const pitches = (): number[] => heard.splice(0).map(({ hertz }) => hertz);

let stop = (): void => undefined;
beforeAll(() => {
  vi.stubGlobal('AudioContext', Speaker);
  vi.useFakeTimers({ toFake: ['performance'] });
});
beforeEach(() => {
  heard = [];
  changeSound({ on: true, loudness: 'usual' });
  session.value = null;
  stop = soundThePull();
});
afterEach(() => {
  stop();
  session.value = null;
  notices.value = new Map();
  recorderLink.value = null;
});
afterAll(() => {
  vi.useRealTimers();
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
    later();
    stands('pulling', { fresh: false });
    expect(pitches()).toEqual([440, 440, 440, 440]);
  });

  it.each([
    ['a port that is gone', () => alarms('signal-lost')],
    ['a port of a second instrument', () => alarms('second-signal-lost')],
    ['loads that can’t be used', () => alarms('load-not-usable')],
    ['a load beyond the range', () => alarms('load-beyond-range')],
    ['a disk that takes nothing', () => alarms('archive-not-written')],
    ['readings that are lost', () => alarms('readings-not-kept')],
    ['a gap', () => stands('pulling', { gaps: 1 })],
    [
      'a recorder that is gone',
      () => (recorderLink.value = { state: 'connecting', fault: null, restartCount: 0 }),
    ],
  ])('are the same of %s, once', (_, begins) => {
    stands('ready');
    stands('pulling');
    pitches();
    begins();
    expect(pitches()).toEqual(TROUBLE);
    later();
    stands('pulling', { gaps: session.value?.pull?.gaps.length ?? 0 });
    expect(pitches()).toEqual([]);
  });

  it('are one for what comes together, and no more often than in five seconds; what stands then is heard', () => {
    stands('pulling');
    later();
    stands('pulling', { fresh: false });
    alarms('no-fresh-reading');
    alarms('no-fresh-reading', 'signal-lost');
    expect(pitches()).toEqual(TROUBLE);
    alarms('archive-not-written');
    vi.advanceTimersByTime(4_000);
    stands('pulling', { fresh: false });
    expect(pitches()).toEqual([]);
    vi.advanceTimersByTime(2_000);
    stands('pulling');
    expect(pitches()).toEqual(TROUBLE);
    later();
    stands('pulling');
    expect(pitches()).toEqual([]);
  });

  it('are of the disk behind the break too, not of a warning, nor of what stood before the pull', () => {
    alarms('archive-disk-slow');
    stands('ready');
    stands('pulling');
    pitches();
    later();
    notices.value = new Map([
      ...notices.value,
      ['x', { severity: 'warning', code: 'x', sentence: '', since: 0, over: false }],
    ]);
    expect(pitches()).toEqual([]);
    stands('broken');
    pitches();
    alarms('signal-lost');
    expect(pitches()).toEqual([]);
    alarms('archive-not-written');
    expect(pitches()).toEqual(TROUBLE);
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
