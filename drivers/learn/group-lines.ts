/** Lines of several kinds that come by turns, load in one and extension in the next: together they are one record. */
import type { Framing } from '../../core/contract/readout-profile.ts';
import { LINES_PER_RECORD_MAX } from '../../core/contract/readout-profile.ts';

/** So many lines must keep the turn before it is believed. */
const IN_TURN_MIN = 0.9;
const LINES_MIN = 6;

export interface GroupedLines {
  readonly lines: NonNullable<Framing['lines']>;
  /** One text a record, its lines joined by LF. */
  readonly texts: readonly string[];
  /** Beginnings of the lines between them that hold no number ("STATUS:"). */
  readonly passedOver: readonly string[];
}

/** Null where all lines are of one kind, or where nothing marks the first or the last of a record. */
export function groupLines(texts: readonly string[]): GroupedLines | null {
  const withNumbers = texts.filter((text) => /\d/.test(text));
  if (withNumbers.length < LINES_MIN) return null;
  const kinds = withNumbers.map(kindOf);
  for (let count = 2; count <= LINES_PER_RECORD_MAX; count++) {
    const inTurn = kinds.filter((kind, index) => index >= count && kind === kinds[index - count]).length;
    if (inTurn < (kinds.length - count) * IN_TURN_MIN) continue;
    const turn = turnOf(kinds, count);
    // The same kind twice in a turn: the turn is shorter, or the lines say too little.
    if (turn === null || new Set(turn).size !== count) return null;
    // A state that changes from line to line makes no two kinds of them.
    if (new Set(turn.map(withoutState)).size !== count) return null;
    const records = recordsOf(withNumbers, kinds, turn);
    return records === null ? null : { ...records, passedOver: passedOver(texts, withNumbers) };
  }
  return null;
}

/** Their first words, where they come as often as the records and no line with a number begins so. */
function passedOver(texts: readonly string[], withNumbers: readonly string[]): string[] {
  const counts = new Map<string, number>();
  for (const text of texts) {
    const word = /\d/.test(text) ? undefined : /^\s*[A-Za-z]{2,}\s*[:=]?/.exec(text)?.[0];
    if (word !== undefined) counts.set(word, (counts.get(word) ?? 0) + 1);
  }
  return [...counts]
    .filter(([word, count]) => count >= LINES_MIN / 2 && !withNumbers.some((text) => text.startsWith(word)))
    .slice(0, LINES_PER_RECORD_MAX)
    .map(([word]) => word);
}

/** What is the same in all lines of a kind: its words and signs, without numbers and filling. */
function kindOf(text: string): string {
  return text.replace(/[+-]?[ \t]*\d[\d.,]*[+-]?/g, '#').replace(/[ \t]+/g, '');
}

/** Words of state of several letters as one (common practice, no source). */
const withoutState = (kind: string): string =>
  kind.replace(/\b(?:ST|US|OL|SD|SI|OK|GS|NT|NET|GROSS|STABLE|MOTION|RUN|IDLE|HOLD)\b/g, '~');

/** The kinds of one record from the kind that comes first; null where they don't come by turns. */
function turnOf(kinds: readonly string[], count: number): string[] | null {
  const first = kinds[0];
  if (first === undefined) return null;
  for (let at = 0; at + count <= kinds.length; at++) {
    const turn = kinds.slice(at, at + count);
    if (turn[0] === first && kinds[at + count] === first) return turn;
  }
  return null;
}

function recordsOf(
  lines: readonly string[],
  kinds: readonly string[],
  turn: readonly string[],
): Omit<GroupedLines, 'passedOver'> | null {
  const of = (kind: string | undefined): string[] => lines.filter((_, index) => kinds[index] === kind);
  const others = lines.filter((_, index) => kinds[index] !== turn[0]);
  const begins = before(of(turn[0]));
  const ends = behind(of(turn.at(-1)));
  const beforeLast = lines.filter((_, index) => kinds[index] !== turn.at(-1));
  const isMarked = begins !== '' && others.every((text) => !text.startsWith(begins));
  const isClosed = ends !== '' && beforeLast.every((text) => !text.endsWith(ends));
  if (!isMarked && !isClosed) return null;
  const texts: string[] = [];
  for (let at = 0; at + turn.length <= lines.length;) {
    if (turn.every((kind, index) => kinds[at + index] === kind)) {
      texts.push(lines.slice(at, at + turn.length).join('\n'));
      at += turn.length;
    } else at++;
  }
  return { lines: { count: turn.length, ...(isMarked ? { begins } : { ends }) }, texts };
}

/** The text that stands before the first number of all of them. */
function before(lines: readonly string[]): string {
  const heads = new Set(lines.map((line) => /^[^\d+-]*/.exec(line)?.[0].trimEnd() ?? ''));
  const [head] = heads;
  return heads.size === 1 && head !== undefined ? head : '';
}

/** The text that stands behind the last number of all of them. */
function behind(lines: readonly string[]): string {
  const tails = new Set(lines.map((line) => /[^\d+-]*$/.exec(line)?.[0].trimStart() ?? ''));
  const [tail] = tails;
  return tails.size === 1 && tail !== undefined ? tail : '';
}
