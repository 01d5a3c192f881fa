/** So many of something, for English sentences: "1 pull", "2 pulls". */
export const counted = (n: number, word: string): string => `${String(n)} ${word}${n === 1 ? '' : 's'}`;
