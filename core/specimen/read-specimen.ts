/** From the text form to the measured specimen; every fault names its field and says what to do. */
import type { Dimension, UnitSymbol } from '../quantity/units.ts';
import { type Quantity, parseQuantity, quantityFaultSentence } from '../quantity/parse-quantity.ts';
import type { Geometry, IntervalMeasurement, MeasuredDimension, Specimen } from './specimen.ts';
import { specimenShapeFaults } from './specimen-faults.ts';
import { type GeometryFile, type SpecimenFile, specimenFile } from './specimen-file.ts';

export interface FieldFault {
  /** Dotted path of the field, "geometry.width[1]". */
  readonly field: string;
  /** What is wrong and what to do, one sentence. */
  readonly sentence: string;
}

export type SpecimenOutcome =
  | { readonly ok: true; readonly specimen: Specimen }
  | { readonly ok: false; readonly faults: readonly FieldFault[] };

export interface ReadSpecimenOptions {
  /** Unit for lengths typed without one (a form that shows its unit beside the field); files must say it. */
  readonly lengthUnitIfMissing?: UnitSymbol;
}

/** Checks any value that came from outside and reads it as a specimen. Never throws on bad input. */
export function readSpecimen(input: unknown, options: ReadSpecimenOptions = {}): SpecimenOutcome {
  const checked = specimenFile.safeParse(input);
  if (!checked.success) {
    return { ok: false, faults: specimenShapeFaults(checked.error.issues, input) };
  }
  return readCheckedSpecimen(checked.data, options);
}

function readCheckedSpecimen(file: SpecimenFile, options: ReadSpecimenOptions): SpecimenOutcome {
  const reader = new FieldReader(options);
  const geometry = readGeometry(file.geometry, reader);
  const specimen: Specimen = {
    id: file.id,
    geometry,
    ...optional('gaugeLength', reader.measured('gaugeLength', file.gaugeLength)),
    ...optional(
      'extensometerGaugeLengthMm',
      reader.single('extensometerGaugeLength', file.extensometerGaugeLength),
    ),
    ...optional('parallelLengthMm', reader.single('parallelLength', file.parallelLength)),
    ...optional('instrumentResolutionMm', reader.single('instrumentResolution', file.instrumentResolution)),
    ...optional(
      'instrumentUncertaintyMm',
      reader.single('instrumentUncertainty', file.instrumentUncertainty),
    ),
    ...optional('finalGaugeLength', reader.measured('finalGaugeLength', file.finalGaugeLength)),
    ...optional('finalWidth', reader.measured('finalWidth', file.finalWidth)),
    ...optional('finalThickness', reader.measured('finalThickness', file.finalThickness)),
    ...optional('finalDiameter', reader.measured('finalDiameter', file.finalDiameter)),
    ...optional(
      'distanceToNearestMarkMm',
      reader.single('distanceToNearestMark', file.distanceToNearestMark, { zeroAllowed: true }),
    ),
    ...optional('fractureIntervals', readIntervals(file, reader)),
    ...optional('notes', file.notes),
  };
  if (reader.faults.length > 0) return { ok: false, faults: reader.faults };
  const shapeFaults = geometryFaults(geometry);
  return shapeFaults.length > 0 ? { ok: false, faults: shapeFaults } : { ok: true, specimen };
}

function readGeometry(file: GeometryFile, reader: FieldReader): Geometry {
  const at = (name: string, text: string | string[], dimension: Dimension = 'length'): MeasuredDimension =>
    reader.required(`geometry.${name}`, text, dimension);
  switch (file.kind) {
    case 'flat':
      return { kind: 'flat', width: at('width', file.width), thickness: at('thickness', file.thickness) };
    case 'round':
      return { kind: 'round', diameter: at('diameter', file.diameter) };
    case 'tube':
      return {
        kind: 'tube',
        outerDiameter: at('outerDiameter', file.outerDiameter),
        wall: at('wall', file.wall),
      };
    case 'pipe-strip':
      return {
        kind: 'pipe-strip',
        width: at('width', file.width),
        wall: at('wall', file.wall),
        outerDiameter: at('outerDiameter', file.outerDiameter),
      };
    case 'weighed':
      return {
        kind: 'weighed',
        mass: at('mass', file.mass, 'mass'),
        length: at('length', file.length),
        density: at('density', file.density, 'density'),
      };
    case 'unmeasured':
      return { kind: 'unmeasured' };
  }
}

function readIntervals(file: SpecimenFile, reader: FieldReader): IntervalMeasurement | undefined {
  const given = file.fractureIntervals;
  if (given === undefined) return undefined;
  const at = (name: string, text: string): number => reader.single(`fractureIntervals.${name}`, text) ?? 0;
  return {
    intervals: given.intervals,
    between: given.between,
    betweenMm: at('betweenLength', given.betweenLength),
    beyondMm: given.beyondLengths.map((text, i) => at(`beyondLengths[${String(i)}]`, text)),
  };
}

/** Shapes that can't exist, whatever was measured. */
function geometryFaults(geometry: Geometry): FieldFault[] {
  if (geometry.kind !== 'tube' && geometry.kind !== 'pipe-strip') return [];
  const faults: FieldFault[] = [];
  const bore = geometry.outerDiameter.mean - 2 * geometry.wall.mean;
  if (bore <= 0) {
    faults.push({
      field: 'geometry.wall',
      sentence: `geometry.wall: a wall of ${mm(geometry.wall.mean)} leaves no bore in an outside diameter of ${mm(geometry.outerDiameter.mean)}; check both.`,
    });
  } else if (geometry.kind === 'pipe-strip' && geometry.width.mean > bore) {
    faults.push({
      field: 'geometry.width',
      sentence: `geometry.width: a strip of ${mm(geometry.width.mean)} is wider than the bore of ${mm(bore)}; check width, wall and outside diameter.`,
    });
  }
  return faults;
}

const mm = (value: number): string => `${String(Number(value.toPrecision(6)))} mm`;

/** Mean, extremes and spread of repeated measurements. Throws a RangeError on an empty list. */
export function measuredDimension(measurements: readonly Quantity[]): MeasuredDimension {
  if (measurements.length === 0) throw new RangeError('a dimension needs at least one measurement');
  const values = measurements.map((q) => q.core);
  const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
  const squares = values.reduce((sum, v) => sum + (v - mean) ** 2, 0);
  return {
    measurements,
    mean,
    min: Math.min(...values),
    max: Math.max(...values),
    standardDeviation: values.length < 2 ? null : Math.sqrt(squares / (values.length - 1)),
  };
}

class FieldReader {
  readonly faults: FieldFault[] = [];
  readonly #options: ReadSpecimenOptions;

  constructor(options: ReadSpecimenOptions) {
    this.#options = options;
  }

  required(field: string, texts: string | string[], dimension: Dimension): MeasuredDimension {
    const list = typeof texts === 'string' ? [texts] : texts;
    const quantities = list.map((text, index) =>
      this.#one(list.length === 1 ? field : `${field}[${String(index)}]`, text, dimension, false),
    );
    const good = quantities.filter((q) => q !== null);
    // A placeholder keeps the type whole; faults are non-empty then and the specimen is not handed out.
    return good.length === 0 ? PLACEHOLDER : measuredDimension(good);
  }

  measured(field: string, texts: string | string[] | undefined): MeasuredDimension | undefined {
    return texts === undefined ? undefined : this.required(field, texts, 'length');
  }

  single(
    field: string,
    text: string | undefined,
    { zeroAllowed = false }: { readonly zeroAllowed?: boolean } = {},
  ): number | undefined {
    return text === undefined
      ? undefined
      : (this.#one(field, text, 'length', zeroAllowed)?.core ?? undefined);
  }

  #one(field: string, text: string, dimension: Dimension, zeroAllowed: boolean): Quantity | null {
    const unit = dimension === 'length' ? this.#options.lengthUnitIfMissing : undefined;
    const outcome = parseQuantity(text, {
      dimension,
      positive: !zeroAllowed,
      ...(unit === undefined ? {} : { unitIfMissing: unit }),
    });
    if (outcome.ok && !(zeroAllowed && outcome.quantity.core < 0)) return outcome.quantity;
    const sentence = outcome.ok
      ? `"${text}" is below zero; measure again.`
      : quantityFaultSentence(outcome.fault, text);
    this.faults.push({ field, sentence: `${field}: ${sentence}` });
    return null;
  }
}

const PLACEHOLDER: MeasuredDimension = { measurements: [], mean: 1, min: 1, max: 1, standardDeviation: null };

function optional<K extends string, V>(key: K, value: V | undefined): { [P in K]?: V } {
  return value === undefined ? {} : ({ [key]: value } as { [P in K]?: V });
}
