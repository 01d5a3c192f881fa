/** A line taken apart into numbers, words and signs. */
export interface Token {
  readonly kind: 'number' | 'clock' | 'word' | 'sign';
  readonly text: string;
  readonly start: number;
  /** Blanks before it. */
  readonly blanks: number;
}

export interface TokenStyle {
  readonly decimalSign: '.' | ',';
  readonly groupSign: ',' | '.' | ' ' | "'" | null;
}

/** A function that takes a line apart; the same signs as in the number grammar. */
export function tokeniser({ decimalSign, groupSign }: TokenStyle): (line: string) => Token[] {
  const decimal = `\\${decimalSign}`;
  const whole = groupSign === null ? '\\d+' : `(?:\\d{1,3}(?:\\${groupSign}\\d{3})+|\\d+)`;
  const pattern = new RegExp(
    [
      // Dates are words: they tell the day, not the reading.
      '(?<date>\\d{4}[-/.]\\d{2}[-/.]\\d{2}T?|\\d{2}[-/.]\\d{2}[-/.]\\d{4})',
      `(?<clock>\\d{1,2}:\\d{2}(?::\\d{2})?(?:${decimal}\\d+)?)`,
      // A sign belongs to the number where nothing that could be a number stands before it.
      `(?<number>(?:(?<![\\w)])[+-][ \\t]*|(?<=[A-Za-z])[+-][ \\t]*|(?<=\\d)[+-](?=\\d))?(?:${whole}(?:${decimal}\\d*)?|(?<![\\d${decimal}])${decimal}\\d+)(?:[eE][+-]?\\d{1,3}(?![\\dA-Za-z${decimal}]))?)`,
      '(?<word>[A-Za-zÀ-ÿµμ°ε²³%][A-Za-zÀ-ÿµμ°ε²³%/^_]*)',
      '(?<sign>[^\\sA-Za-z0-9])',
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
            : groups['sign'] !== undefined
              ? 'sign'
              : 'word';
      tokens.push({ kind, text: match[0], start: match.index, blanks: match.index - end });
      end = match.index + match[0].length;
    }
    return tokens;
  };
}

/** Numbers and words as their kind, signs as they are: what lines of one make have in common. */
export function skeletonOf(tokens: readonly Token[]): string {
  return tokens
    .map((token) => ({ number: '#', clock: ':', word: 'w', sign: token.text })[token.kind])
    .join('');
}
