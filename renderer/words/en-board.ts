/** Texts of the board, in English. */
export const enBoard = {
  open: 'Show the arithmetic',
  title: (name: string) => `Arithmetic of ${name}`,
  forward: 'Next',
  back: 'Back',
  hide: 'Hide answers',
  keys: 'Space or → next, ← back, H hides answers, Esc closes',
  place: (at: string, of: string) => `${at} of ${of}`,
  nothing: 'Nothing of this pull can be worked out by hand yet.',
};
