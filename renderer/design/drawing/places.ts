/** Where on the drawing each place of fracture lies: the drawing is not to scale, so that every place can be pressed. */
import type { FractureNote } from '../../../core/contract/record.ts';

export type FracturePlace = FractureNote['place'];

export interface Zone {
  readonly place: FracturePlace;
  readonly fromX: number;
  readonly toX: number;
}

/** Length of the drawing along the specimen, and the middle of the weld. */
export const DRAWING = {
  length: 720,
  middle: 360,
  gripEnd: 118,
  shoulderEnd: 176,
  mark: 222,
  haz: 292,
  fusion: 322,
  weld: 340,
} as const;

const half: readonly Zone[] = [
  { place: 'in-grips', fromX: 10, toX: DRAWING.gripEnd },
  { place: 'outside-gauge-marks', fromX: DRAWING.gripEnd, toX: DRAWING.mark },
  { place: 'base-metal', fromX: DRAWING.mark, toX: DRAWING.haz },
  { place: 'heat-affected-zone', fromX: DRAWING.haz, toX: DRAWING.fusion },
  { place: 'fusion-line', fromX: DRAWING.fusion, toX: DRAWING.weld },
];

const mirrored = (zone: Zone): Zone => ({
  place: zone.place,
  fromX: DRAWING.length - zone.toX,
  toX: DRAWING.length - zone.fromX,
});

/** Every place along the specimen, from the left grip to the right one. */
export const ZONES: readonly Zone[] = [
  ...half,
  { place: 'weld-metal', fromX: DRAWING.weld, toX: DRAWING.length - DRAWING.weld },
  ...half.map(mirrored).reverse(),
];

/** Where the fracture is drawn for a place that was told without a side. */
export function fractureX(place: FracturePlace): number | null {
  if (place === 'weld-metal') return DRAWING.middle;
  const zone = ZONES.findLast((z) => z.place === place);
  return zone === undefined ? null : (zone.fromX + zone.toX) / 2;
}
