/** A scenario of the simulated frame: specimen, material, frame, instruments, readout. A JSON file, checked. */
import { z } from 'zod';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../../core/limits.ts';
import { DECIMAL_TEXT_LENGTH_MAX, exactFromDecimal } from '../../core/quantity/exact.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';
import { specimenFile } from '../../core/specimen/specimen-file.ts';

export const SCENARIO_SCHEMA = 'gaugemark.scenario/1';

const positive = z.number().positive();
const notNegative = z.number().min(0);

/**
 * Plastic behaviour. `yield-point`: an upper yield point, a plateau, then Swift's law
 * σ = K(ε0 + ε)^n, joined to the plateau without a step. `continuous`: Voce's law σ = σ0 + Q(1 − e^(−bε)).
 * σ and ε are true stress and true plastic strain.
 */
const plasticity = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('yield-point'),
    upperYieldMpa: positive,
    lowerYieldMpa: positive,
    plateauStrain: positive.max(0.1),
    strengthCoefficientMpa: positive,
    hardeningExponent: positive.max(0.9),
  }),
  z.strictObject({
    kind: z.literal('continuous'),
    yieldMpa: positive,
    hardeningMpa: positive,
    hardeningRate: positive,
  }),
]);
export type Plasticity = z.infer<typeof plasticity>;

export const scenario = z
  .strictObject({
    schema: z.literal(SCENARIO_SCHEMA),
    /** By which it is chosen on the command line: lower-case words with hyphens. */
    name: z
      .string()
      .regex(/^[a-z0-9]+(?:-[a-z0-9]+)*$/)
      .max(60),
    title: z.string().min(1).max(NAME_LENGTH_MAX),
    notes: z.string().max(TEXT_LENGTH_MAX).optional(),
    seed: z.int().min(0).max(4_294_967_295),
    specimen: specimenFile,
    parallelLengthMm: positive,
    /** Pieces along the parallel length, from one end to the other; together they make it up. All of one section. */
    zones: z
      .array(
        z.strictObject({
          name: z.string().min(1).max(60),
          lengthMm: positive,
          elasticModulusMpa: positive,
          plasticity,
        }),
      )
      .min(1)
      .max(7),
    neck: z.strictObject({
      /** Elongation that the neck adds until it breaks. */
      elongationMm: notNegative,
      /** Load at the break over the largest load. */
      loadRatioAtBreak: positive.max(1),
      /** Length over which it spreads: counts where it straddles a gauge mark. */
      widthMm: positive,
    }),
    fracture: z.strictObject({
      /** From the middle of the parallel length. */
      positionMm: z.number(),
      /** Breaks here at this engineering stress, before any neck: a defect. */
      earlyAtStressMpa: positive.optional(),
    }),
    frame: z.strictObject({
      stiffnessNPerMm: positive,
      /** Travel before anything is tight. */
      slackMm: notNegative,
      /** The grips settle by so much, most of it while the load is below the seating load. */
      gripTakeUpMm: notNegative,
      gripSeatingLoadN: positive,
    }),
    drive: z.strictObject({
      /** Time at rest before the crosshead starts. */
      idleS: notNegative.max(3600),
      /** Crosshead speeds one after the other; the last goes on to the break. */
      steps: z
        .array(z.strictObject({ speedMmPerMin: positive, untilTravelMm: positive.optional() }))
        .min(1)
        .max(20),
      /** The crosshead goes on for so long after the break. */
      tailS: notNegative.max(3600),
    }),
    loadCell: z.strictObject({ capacityN: positive, noiseN: notNegative, zeroOffsetN: z.number() }),
    /** Absent: none was used, and its channel shows nothing. */
    extensometer: z
      .strictObject({
        gaugeLengthMm: positive,
        noiseMm: notNegative,
        rangeMm: positive,
        /** Taken off at this strain; without it it stays on to the break. */
        takenOffAtStrain: positive.optional(),
      })
      .optional(),
    rateHz: positive.max(20_000),
    /** Name of a profile that ships. */
    profile: z.string().min(1).max(NAME_LENGTH_MAX),
    /** Smallest step of each field of the profile, in the unit shown, as decimal text ("0.5"). */
    resolution: z.record(
      z.string().max(NAME_LENGTH_MAX),
      z
        .string()
        .max(DECIMAL_TEXT_LENGTH_MAX)
        .refine((text) => (exactFromDecimal(text)?.compare(0) ?? 0) > 0, 'not a positive decimal number'),
    ),
  })
  .superRefine((value, context) => {
    const issue = (path: string[], message: string): void =>
      context.addIssue({ code: 'custom', path, message });
    const total = value.zones.reduce((sum, zone) => sum + zone.lengthMm, 0);
    if (Math.abs(total - value.parallelLengthMm) > 1e-6)
      issue(
        ['zones'],
        `the zones add up to ${total} mm, the parallel length is ${value.parallelLengthMm} mm`,
      );
    if (value.zones.length > 1 && value.zones.some((zone) => zone.plasticity.kind === 'yield-point'))
      issue(['zones'], 'a yield point is simulated for a specimen of one zone only');
    if (Math.abs(value.fracture.positionMm) > value.parallelLengthMm / 2)
      issue(['fracture', 'positionMm'], 'the fracture must lie in the parallel length');
    if (sectionAreaMm2(value.specimen) === null)
      issue(['specimen'], 'a flat or round specimen with its dimensions is needed');
    value.drive.steps.forEach((step, index) => {
      const isLast = index === value.drive.steps.length - 1;
      if (isLast !== (step.untilTravelMm === undefined))
        issue(
          ['drive', 'steps'],
          'every step but the last ends at a travel, and the last goes on to the break',
        );
    });
  });
export type Scenario = z.infer<typeof scenario>;

/** S0 from the mean dimensions; null where the specimen is neither flat nor round or is not valid. */
export function sectionAreaMm2(file: unknown): number | null {
  const outcome = readSpecimen(file);
  if (!outcome.ok) return null;
  const { geometry } = outcome.specimen;
  switch (geometry.kind) {
    case 'flat':
      return geometry.width.mean * geometry.thickness.mean;
    case 'round':
      return (Math.PI * geometry.diameter.mean ** 2) / 4;
    case 'tube':
    case 'pipe-strip':
    case 'weighed':
    case 'unmeasured':
      return null;
  }
}
