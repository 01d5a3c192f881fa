/** Texts about what a calliper sends, in English. */
export const enCalliper = {
  hint: 'A calliper may type here: value, Enter, the next one; Enter in an empty field goes to the next size.',
  beep: 'A tone sounds when a size is asked about.',
  ask: (text: string, usual: string) =>
    `Is ${text} right? Specimens of this shape are usually ${usual} here. It is not kept until you say so.`,
  right: 'It is right',
};
