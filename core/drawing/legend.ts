/** Names of the curves with a piece of their line and marker, in columns below the picture. */
import type { Box, Shape } from './drawing.ts';
import { INK, type Pen, markerFillOf } from './pens.ts';

export interface LegendEntry {
  readonly name: string;
  /** Beneath the name, never cut: that no specimen gave the readings. */
  readonly mark?: string;
  readonly pen: Pen;
}

const TEXT_MM = 2.8;
const ROW_MM = 4.2;
/** More where a mark stands beneath a name. */
const MARK_MM = 3.2;
const MARK_TEXT_MM = 2.4;
const SAMPLE_MM = 12;
const COLUMN_MM = 52;
/** Paper kept free at both sides, together. */
const SIDES_MM = 8;
/** Longer names are cut with an ellipsis: the full ones stand in the description. */
const NAME_LENGTH_MAX = 24;

export function legendHeightMm(entries: readonly LegendEntry[], widthMm: number): number {
  return entries.length === 0 ? 0 : Math.ceil(entries.length / columnsIn(widthMm)) * rowMm(entries) + 2;
}

const rowMm = (entries: readonly LegendEntry[]): number =>
  ROW_MM + (entries.some(({ mark }) => mark !== undefined) ? MARK_MM : 0);

export function legendShapes(entries: readonly LegendEntry[], box: Box): Shape[] {
  const columns = columnsIn(box.width);
  const row = rowMm(entries);
  return entries.flatMap(({ name, mark, pen }, i): Shape[] => {
    const x = box.x + (i % columns) * COLUMN_MM;
    const y = box.y + Math.floor(i / columns) * row + ROW_MM / 2 + 1;
    const middle = x + SAMPLE_MM / 2;
    const short = name.length > NAME_LENGTH_MAX ? `${name.slice(0, NAME_LENGTH_MAX - 1)}…` : name;
    return [
      { kind: 'line', x1: x, y1: y, x2: x + SAMPLE_MM, y2: y, stroke: pen.stroke },
      {
        kind: 'marker',
        form: pen.marker,
        x: middle,
        y,
        sizeMm: 1.8,
        stroke: { colour: pen.stroke.colour, widthMm: 0.25 },
        fill: markerFillOf(pen),
      },
      {
        kind: 'text',
        x: x + SAMPLE_MM + 1.5,
        y: y + TEXT_MM * 0.35,
        text: short,
        sizeMm: TEXT_MM,
        anchor: 'start',
        colour: INK,
      },
      ...(mark === undefined
        ? []
        : [
            {
              kind: 'text',
              x: x + SAMPLE_MM + 1.5,
              y: y + MARK_MM + TEXT_MM * 0.35,
              text: mark,
              sizeMm: MARK_TEXT_MM,
              anchor: 'start',
              bold: true,
              colour: INK,
            } as const,
          ]),
    ];
  });
}

function columnsIn(widthMm: number): number {
  return Math.max(1, Math.floor((widthMm - SIDES_MM) / COLUMN_MM));
}
