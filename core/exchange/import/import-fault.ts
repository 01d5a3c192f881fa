/** What stands in the way of an import: one sentence with what is wrong, where, and what to do. */
export interface ImportFault {
  readonly code: string;
  readonly sentence: string;
  /** Line of the file, from 1. */
  readonly line?: number;
}

/** Text of the file inside a sentence: short, and without what would break the sentence. */
export function shown(text: string, lengthMax = 40): string {
  const plain = text.trim().replace(/\s+/g, ' ');
  return `"${plain.length > lengthMax ? `${plain.slice(0, lengthMax)}…` : plain}"`;
}
