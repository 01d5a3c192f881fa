/** Texts about the sound cues, in English. */
export const enSound = {
  title: 'Sound: start, break, no reading',
  on: 'Sound on',
  off: 'Sound off',
  loudness: 'Loudness',
  loudnesses: { low: 'low', usual: 'usual', high: 'high' },
  tryIt: 'Try it',
};
