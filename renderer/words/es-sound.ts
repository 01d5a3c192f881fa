/** Texts about the sound cues, in Spanish. */
import type { Words } from './en.ts';

export const esSound: Words['sound'] = {
  title: 'Sonido: comienzo, rotura, sin lectura',
  on: 'Con sonido',
  off: 'Sin sonido',
  loudness: 'Volumen',
  loudnesses: { low: 'bajo', usual: 'normal', high: 'alto' },
  tryIt: 'Probarlo',
};
