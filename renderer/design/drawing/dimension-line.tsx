/** A dimension line as in a workshop drawing: witness lines, arrow heads, the measured value standing on it. */

import { SymbolSpans } from './symbol-spans.tsx';

export interface DimensionLineProps {
  /** Ends of the dimension line, in the drawing's units. */
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  /** Where the witness lines come from; they run from there to a little beyond the dimension line. */
  readonly witness?: readonly [readonly [number, number], readonly [number, number]];
  readonly text: string;
  /** Height of the text in the drawing's units. */
  readonly textUnits?: number;
  /** Written beside the line rather than on it, for short ones. */
  readonly beside?: boolean;
}

const ARROW = 9;
const BEYOND = 6;

export function DimensionLine({
  from,
  to,
  witness,
  text,
  beside: wantedBeside = false,
  textUnits = 16,
}: DimensionLineProps) {
  const vertical = from[0] === to[0];
  const middle: readonly [number, number] = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  // Too short for arrows inside: they point at the line from outside, as a draughtsman would.
  const outside = Math.hypot(to[0] - from[0], to[1] - from[1]) < 3.2 * ARROW;
  // Too short for its value: that stands above, and is not struck through.
  const beside =
    wantedBeside || (!vertical && !leavesRoom(gapFor(text, textUnits), Math.abs(to[0] - from[0])));
  return (
    <g class="dimension">
      {witness?.map((start, index) => {
        const end = index === 0 ? from : to;
        const sign = Math.sign(vertical ? end[0] - start[0] : end[1] - start[1]) * BEYOND;
        return (
          <path
            key={index === 0 ? 'from' : 'to'}
            d={`M${start[0]} ${start[1]}L${end[0] + (vertical ? sign : 0)} ${end[1] + (vertical ? 0 : sign)}`}
          />
        );
      })}
      <path
        d={
          outside
            ? outsideLine(from, to, vertical)
            : insideLine(from, to, vertical, beside ? 0 : gapFor(text, textUnits))
        }
      />
      <Arrow at={from} vertical={vertical} towards={outside ? 1 : -1} />
      <Arrow at={to} vertical={vertical} towards={outside ? -1 : 1} />
      {vertical ? (
        <text
          x={beside ? middle[0] + 12 : middle[0]}
          y={middle[1] + 5}
          text-anchor={beside ? 'start' : 'middle'}
        >
          <SymbolSpans text={text} />
        </text>
      ) : (
        <text x={middle[0]} y={beside ? middle[1] - 10 : middle[1] + 5} text-anchor="middle">
          <SymbolSpans text={text} />
        </text>
      )}
    </g>
  );
}

/** Room that the line leaves for its text; digits of the drawing's face are about this wide. */
const gapFor = (text: string, textUnits: number): number => text.length * textUnits * 0.575 + 14;

const leavesRoom = (gap: number, length: number): boolean => gap <= length - 4 * ARROW;

function insideLine(
  from: readonly [number, number],
  to: readonly [number, number],
  vertical: boolean,
  gap: number,
): string {
  const line = `M${from[0]} ${from[1]}L${to[0]} ${to[1]}`;
  if (vertical || gap <= 0 || !leavesRoom(gap, to[0] - from[0])) return line;
  const middle = (from[0] + to[0]) / 2;
  return `M${from[0]} ${from[1]}H${middle - gap / 2}M${middle + gap / 2} ${to[1]}H${to[0]}`;
}

function outsideLine(
  from: readonly [number, number],
  to: readonly [number, number],
  vertical: boolean,
): string {
  const out = 2.2 * ARROW;
  return vertical
    ? `M${from[0]} ${from[1] - out}V${from[1]}M${to[0]} ${to[1]}V${to[1] + out}`
    : `M${from[0] - out} ${from[1]}H${from[0]}M${to[0]} ${to[1]}H${to[0] + out}`;
}

/** `towards` −1 points to smaller coordinates, 1 to larger ones; the tip lies at the end of the line. */
function Arrow({
  at,
  vertical,
  towards,
}: {
  readonly at: readonly [number, number];
  readonly vertical: boolean;
  readonly towards: number;
}) {
  const [x, y] = at;
  const back = -towards * ARROW;
  const half = ARROW * 0.3;
  const d = vertical
    ? `M${x} ${y}L${x - half} ${y + back}H${x + half}Z`
    : `M${x} ${y}L${x + back} ${y - half}V${y + half}Z`;
  return <path class="arrow" d={d} />;
}
