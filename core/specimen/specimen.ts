/** A specimen as measured: every dimension with its repeated measurements, in millimetres. */
import type { Quantity } from '../quantity/parse-quantity.ts';

export interface MeasuredDimension {
  /** Each measurement as it was typed, in order. At least one. */
  readonly measurements: readonly Quantity[];
  /** Arithmetic mean in the core's unit of the dimension (mm for lengths). */
  readonly mean: number;
  readonly min: number;
  readonly max: number;
  /** Sample standard deviation (n − 1); null for a single measurement. */
  readonly standardDeviation: number | null;
}

/** A section of which it is known what to multiply. */
export type MeasuredGeometry =
  | { readonly kind: 'flat'; readonly width: MeasuredDimension; readonly thickness: MeasuredDimension }
  | { readonly kind: 'round'; readonly diameter: MeasuredDimension }
  | { readonly kind: 'tube'; readonly outerDiameter: MeasuredDimension; readonly wall: MeasuredDimension }
  | {
      readonly kind: 'pipe-strip';
      readonly width: MeasuredDimension;
      readonly wall: MeasuredDimension;
      readonly outerDiameter: MeasuredDimension;
    }
  | {
      readonly kind: 'weighed';
      readonly mass: MeasuredDimension;
      readonly length: MeasuredDimension;
      readonly density: MeasuredDimension;
    };

/** A record that came from elsewhere may come without sizes: it has a largest force, and no strength until they are given. */
export type Geometry = MeasuredGeometry | { readonly kind: 'unmeasured' };

/** Lengths for A by intervals, for a fracture near a mark: L0 was divided before the test. */
export interface IntervalMeasurement {
  /** N, equal parts of L0. */
  readonly intervals: number;
  /** n, parts between X (short half) and Y (long half, as far from the fracture). */
  readonly between: number;
  readonly betweenMm: number;
  /** From Y to Z, or to Z′ and Z″. */
  readonly beyondMm: readonly number[];
}

export interface Specimen {
  readonly id: string;
  readonly geometry: Geometry;
  readonly gaugeLength?: MeasuredDimension;
  readonly extensometerGaugeLengthMm?: number;
  readonly parallelLengthMm?: number;
  readonly instrumentResolutionMm?: number;
  /** Expanded, k = 2. */
  readonly instrumentUncertaintyMm?: number;
  readonly finalGaugeLength?: MeasuredDimension;
  readonly finalWidth?: MeasuredDimension;
  readonly finalThickness?: MeasuredDimension;
  readonly finalDiameter?: MeasuredDimension;
  readonly distanceToNearestMarkMm?: number;
  readonly fractureIntervals?: IntervalMeasurement;
  readonly notes?: string;
}
