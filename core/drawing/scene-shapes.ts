/** What is drawn over curves: construction lines, gaps, marks. The live plot, the exports and the certificate paint these shapes. */
import type { Box, Shape } from './drawing.ts';
import { type Avoided, LabelPlaces, overlap } from './label-places.ts';
import {
  type Standing,
  WORD_MM,
  asPlace,
  avoidedOf,
  markShapes,
  wordShape,
  wordWidthMm,
} from './mark-shapes.ts';
import { pathCrossesBox, segmentsCrossBox } from './path-crosses-box.ts';
import type { PlotArea } from './plot-area.ts';
import { GAP_HATCH, INK } from './pens.ts';
import type { PlotGap, Scene } from './plot-input.ts';

/** Between the lines of a gap's hatching. */
const HATCH_MM = 1.8;
/** A gap that is narrower is drawn so wide, so that it is seen. */
const GAP_MM_MIN = 0.4;
/** From the upper edge of the frame to the middle of a gap's words. */
const GAP_WORDS_DOWN_MM = 3.2;

export interface SceneShapes {
  /** Beneath frame and scales. */
  readonly beneath: readonly Shape[];
  /** Above everything: words, signs. */
  readonly above: readonly Shape[];
}

/** What words should leave to be seen. */
export interface LeftToBeSeen extends Pick<Standing, 'paths' | 'ownPaths'> {
  /** Points of a cloud. */
  readonly points?: readonly { readonly x: number; readonly y: number; readonly sizeMm: number }[];
}

/** Shapes in millimetres of the area's paper. */
export function sceneShapes(
  scene: Scene,
  area: PlotArea,
  { paths = [], ownPaths = paths, points = [] }: LeftToBeSeen = {},
): SceneShapes {
  const { frame } = area;
  const lineLabels: { readonly shape: Shape; readonly box: Box }[] = [];
  for (const line of scene.lines) {
    const label = area.lineLabel(
      line,
      (box) =>
        points.filter((point) => overlap(squareOf(point), asPlace(box))).length +
        paths.filter((path) =>
          'points' in path ? pathCrossesBox(path, box) : segmentsCrossBox(path.near(box), box),
        ).length +
        lineLabels.filter((other) => overlap(asPlace(other.box), asPlace(box))).length,
    );
    if (label !== null) lineLabels.push(label);
  }
  const gaps = gapShapes(
    scene.gaps,
    area,
    lineLabels.map((label) => label.box),
    paths.map(avoidedOf),
  );
  return {
    beneath: [...gaps.hatching, ...scene.lines.map((line) => area.line(line))],
    above: [
      ...lineLabels.map((label) => label.shape),
      ...gaps.words,
      ...markShapes(
        scene.marks.map((mark) => ({ ...mark, x: area.atX(mark.x), y: area.atY(mark.y) })),
        frame,
        { words: [...lineLabels.map((label) => label.box), ...gaps.boxes], paths, ownPaths },
      ),
    ],
  };
}

const squareOf = ({ x, y, sizeMm }: NonNullable<LeftToBeSeen['points']>[number]) =>
  asPlace({ x: x - sizeMm / 2, y: y - sizeMm / 2, width: sizeMm, height: sizeMm });

/** Hatched stretches from the top to the bottom of the frame, their words in the middle at the top where there is room. */
function gapShapes(
  gaps: readonly PlotGap[],
  area: PlotArea,
  taken: readonly Box[],
  paths: readonly Avoided[],
): { hatching: Shape[]; words: Shape[]; boxes: Box[] } {
  const { x, y, width, height } = area.frame;
  const labels = new LabelPlaces(asPlace(area.frame));
  for (const box of taken) labels.reserve(asPlace(box));
  const hatching: Shape[] = [];
  const words: Shape[] = [];
  const boxes: Box[] = [];
  for (const gap of gaps) {
    const from = Math.max(area.atX(gap.fromX), x);
    const to = Math.min(area.atX(gap.toX), x + width);
    if (!(to > from)) continue;
    const clip = { x: from, y, width: Math.max(to - from, GAP_MM_MIN), height };
    for (let left = from - height; left < from + clip.width; left += HATCH_MM)
      hatching.push({
        kind: 'line',
        x1: left,
        y1: y + height,
        x2: left + height,
        y2: y,
        stroke: GAP_HATCH,
        clip,
      });
    const wide = wordWidthMm(gap.words);
    const place = (avoided: readonly Avoided[]) =>
      labels.place((from + to) / 2, y + GAP_WORDS_DOWN_MM + WORD_MM, wide, WORD_MM, WORD_MM, avoided);
    // Words have a halo: over the curve they would look like another gap in it.
    const at = place(paths) ?? place([]);
    if (at === null) continue;
    words.push(wordShape(gap.words, at.x, at.y, INK));
    boxes.push({ x: at.x - wide / 2, y: at.y - WORD_MM / 2, width: wide, height: WORD_MM });
  }
  return { hatching, words, boxes };
}
