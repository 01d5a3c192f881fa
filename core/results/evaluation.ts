/** What goes into an evaluation beside curve and specimen, and what comes out of it. Plain data throughout. */
import type { ChosenRules } from '../acceptance/rule-pack.ts';
import type { ReadoutProfile } from '../contract/readout-profile.ts';
import type { ImportPlan } from '../exchange/import/import-plan.ts';
import type { AreaFacts } from './area.ts';
import type { MaterialKind } from './elongation-conversion.ts';
import type { MeasuringSystems } from './force-uncertainty.ts';
import type { ResolutionCheck } from './instrument-resolution.ts';
import type { ArcForm } from './pipe-strip-area.ts';
import type { FinalSectionForm } from './reduction-of-area.ts';
import type { Result, Withheld } from './result.ts';
import type { RoundingRuleName } from './rounding.ts';
import type { SectionRule } from './section-rule.ts';
import type { TestingSpeed } from './testing-speed.ts';

/** Where the elastic line is to be fitted, when a person sets it instead of the program. */
export interface SlopeWindowByHand {
  readonly lowerMpa: number;
  readonly upperMpa: number;
}

/** One point of a table: what the channel showed, and what it should have shown. Same unit (N or mm). */
export interface CalibrationPoint {
  readonly shown: number;
  readonly actual: number;
}

/** Corrections are never made by themselves, toe compensation excepted; each is listed in the result that it touches. */
export interface Corrections {
  /** The elastic line's crossing of zero stress is strain zero. Default true; false measures from the record's own zero. */
  readonly toe?: boolean;
  /** Taken off every force before anything else, N. */
  readonly forceZeroN?: number;
  /** Taken off every extension before anything else, mm. */
  readonly extensionZeroMm?: number;
  readonly travelZeroMm?: number;
  /** Ascending in `shown`; straight lines between the points, the end segments carried on. */
  readonly forceTable?: readonly CalibrationPoint[];
  readonly extensionTable?: readonly CalibrationPoint[];
  /** Frame and grips from a blank run: travel that a force costs, ascending in force. Touches crosshead travel only. */
  readonly frameCompliance?: readonly { readonly forceN: number; readonly travelMm: number }[];
}

export interface EvaluationOptions {
  /**
   * The lines of the record are read by this profile instead of the one of the time. Whoever hands out the curve reads
   * them; the evaluation itself takes the curve that it is given.
   */
  readonly lineFormat?: ReadoutProfile;
  /**
   * The rows of an imported file are read by this plan instead of the one of the import: another column, unit or decimal
   * sign. Whoever hands out the curve reads them.
   */
  readonly importPlan?: ImportPlan;
  /**
   * The pull is judged by these rules instead of those of its set. No value depends on them; whoever judges reads them.
   * The set itself goes on being judged by its own.
   */
  readonly judgedBy?: ChosenRules;
  /** Offsets of proof strengths in percent; default 0.2. */
  readonly offsetsPercent?: readonly number[];
  /** Total extensions in percent for strengths under load; default 0.5. */
  readonly extensionsUnderLoadPercent?: readonly number[];
  readonly slopeWindow?: SlopeWindowByHand;
  /**
   * What the slope of the elastic part is taken from; default the loading. `loop`: the first unloading loop; a window
   * by hand then has no say.
   */
  readonly slopeFrom?: 'loading' | 'loop';
  /** Last reading before the break, when a person or the recorder marked it. */
  readonly fractureIndex?: number;
  /**
   * What strain is taken from. Default: extensometer (or a strain column). `travel` must be asked for, and every
   * strain quantity then carries "from crosshead travel, not a gauge-length strain".
   */
  readonly strainFrom?: 'extensometer' | 'travel';
  readonly corrections?: Corrections;
  /** Which of the measured sections is S0; default the mean (ISO 6892-1). */
  readonly section?: SectionRule;
  /** Form of the area of a strip cut from pipe; default the exact one. */
  readonly sectionForm?: ArcForm;
  /** Rule by which reported values are rounded; default ISO 6892-1, or ASTM E8/E8M (1) for a specimen measured in inches. */
  readonly rounding?: RoundingRuleName;
  /** Final section of a flat specimen; default a parabola where three thicknesses were measured at the neck. */
  readonly finalSection?: FinalSectionForm;
  /** Minimum elongation that the product demands, %: one that meets it counts wherever it broke. */
  readonly requiredElongationPercent?: number;
  /** Elongation after fracture on another gauge length of the same section, only on request. */
  readonly convertElongation?: { readonly gaugeLengthMm: number; readonly materialKind: MaterialKind };
  /** Classes and steps of the measuring systems, for the uncertainty; class 1 is taken where nothing is given. */
  readonly measuring?: MeasuringSystems;
  /** Plastic strain range for n and K in percent; default 2 to 20 or Ag, whichever is less. */
  readonly hardeningRangePercent?: { readonly from: number; readonly to: number };
}

/** The elastic line as found: stress = slopeMpa · (strain − footStrain), strain as a plain ratio as recorded. */
export interface ElasticSlope {
  readonly slopeMpa: number;
  /** Strain as recorded at which the line meets zero stress. */
  readonly footStrain: number;
  /** First and last reading of the fit, both included. */
  readonly fromIndex: number;
  readonly toIndex: number;
  readonly lowerMpa: number;
  readonly upperMpa: number;
  readonly readings: number;
  /** Mean stress of the readings of the fit: the line turns about it when its slope changes. */
  readonly meanStressMpa: number;
  /** Standard uncertainty of the slope from the scatter about the line, MPa. */
  readonly standardUncertaintyMpa: number;
  /** Root mean square of the residuals in stress, MPa. */
  readonly residualMpa: number;
  /** Coefficient of determination R². */
  readonly determination: number;
  readonly setBy: 'program' | 'hand';
  /** Fit for the elastic part only, not as a modulus of elasticity: one sentence, absent when nothing speaks against it. */
  readonly notAModulus?: string;
}

/** Where an offset line met the curve. */
export interface ProofFact {
  readonly offsetPercent: number;
  readonly stressMpa: number;
  /** Slope of the curve over strain there, MPa. */
  readonly tangentMpa: number;
  /** Scatter of the readings about a straight line there, MPa; 0 where it was read between two readings. */
  readonly scatterMpa: number;
  readonly readings: number;
  readonly index: number;
}

/** Readings that the plot marks, each an index into the curve. */
export interface EvaluationMarks {
  /** First reading of the loading after slack and preload. */
  readonly loadingStart?: number;
  readonly upperYield?: number;
  readonly lowerYield?: number;
  /** First reading at or after the crossing with the 0.2 % (first offset) line. */
  readonly proof?: number;
  readonly maximumForce?: number;
  /** Last reading before the break. */
  readonly fracture?: number;
  /** Last reading whose extension can be relied on. */
  readonly extensionTrustedUntil?: number;
}

/** The strain that the results use, so that a plot can draw what was evaluated. */
export interface StrainSource {
  readonly channel: 'extension' | 'strain' | 'travel';
  /** Divisor of the column, mm; 1 for a strain column. */
  readonly lengthMm: number;
  /** What the length is: "extensometer gauge length", … */
  readonly lengthName: string;
}

export interface Evaluation {
  readonly results: readonly Result[];
  readonly withheld: readonly Withheld[];
  readonly slope?: ElasticSlope;
  readonly proofs: readonly ProofFact[];
  readonly strain?: StrainSource;
  /** Strain as recorded that is counted as zero (the elastic line's foot, unless toe compensation is off). */
  readonly zeroStrain?: number;
  /** Rates measured in each stage, and each against the windows of the standards. */
  readonly speed?: TestingSpeed;
  /** Whether the instrument was fine enough for the dimensions it measured. */
  readonly resolution?: readonly ResolutionCheck[];
  /** Spread of the measured sections, forms of the arc side by side, the area as the shop rounds it. */
  readonly section?: AreaFacts;
  /** S0 in mm² where the specimen's measurements give it; stress = force / area. */
  readonly areaMm2?: number;
  readonly marks: EvaluationMarks;
  /** Name of the readout profile by which the lines were read again; absent where the curve is the recorded one. */
  readonly readBy?: string;
  /** They are the rows of an imported file, and `readBy` says how they are read. */
  readonly readFromFile?: true;
  /** What was noticed about the record itself, each a sentence: gaps, appended rows, slipped extensometer, compression. */
  readonly remarks: readonly string[];
  /** Version of the method, changed whenever a value could change. */
  readonly methodVersion: string;
}

export const METHOD_VERSION = '3';
