/** Whether lines carry a check at their end, by trying what is usual and seeing whether it comes out right. */
import type { LineCheck } from '../../core/contract/readout-profile.ts';
import { checkValue, lineChecker } from '../lines/line-check.ts';

/** Lines on which a check is tried, and how many must agree: a damaged line now and then is what checks are for. */
const TRIED_MAX = 200;
const AGREEING_MIN = 0.85;
const LINES_MIN = 4;

const KINDS = ['xor', 'sum', 'sum16', 'sum-twos-complement', 'crc16-modbus', 'crc16-ccitt', 'crc8'] as const;
const HEX_TAIL = /^(.*?)([^0-9A-Za-z]{0,2})([0-9A-Fa-f]{4}|[0-9A-Fa-f]{2})$/s;

/** The check that nearly all lines carry; null where none of the usual ones does. */
export function findCheck(texts: readonly string[], leading: string): LineCheck | null {
  const lines = spread(texts, TRIED_MAX);
  if (lines.length < LINES_MIN) return null;
  const bySize = [...candidates(lines, leading !== '')];
  for (const check of bySize) {
    const checker = lineChecker(check, leading);
    // A first look at a few lines throws nearly every candidate out.
    if (lines.slice(0, 4).filter((line) => checker(line).ok).length < 2) continue;
    const agreeing = lines.filter((line) => checker(line).ok);
    if (agreeing.length >= lines.length * AGREEING_MIN && takesDifferentValues(agreeing, check)) return check;
  }
  return null;
}

/** A check that is the same in every line has checked nothing. */
function takesDifferentValues(lines: readonly string[], check: LineCheck): boolean {
  return new Set(lines.map((line) => checkValue(check.kind, Buffer.from(line, 'latin1')))).size > 1;
}

function* candidates(lines: readonly string[], hasLeading: boolean): Generator<LineCheck> {
  const sample = lines.slice(0, 12);
  const markers = new Set<string>();
  for (const line of sample) {
    const match = HEX_TAIL.exec(line);
    if (match !== null) for (const marker of tails(match[2] ?? '')) markers.add(marker);
    const decimal = /([^0-9]{0,2})\d{1,5}$/.exec(line);
    if (decimal !== null) for (const marker of tails(decimal[1] ?? '')) markers.add(marker);
    // A check as a byte that is no text, behind ETX or straight behind the line.
    markers.add(Array.from(line.slice(-3, -1)).find((sign) => sign < ' ') ?? '');
  }
  const upper = sample.some((line) => /[A-F][0-9A-F]?$|[0-9A-F][A-F]$/.test(line));
  const hex = upper
    ? 'hex-upper'
    : sample.some((line) => /[a-f][0-9a-f]?$/.test(line))
      ? 'hex-lower'
      : 'hex-any';
  for (const marker of markers)
    for (const skipped of [0, 1])
      for (const markerSummed of marker === '' ? [false] : [false, true])
        for (const leadingSummed of hasLeading ? [false, true] : [false])
          for (const kind of KINDS)
            for (const written of [hex, 'decimal', 'decimal-modulo-100', 'byte'] as const)
              yield { kind, marker, written, skipped, markerSummed, leadingSummed };
}

/** "", "*", " *" of " *". */
function tails(text: string): string[] {
  return Array.from({ length: text.length + 1 }, (_, at) => text.slice(at));
}

function spread(texts: readonly string[], most: number): string[] {
  const step = Math.max(1, Math.floor(texts.length / most));
  return texts.filter((_, index) => index % step === 0).slice(0, most);
}
