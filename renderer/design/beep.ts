/** A short tone, for somebody who looks at the specimen and not at the screen. Can be turned off; kept over starts. */
import { signal } from '@preact/signals';
import { z } from 'zod';
import { remember, remembered } from '../store/remembered.ts';

const KEY = 'gaugemark.beep';
const HERTZ = 660;
const SECONDS = 0.18;
const LOUDNESS = 0.15;

export const beepsOn = signal<boolean>(remembered(KEY, z.boolean(), true));
export function keepBeep(): void {
  remember(KEY, () => beepsOn.value);
}

let sound: AudioContext | null = null;

export function beep(): void {
  if (!beepsOn.peek() || typeof AudioContext === 'undefined') return;
  sound ??= new AudioContext();
  const tone = sound.createOscillator();
  const gain = sound.createGain();
  tone.frequency.value = HERTZ;
  gain.gain.value = LOUDNESS;
  tone.connect(gain).connect(sound.destination);
  tone.start();
  tone.stop(sound.currentTime + SECONDS);
}
