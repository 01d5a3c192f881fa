/** Where the lines of unknown bytes end, and which control bytes frame them. */
import type { Framing } from '../../core/contract/readout-profile.ts';

export interface FoundLines {
  readonly framing: Framing;
  /** Text of each whole line without framing, latin-1; empty ones left out. */
  readonly texts: readonly string[];
  /** In words: "CR LF", "ETX". */
  readonly terminatorWords: string;
}

/** Lines looked at: enough for any statistics, few enough to be quick. */
export const LEARN_LINES_MAX = 4_000;

const NAMES: Readonly<Record<number, string>> = {
  0: 'NUL',
  2: 'STX',
  3: 'ETX',
  4: 'EOT',
  10: 'LF',
  13: 'CR',
  23: 'ETB',
  30: 'RS',
};

const NEARLY_ALL_LINES = 0.9;

/** Null where nothing ends lines. */
export function findLines(bytes: Uint8Array): FoundLines | null {
  const text = Buffer.from(bytes).toString('latin1');
  const returns = count(text, '\r');
  const feeds = count(text, '\n');
  if (returns + feeds > 0) {
    const pairs = count(text, '\r\n');
    const words =
      pairs * 2 >= returns + feeds - 2 ? 'CR LF' : feeds === 0 ? 'CR' : returns === 0 ? 'LF' : 'CR and LF';
    const filled = /(\r?\n|\r)(\0{1,8})(?=[^\0])/.exec(text);
    // Bytes that gave an old printer's carriage time to return are part of the line's end.
    const ender = filled === null ? null : `${filled[1] ?? ''}${filled[2] ?? ''}`;
    if (ender !== null && count(text, ender) >= count(text, ender.replaceAll('\0', '')) * NEARLY_ALL_LINES)
      return framed({ custom: ender }, text.split(ender), nameOf(ender));
    if (checksLookLikeEnds(text)) return framed('crlf', text.split('\r\n'), 'CR LF');
    return framed('any', text.split(/[\r\n]+/), words);
  }
  const ender = bestEnder(text);
  if (ender === null) return null;
  return framed({ custom: ender }, text.split(ender), nameOf(ender));
}

/** Of checks that are any byte, one in 128 is CR or LF; more lines than this with one are cut by it in earnest. */
const CHECKS_LIKE_ENDS_MAX = 0.2;

/** Whether a CR or LF alone stands now and then just before CR LF: a check written as bytes. */
function checksLookLikeEnds(text: string): boolean {
  const pieces = text.split('\r\n');
  const places = pieces.flatMap((piece) => {
    const at = piece.search(/[\r\n]/);
    return at === -1 ? [] : [piece.length - at];
  });
  const atTheEnd = places.filter((fromEnd) => fromEnd <= 2).length;
  return (
    places.length > 0 &&
    places.length <= pieces.length * CHECKS_LIKE_ENDS_MAX &&
    atTheEnd >= places.length * NEARLY_ALL_LINES
  );
}

/**
 * Without CR and LF: a control byte that comes again and again, else a sign that stands nowhere but between pieces
 * of the same make.
 */
function bestEnder(text: string): string | null {
  const enders = [...new Set(text)].filter((sign) => sign < ' ' || /[;!#$&@|~>)\]}/]/.test(sign));
  // A control byte has no other work; a sign may stand between fields, and a tab does.
  const controls = enders.filter((sign) => sign < ' ' && sign !== '\t');
  return bestOf(controls, text) ?? bestOf(enders, text) ?? bestOf(BEGINNERS, text);
}

/** They stand before a value, not behind it ("=00120.3=00121.4"): a value is whole when the next one begins. */
const BEGINNERS = ['=', ':', '*'] as const;

function bestOf(enders: readonly string[], text: string): string | null {
  let best: string | null = null;
  let bestScore = 0;
  for (const ender of enders) {
    const pieces = text.split(ender).slice(1, -1);
    if (pieces.length < 3) continue;
    const withDigits = pieces.filter((piece) => /\d/.test(piece)).length / pieces.length;
    const skeletons = new Map<string, number>();
    for (const piece of pieces) {
      const skeleton = piece.replace(/[+-]?[ \t]*[\d.]+(?:,\d+)?/g, '#').replace(/[ \t]+/g, ' ');
      skeletons.set(skeleton, (skeletons.get(skeleton) ?? 0) + 1);
    }
    const sameness = Math.max(...skeletons.values()) / pieces.length;
    // An end byte (ETX) is one rather than a beginning (STX); a control byte rather than a printed sign.
    const bonus = ender === '\u0002' ? 0.1 : ender < ' ' ? 0.2 : 0;
    const score = withDigits * sameness + bonus;
    if (withDigits > 0.8 && score > bestScore) {
      best = ender;
      bestScore = score;
    }
  }
  return best;
}

function framed(terminator: Framing['terminator'], pieces: string[], terminatorWords: string): FoundLines {
  // The last piece has not ended.
  const lines = pieces
    .slice(0, -1)
    .filter((line) => line !== '')
    .slice(0, LEARN_LINES_MAX);
  const leading = commonEdge(lines, (line) => line.slice(0, controlRun(line, 1)));
  const trailing = commonEdge(lines, (line) => line.slice(line.length - controlRun(line, -1)));
  const texts = lines.map((line) => {
    const from = leading !== '' && line.startsWith(leading) ? leading.length : 0;
    const to = trailing !== '' && line.endsWith(trailing) ? line.length - trailing.length : line.length;
    return line.slice(from, Math.max(from, to));
  });
  return {
    framing: {
      terminator,
      ...(leading === '' ? {} : { leading }),
      ...(trailing === '' ? {} : { trailing }),
    },
    texts,
    terminatorWords,
  };
}

/** Control bytes that nearly every line has at one edge; a few lines may be damaged. */
function commonEdge(lines: readonly string[], edge: (line: string) => string): string {
  const counts = new Map<string, number>();
  for (const line of lines) counts.set(edge(line), (counts.get(edge(line)) ?? 0) + 1);
  const [found] = [...counts].sort((a, b) => b[1] - a[1]);
  return found !== undefined && found[1] >= lines.length * 0.7 ? found[0] : '';
}

/** Control bytes (tab is a blank, not one) at the beginning (1) or the end (−1) of a line. */
function controlRun(line: string, direction: 1 | -1): number {
  let length = 0;
  while (length < line.length) {
    const sign = line.at(direction === 1 ? length : -1 - length) ?? ' ';
    if (sign >= ' ' || sign === '\t') break;
    length++;
  }
  return length;
}

function count(text: string, part: string): number {
  return text.split(part).length - 1;
}

function nameOf(bytes: string): string {
  const names = Array.from(
    bytes,
    (byte) =>
      NAMES[byte.charCodeAt(0)] ??
      (byte < ' ' ? `0x${byte.charCodeAt(0).toString(16).padStart(2, '0')}` : `"${byte}"`),
  );
  return names.join(' ');
}
