/**
 * Terms of the Tensile Test Ontology for what this program measures and evaluates. TTO 3.0.0 of 16 April 2026,
 * https://w3id.org/pmd/tto/3.0.0, after ISO 6892-1:2019. What it has no term for is left out of the export and named
 * there (the slope of the elastic part, for one: the ontology has a modulus only).
 */

export const TTO_VERSION_IRI = 'https://w3id.org/pmd/tto/3.0.0';

export interface TtoTerm {
  /** Behind https://w3id.org/pmd/tto/. */
  readonly id: string;
  /** English label of the ontology. */
  readonly label: string;
}

const term = (number: string, label: string): TtoTerm => ({ id: `TTO_${number}`, label });

/** Roles and the result as a whole. */
export const TTO_BROKEN = term('0000006', 'broken tested test piece role');
export const TTO_UNBROKEN = term('0000007', 'unbroken tested test piece role');
export const TTO_RESULT = term('0000008', 'tensile test result');

/** Dimensions of the specimen before and after the test. */
export const TTO_DIMENSIONS = {
  width: term('0000030', 'original width'),
  thickness: term('0000029', 'original thickness'),
  diameter: term('0000027', 'original diameter'),
  gaugeLength: term('0000028', 'original gauge length'),
  extensometerGaugeLength: term('0000017', 'extensometer gauge length'),
  parallelLength: term('0000031', 'parallel length'),
  finalGaugeLength: term('0000018', 'final gauge length after fracture'),
  finalWidth: term('0000060', 'width after fracture'),
  finalThickness: term('0000056', 'thickness after fracture'),
  finalDiameter: term('0000015', 'diameter after fracture'),
} as const satisfies Record<string, TtoTerm>;

/** Results by the standards' symbol. */
const RESULTS: Readonly<Record<string, TtoTerm>> = {
  S0: term('0000026', 'original cross-sectional area of the parallel length'),
  Su: term('0000024', 'minimum cross-sectional area after fracture'),
  Fm: term('0000023', 'maximum force'),
  Rm: term('0000053', 'tensile strength'),
  ReH: term('0000059', 'upper yield strength'),
  ReL: term('0000022', 'lower yield strength'),
  'Rp0.1': term('0000046', 'proof strength plastic extension rp01'),
  'Rp0.2': term('0000047', 'proof strength plastic extension rp02'),
  A: term('0000033', 'percentage elongation after fracture'),
  Ag: term('0000037', 'percentage plastic extension at maximum force'),
  Agt: term('0000040', 'percentage total extension at maximum force'),
  At: term('0000039', 'percentage total extension at fracture'),
  Ae: term('0000041', 'percentage yield point extension'),
  Z: term('0000038', 'percentage reduction of area'),
  'Rp0.2/Rm': term('1000000', 'yield strength ratio'),
};
const PLASTIC_EXTENSION = term('0000044', 'proof strength plastic extension');
const TOTAL_EXTENSION = term('0000045', 'proof strength total extension');

/** Null where the ontology has no term for the symbol. */
export function ttoTermOf(symbol: string): TtoTerm | null {
  if (Object.hasOwn(RESULTS, symbol)) return RESULTS[symbol] ?? null;
  if (/^Rp\d/.test(symbol)) return PLASTIC_EXTENSION;
  return /^Rt\d/.test(symbol) ? TOTAL_EXTENSION : null;
}

/** Results that the standard defines on an extensometer's gauge length: not to be published from crosshead travel. */
export function needsExtensometer(symbol: string): boolean {
  return /^(?:Rp|Rt|Ag|Agt|At|Ae)/.test(symbol);
}
