/**
 * The specimen as a file and as people type it: JSON with quantities as text.
 * `{"id":"T-1","geometry":{"kind":"flat","width":["0.7510 in","0.7505 in"],"thickness":["0.2485 in"]},"gaugeLength":"2 in"}`
 */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { MEASUREMENTS_PER_DIMENSION_MAX, NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { QUANTITY_TEXT_LENGTH_MAX } from '../quantity/parse-quantity.ts';

/** Parts of L0: 5 mm parts on the longest gauge length in use (250 mm), twice over. */
const INTERVALS_MAX = 100;

const quantityText = z.string().min(1).max(QUANTITY_TEXT_LENGTH_MAX);
/** One measurement or several repeated ones. */
const measuredText = z.union([
  quantityText,
  z.array(quantityText).min(1).max(MEASUREMENTS_PER_DIMENSION_MAX),
]);

export const geometryFile = atFirstUse(() =>
  z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('flat'), width: measuredText, thickness: measuredText }),
    z.strictObject({ kind: z.literal('round'), diameter: measuredText }),
    z.strictObject({ kind: z.literal('tube'), outerDiameter: measuredText, wall: measuredText }),
    z.strictObject({
      kind: z.literal('pipe-strip'),
      width: measuredText,
      wall: measuredText,
      outerDiameter: measuredText,
    }),
    z.strictObject({
      kind: z.literal('weighed'),
      mass: measuredText,
      length: measuredText,
      density: measuredText,
    }),
    z.strictObject({ kind: z.literal('unmeasured') }),
  ]),
);

export const specimenFile = atFirstUse(() =>
  z.strictObject({
    id: z.string().trim().min(1).max(NAME_LENGTH_MAX),
    geometry: geometryFile,
    /** L0, between the marks or of the extensometer. */
    gaugeLength: measuredText.optional(),
    /** Gauge length of the extensometer where it differs from L0. */
    extensometerGaugeLength: quantityText.optional(),
    /** Lc, for crosshead rates. */
    parallelLength: quantityText.optional(),
    /** Smallest step that the calliper or micrometer shows. */
    instrumentResolution: quantityText.optional(),
    /** Expanded uncertainty (k = 2) of the measuring instrument from its certificate. */
    instrumentUncertainty: quantityText.optional(),
    finalGaugeLength: measuredText.optional(),
    finalWidth: measuredText.optional(),
    finalThickness: measuredText.optional(),
    finalDiameter: measuredText.optional(),
    /** From the fracture to the nearer gauge mark, on the refitted halves. */
    distanceToNearestMark: quantityText.optional(),
    /** For a fracture near a mark, where L0 was divided into equal parts before the test. */
    fractureIntervals: z
      .strictObject({
        /** N, the parts that L0 was divided into. */
        intervals: z.int().min(2).max(INTERVALS_MAX),
        /** n, parts between X on the short half and Y on the long half, both as far from the fracture. */
        between: z.int().min(1).max(INTERVALS_MAX),
        /** Length from X to Y on the refitted halves. */
        betweenLength: quantityText,
        /** From Y to Z; or, where N − n is odd, to Z′ and to Z″. */
        beyondLengths: z.array(quantityText).min(1).max(2),
      })
      .optional(),
    notes: z.string().max(TEXT_LENGTH_MAX).optional(),
  }),
);
export type SpecimenFile = z.infer<typeof specimenFile>;
export type GeometryFile = z.infer<typeof geometryFile>;
export type GeometryKind = GeometryFile['kind'];
export type MeasuredGeometryKind = Exclude<GeometryKind, 'unmeasured'>;
