/** Texts about a pull as the blank run of a frame, in English. */
export const enBlankRun = {
  number: 'Pull number',
  take: 'Take that pull',
  notYet: 'Type the number of a pull in which a stiff bar stood in the grips in place of a specimen.',
};
