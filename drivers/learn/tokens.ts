/** A line taken apart into numbers, words and signs. */
import { writtenUnit } from './unit-words.ts';

export interface Token {
  /** `zone`: the Z behind a clock that shows universal time; it is no name of anything. */
  readonly kind: 'number' | 'clock' | 'zone' | 'word' | 'sign';
  readonly text: string;
  readonly start: number;
  /** Blanks before it. */
  readonly blanks: number;
}

export interface TokenStyle {
  readonly decimalSign: '.' | ',';
  readonly groupSign: ',' | '.' | ' ' | "'" | null;
  readonly minusInParentheses: boolean;
}

/** A function that takes a line apart; the same signs as in the number grammar. */
export function tokeniser({
  decimalSign,
  groupSign,
  minusInParentheses,
}: TokenStyle): (line: string) => Token[] {
  const decimal = `\\${decimalSign}`;
  const whole = groupSign === null ? '\\d+' : `(?:\\d{1,3}(?:\\${groupSign}\\d{3})+|\\d+)`;
  const digits = `(?:${whole}(?:${decimal}\\d*)?|(?<![\\d${decimal}])${decimal}\\d+)`;
  const inParentheses = minusInParentheses ? `\\([ \\t]*${digits}[ \\t]*\\)|` : '';
  const pattern = new RegExp(
    [
      // Dates are words: they tell the day, not the reading.
      '(?<date>\\d{4}[-/.]\\d{2}[-/.]\\d{2}T?|\\d{2}[-/.]\\d{2}[-/.](?:\\d{4}|\\d{2}(?=[ T,;]+\\d{1,2}:\\d{2})))',
      `(?<clock>\\d{1,2}:\\d{2}(?::\\d{2})?(?:[${decimal}.]\\d+)?)`,
      '(?<zone>(?<=\\d:\\d{2}(?:[.,]\\d+)?)Z)',
      // A sign belongs to the number where nothing that could be a number stands before it.
      `(?<number>${inParentheses}(?:(?<![\\w)])[+-][ \\t]*|(?<=[A-Za-z])[+-][ \\t]*|(?<=\\d)[+-](?=\\d))?${digits}(?:[eE][+-]?\\d{1,3}(?![\\dA-Za-z${decimal}]))?)`,
      '(?<word>[A-Za-zÀ-ÿµμ°ε²³%][A-Za-zÀ-ÿµμ°ε²³%/^_]*)',
      '(?<sign>[^\\sA-Za-z0-9]|\\n)',
    ].join('|'),
    'g',
  );
  return (line) => {
    const tokens: Token[] = [];
    let end = 0;
    for (const match of line.matchAll(pattern)) {
      const { groups = {} } = match;
      const kind =
        groups['number'] !== undefined
          ? 'number'
          : groups['clock'] !== undefined
            ? 'clock'
            : groups['zone'] !== undefined
              ? 'zone'
              : groups['sign'] !== undefined
                ? 'sign'
                : 'word';
      const flagAt = kind === 'word' && tokens.at(-1)?.kind === 'number' ? flagPlace(match[0]) : null;
      const [start, text] = [match.index, match[0]];
      tokens.push({ kind, text: flagAt === null ? text : text.slice(0, flagAt), start, blanks: start - end });
      if (flagAt !== null) tokens.push({ kind, text: text.slice(flagAt), start: start + flagAt, blanks: 0 });
      end = start + text.length;
    }
    return tokens;
  };
}

/** Where a state's letter begins that stands behind a unit without a blank ("12.5kgM", in motion); null where none does. */
function flagPlace(word: string): number | null {
  const at = word.length - 1;
  if (at < 2 || !/[A-Z]$/.test(word) || writtenUnit(word) !== null) return null;
  return writtenUnit(word.slice(0, at)) === null ? null : at;
}

/** Numbers and words as their kind, signs as they are: what lines of one make have in common. */
export function skeletonOf(tokens: readonly Token[]): string {
  return tokens
    .map((token) => ({ number: '#', clock: ':', zone: 'Z', word: 'w', sign: token.text })[token.kind])
    .join('');
}
