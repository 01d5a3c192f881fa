/** Whether lines carry a check at their end, by trying what is usual and seeing whether it comes out right. */
import type { LineCheck } from '../../core/contract/readout-profile.ts';
import { lineChecker } from '../lines/line-check.ts';

/** Lines on which a check is tried, and how many must agree: a damaged line now and then is what checks are for. */
const TRIED_MAX = 200;
const AGREEING_MIN = 0.85;
const LINES_MIN = 4;
const DIFFERENT_LINES_MIN = 8;
const DIFFERENT_CHECKS_MIN = 3;

const KINDS = [
  'xor',
  'sum',
  'sum16',
  'sum-twos-complement',
  'crc16-modbus',
  'crc16-ccitt',
  'crc8',
  'crc16-xmodem',
  'crc16-arc',
  'crc8-maxim',
] as const;
/** Of these the low byte may be written first. */
const TWO_BYTES: ReadonlySet<string> = new Set(KINDS.filter((kind) => /16/.test(kind)));
const HEX_TAIL = /^(.*?)([^0-9A-Za-z]{0,2})([0-9A-Fa-f]{4}|[0-9A-Fa-f]{2})$/s;

/** The check that nearly all lines carry; null where none of the usual ones does. */
export function findCheck(texts: readonly string[], leading: string): LineCheck | null {
  const lines = spread(texts, TRIED_MAX);
  if (lines.length < LINES_MIN) return null;
  let best: { readonly check: LineCheck; readonly agreeing: number } | null = null;
  for (const check of candidates(lines, leading !== '')) {
    const checker = lineChecker(check, leading);
    // A first look at a few lines throws nearly every candidate out.
    if (lines.slice(0, 4).filter((line) => checker(line).ok).length < 2) continue;
    const agreeing = lines.filter((line) => checker(line).ok);
    // A marker taken too wide comes out right in nearly all lines too: the check that does in most of them is meant.
    if (agreeing.length <= Math.max(best?.agreeing ?? 0, lines.length * AGREEING_MIN - 1e-9)) continue;
    if (takesDifferentValues(agreeing, checker)) best = { check, agreeing: agreeing.length };
    if (best?.agreeing === lines.length) break;
  }
  return best?.check ?? null;
}

/**
 * A check that is the same in every line has checked nothing, unless many different lines all agree with it. Of a display
 * at rest there are few different lines.
 */
function takesDifferentValues(lines: readonly string[], checker: ReturnType<typeof lineChecker>): boolean {
  if (new Set(lines).size >= DIFFERENT_LINES_MIN) return true;
  const written = lines.flatMap((line) => {
    const checked = checker(line);
    return checked.ok ? [line.slice(checked.text.length)] : [];
  });
  return new Set(written).size >= DIFFERENT_CHECKS_MIN;
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
              for (const lowByteFirst of TWO_BYTES.has(kind) && !written.startsWith('decimal')
                ? [false, true]
                : [false])
                yield {
                  ...{ kind, marker, written, skipped, markerSummed, leadingSummed },
                  ...(lowByteFirst ? { lowByteFirst } : {}),
                };
}

/** "", "*", " *" of " *". */
function tails(text: string): string[] {
  return Array.from({ length: text.length + 1 }, (_, at) => text.slice(at));
}

function spread(texts: readonly string[], most: number): string[] {
  const step = Math.max(1, Math.floor(texts.length / most));
  return texts.filter((_, index) => index % step === 0).slice(0, most);
}
