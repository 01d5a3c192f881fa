/** Short tones for somebody who looks at the specimen and not at the screen. Can be tried, made louder, and turned off. */
import { signal } from '@preact/signals';
import { z } from 'zod';
import { remember, remembered } from '../store/remembered.ts';

export const LOUDNESSES = ['low', 'usual', 'high'] as const;
export type Loudness = (typeof LOUDNESSES)[number];

/** Each as pitches in hertz, one after the other; told apart by their number and by whether they rise or fall. */
export const CUES = {
  /** A typed size is asked about. */
  asked: [660],
  started: [520, 780],
  broken: [780, 520, 390],
  /** No fresh reading while a pull is recorded. */
  trouble: [440, 440, 440, 440],
} as const satisfies Record<string, readonly number[]>;
export type Cue = keyof typeof CUES;

const TONE_S = 0.16;
const PAUSE_S = 0.05;
/** Shares of the system's own volume. */
const GAIN: Readonly<Record<Loudness, number>> = { low: 0.05, usual: 0.2, high: 0.7 };

const KEY = 'gaugemark.sound';
const soundForm = z.object({ on: z.boolean(), loudness: z.enum(LOUDNESSES) });

export const sound = signal<z.infer<typeof soundForm>>(
  remembered(KEY, soundForm, { on: true, loudness: 'usual' }),
);
export function keepSound(): void {
  remember(KEY, () => sound.value);
}
export const changeSound = (change: Partial<z.infer<typeof soundForm>>): void => {
  sound.value = { ...sound.peek(), ...change };
};

let speaker: AudioContext | null = null;

export function cue(which: Cue): void {
  const { on, loudness } = sound.peek();
  if (!on || typeof AudioContext === 'undefined') return;
  speaker ??= new AudioContext();
  // Made before anything was pressed, it waits for that.
  void speaker.resume();
  for (const [index, hertz] of CUES[which].entries()) {
    const tone = speaker.createOscillator();
    const gain = speaker.createGain();
    const from = speaker.currentTime + index * (TONE_S + PAUSE_S);
    tone.frequency.value = hertz;
    gain.gain.value = GAIN[loudness];
    tone.connect(gain).connect(speaker.destination);
    tone.start(from);
    tone.stop(from + TONE_S);
  }
}
