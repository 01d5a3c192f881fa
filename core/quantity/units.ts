/**
 * Units of the tensile trade and their exact factors.
 *
 * Inside core everything is in the trade's SI: mm, N, MPa (= N/mm²), mm², s, strain as a plain ratio,
 * g, g/mm³. Factors are exact ratios; those of US customary units follow from the 1959 definitions
 * (1 in = 25.4 mm, 1 lb = 0.453 592 37 kg) and standard gravity (9.806 65 m/s²): NIST SP 811, Appendix B.
 */
import { type Exact, exactFromDecimal, exactRatio, toNumber } from './exact.ts';

export const DIMENSIONS = [
  'length',
  'area',
  'force',
  'stress',
  'strain',
  'time',
  'mass',
  'density',
  'speed',
  'stress-rate',
  'strain-rate',
  'energy',
  'temperature',
  'volume-energy',
] as const;
export type Dimension = (typeof DIMENSIONS)[number];

export interface Unit {
  /** How the program writes it. */
  readonly symbol: string;
  readonly dimension: Dimension;
  /** Multiply a value in this unit by this to get the core's unit of the dimension. */
  readonly toCore: Exact;
  readonly system: 'SI' | 'US' | 'both';
}

const d = (text: string): Exact => {
  const value = exactFromDecimal(text);
  if (value === null) throw new RangeError(`not a decimal: ${text}`);
  return value;
};

const ONE = exactRatio(1n, 1n);
const INCH_MM = d('25.4');
const POUND_FORCE_N = d('0.45359237').mul(d('9.80665'));
const PSI_MPA = POUND_FORCE_N.div(INCH_MM.mul(INCH_MM));

function unit(symbol: string, dimension: Dimension, toCore: Exact, system: Unit['system'] = 'SI'): Unit {
  return { symbol, dimension, toCore, system };
}

/** Every unit the program knows, by its symbol. */
export const UNITS = {
  mm: unit('mm', 'length', ONE),
  cm: unit('cm', 'length', d('10')),
  m: unit('m', 'length', d('1000')),
  µm: unit('µm', 'length', d('0.001')),
  in: unit('in', 'length', INCH_MM, 'US'),
  mil: unit('mil', 'length', INCH_MM.div(1000), 'US'),
  ft: unit('ft', 'length', INCH_MM.mul(12), 'US'),
  'mm²': unit('mm²', 'area', ONE),
  'in²': unit('in²', 'area', INCH_MM.mul(INCH_MM), 'US'),
  N: unit('N', 'force', ONE),
  kN: unit('kN', 'force', d('1000')),
  MN: unit('MN', 'force', d('1000000')),
  lbf: unit('lbf', 'force', POUND_FORCE_N, 'US'),
  kip: unit('kip', 'force', POUND_FORCE_N.mul(1000), 'US'),
  kgf: unit('kgf', 'force', d('9.80665')),
  tf: unit('tf', 'force', d('9806.65')),
  MPa: unit('MPa', 'stress', ONE),
  GPa: unit('GPa', 'stress', d('1000')),
  Pa: unit('Pa', 'stress', d('0.000001')),
  kPa: unit('kPa', 'stress', d('0.001')),
  psi: unit('psi', 'stress', PSI_MPA, 'US'),
  ksi: unit('ksi', 'stress', PSI_MPA.mul(1000), 'US'),
  Msi: unit('Msi', 'stress', PSI_MPA.mul(1000000), 'US'),
  '1': unit('1', 'strain', ONE, 'both'),
  '%': unit('%', 'strain', d('0.01'), 'both'),
  µε: unit('µε', 'strain', d('0.000001'), 'both'),
  s: unit('s', 'time', ONE, 'both'),
  ms: unit('ms', 'time', d('0.001'), 'both'),
  min: unit('min', 'time', d('60'), 'both'),
  h: unit('h', 'time', d('3600'), 'both'),
  g: unit('g', 'mass', ONE),
  kg: unit('kg', 'mass', d('1000')),
  lb: unit('lb', 'mass', d('453.59237'), 'US'),
  oz: unit('oz', 'mass', d('453.59237').div(16), 'US'),
  'g/cm³': unit('g/cm³', 'density', d('0.001')),
  'kg/m³': unit('kg/m³', 'density', d('0.000001')),
  'g/mm³': unit('g/mm³', 'density', ONE),
  'lb/in³': unit('lb/in³', 'density', d('453.59237').div(INCH_MM.mul(INCH_MM).mul(INCH_MM)), 'US'),
  'mm/s': unit('mm/s', 'speed', ONE),
  'mm/min': unit('mm/min', 'speed', exactRatio(1n, 60n)),
  'in/min': unit('in/min', 'speed', INCH_MM.div(60), 'US'),
  'in/s': unit('in/s', 'speed', INCH_MM, 'US'),
  'MPa/s': unit('MPa/s', 'stress-rate', ONE),
  'psi/min': unit('psi/min', 'stress-rate', PSI_MPA.div(60), 'US'),
  'psi/s': unit('psi/s', 'stress-rate', PSI_MPA, 'US'),
  'ksi/min': unit('ksi/min', 'stress-rate', PSI_MPA.mul(1000).div(60), 'US'),
  '1/s': unit('1/s', 'strain-rate', ONE, 'both'),
  '1/min': unit('1/min', 'strain-rate', exactRatio(1n, 60n), 'both'),
  '%/min': unit('%/min', 'strain-rate', d('0.01').div(60), 'both'),
  J: unit('J', 'energy', ONE),
  'ft·lbf': unit('ft·lbf', 'energy', POUND_FORCE_N.mul(INCH_MM).mul(12).div(1000), 'US'),
  'MJ/m³': unit('MJ/m³', 'volume-energy', ONE),
  '°C': unit('°C', 'temperature', ONE),
} as const satisfies Record<string, Unit>;
export type UnitSymbol = keyof typeof UNITS;

/** Other spellings that people and files use. Compared after lower-casing and removing blanks and full stops. */
const SPELLINGS: Readonly<Record<string, UnitSymbol>> = {
  millimeter: 'mm',
  millimeters: 'mm',
  millimetre: 'mm',
  millimetres: 'mm',
  um: 'µm',
  μm: 'µm',
  micron: 'µm',
  microns: 'µm',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  '″': 'in',
  '”': 'in',
  "''": 'in',
  thou: 'mil',
  mils: 'mil',
  feet: 'ft',
  foot: 'ft',
  mm2: 'mm²',
  'mm^2': 'mm²',
  sqmm: 'mm²',
  in2: 'in²',
  'in^2': 'in²',
  sqin: 'in²',
  'inch²': 'in²',
  newton: 'N',
  newtons: 'N',
  kilonewton: 'kN',
  kilonewtons: 'kN',
  lb_f: 'lbf',
  lbs: 'lbf',
  lbsf: 'lbf',
  'lb-f': 'lbf',
  poundforce: 'lbf',
  poundsforce: 'lbf',
  klbf: 'kip',
  kips: 'kip',
  klb: 'kip',
  kg_f: 'kgf',
  'kg-f': 'kgf',
  kp: 'kgf',
  tonf: 'tf',
  't-f': 'tf',
  'n/mm²': 'MPa',
  'n/mm2': 'MPa',
  'n/mm^2': 'MPa',
  'lbf/in²': 'psi',
  'lbf/in2': 'psi',
  'lb/in²': 'psi',
  'lb/in2': 'psi',
  ratio: '1',
  strain: '1',
  'mm/mm': '1',
  'in/in': '1',
  'm/m': '1',
  percent: '%',
  pct: '%',
  microstrain: 'µε',
  ue: 'µε',
  ustrain: 'µε',
  µstrain: 'µε',
  sec: 's',
  secs: 's',
  second: 's',
  seconds: 's',
  msec: 'ms',
  minute: 'min',
  minutes: 'min',
  hour: 'h',
  hours: 'h',
  gram: 'g',
  grams: 'g',
  kilogram: 'kg',
  kilograms: 'kg',
  'g/cm3': 'g/cm³',
  'g/cm^3': 'g/cm³',
  'g/cc': 'g/cm³',
  'kg/m3': 'kg/m³',
  'kg/m^3': 'kg/m³',
  'lb/in3': 'lb/in³',
  'lb/in^3': 'lb/in³',
  'g/mm3': 'g/mm³',
  ipm: 'in/min',
  'n/mm²/s': 'MPa/s',
  'n/mm2/s': 'MPa/s',
  'mpas-1': 'MPa/s',
  's-1': '1/s',
  's^-1': '1/s',
  'in/in/min': '1/min',
  'mm/mm/s': '1/s',
  'mm/mm/min': '1/min',
  'ft-lbf': 'ft·lbf',
  'ft-lb': 'ft·lbf',
  ftlbf: 'ft·lbf',
  'mj/m3': 'MJ/m³',
  degc: '°C',
  c: '°C',
};

/** Symbols told apart by case only (MPa is not mPa, MN is not mN) are matched as written first. */
export function unitFromText(text: string): Unit | null {
  const trimmed = text.trim();
  if (Object.hasOwn(UNITS, trimmed)) return UNITS[trimmed as UnitSymbol];
  const key = trimmed.toLowerCase().replace(/[\s.]/g, '');
  if (Object.hasOwn(SPELLINGS, key)) return UNITS[SPELLINGS[key] as UnitSymbol];
  const bySymbol = SYMBOL_BY_LOWER_CASE.get(key);
  return bySymbol === undefined ? null : UNITS[bySymbol];
}

/** Lower-cased symbols that belong to one unit only, so that "PSI", "KIP" and "KN" are understood. */
const SYMBOL_BY_LOWER_CASE: ReadonlyMap<string, UnitSymbol> = new Map(
  (Object.keys(UNITS) as UnitSymbol[])
    // "mn" and "mpa" could be milli-; a tensile frame never shows milli-newtons or milli-pascals, so Mega- is meant.
    .map((symbol) => [symbol.toLowerCase(), symbol] as const),
);

/** The unit that core uses for a dimension. */
export const CORE_UNIT: Readonly<Record<Dimension, UnitSymbol>> = {
  length: 'mm',
  area: 'mm²',
  force: 'N',
  stress: 'MPa',
  strain: '1',
  time: 's',
  mass: 'g',
  density: 'g/mm³',
  speed: 'mm/s',
  'stress-rate': 'MPa/s',
  'strain-rate': '1/s',
  energy: 'J',
  temperature: '°C',
  'volume-energy': 'MJ/m³',
};

/** Factor as the nearest double: value in the unit × factor = value in the core's unit. */
export function factorToCore(symbol: UnitSymbol): number {
  return toNumber(UNITS[symbol].toCore);
}

/** Exact conversion between two units of one dimension. Throws a RangeError when the dimensions differ. */
export function convertExact(value: Exact, from: UnitSymbol, to: UnitSymbol): Exact {
  const source = UNITS[from];
  const target = UNITS[to];
  if (source.dimension !== target.dimension) {
    throw new RangeError(`${from} is a ${source.dimension} and ${to} a ${target.dimension}: no conversion`);
  }
  return value.mul(source.toCore).div(target.toCore);
}

/** Conversion of a double between two units of one dimension. Throws a RangeError when the dimensions differ. */
export function convert(value: number, from: UnitSymbol, to: UnitSymbol): number {
  if (from === to) return value;
  const source = UNITS[from];
  const target = UNITS[to];
  if (source.dimension !== target.dimension) {
    throw new RangeError(`${from} is a ${source.dimension} and ${to} a ${target.dimension}: no conversion`);
  }
  return value * toNumber(source.toCore.div(target.toCore));
}
