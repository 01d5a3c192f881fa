/** The picture of one pull as the export and the certificate show it: its curve with what the evaluation found on it. */
import type { Curve } from '../curve/curve.ts';
import { drawnLength } from '../curve/drawn-length.ts';
import { type UnitSymbol, convert, factorToCore } from '../quantity/units.ts';
import type { Evaluation } from '../results/evaluation.ts';
import type { Result } from '../results/result.ts';
import { type AxisInput, axisTitle } from './axis.ts';
import { type FoundName, foundMarks, offsetLines } from './found-on-curve.ts';
import type { CurvePlotInput, PlotLine, PlotMark } from './plot-input.ts';

export const PULL_PLOT_FORMS = ['load-extension', 'stress-strain', 'load-time'] as const;
export type PullPlotForm = (typeof PULL_PLOT_FORMS)[number];

/** Units in which the picture is drawn. */
export interface PlotUnits {
  readonly force: UnitSymbol;
  readonly length: UnitSymbol;
  readonly stress: UnitSymbol;
}

export const SI_PLOT_UNITS: PlotUnits = { force: 'kN', length: 'mm', stress: 'MPa' };
export const US_PLOT_UNITS: PlotUnits = { force: 'lbf', length: 'in', stress: 'ksi' };

export type PullPlot = Pick<CurvePlotInput, 'x' | 'y' | 'traces' | 'lines' | 'marks'>;
export type PullPlotOutcome =
  | { readonly ok: true; readonly plot: PullPlot }
  | { readonly ok: false; readonly code: PullPlotLack; readonly reason: string };

const LACKS = {
  'no-force': 'The curve holds stress and no force; draw stress over strain.',
  'no-time': 'The curve has no time; draw the load over the extension.',
  'no-extension': 'The curve has neither extension nor travel; draw the load over time.',
  'no-strain': 'There is no strain that could be relied on; draw the load instead.',
  'no-area': 'The area of the specimen is not known; draw the load instead.',
} as const;
export type PullPlotLack = keyof typeof LACKS;

export interface PullPlotRequest {
  readonly name: string;
  readonly curve: Curve;
  readonly evaluation: Evaluation;
  readonly form: PullPlotForm;
  readonly units?: PlotUnits;
  readonly words?: PullPlotWords;
}

/** What is written in a picture; English where nothing is said. */
export interface PullPlotWords {
  readonly break: string;
  readonly offset: (percent: string) => string;
  /** The digits of a value, which come with a decimal point, as they are read. */
  readonly digits: (text: string) => string;
  readonly load: string;
  readonly stress: string;
  readonly strain: string;
  readonly travelStrain: string;
  readonly extension: string;
  readonly travel: string;
  readonly time: string;
  /** Name and unit at an axis: "extension in mm". */
  readonly axis: (name: string, unit: string) => string;
}

const ENGLISH: PullPlotWords = {
  break: 'fracture',
  offset: (percent) => `offset ${percent} %`,
  digits: (text) => text,
  load: 'load',
  stress: 'stress',
  strain: 'strain',
  travelStrain: 'crosshead travel by length, not a gauge-length strain,',
  extension: 'extension',
  travel: 'crosshead travel',
  time: 'time',
  axis: axisTitle,
};

/** Where the curve can't give the picture asked for, the reason is handed back. */
export function pullPlot(request: PullPlotRequest): PullPlotOutcome {
  const units = request.units ?? SI_PLOT_UNITS;
  const columns = columnsOf(request, units);
  if (typeof columns === 'string') return { ok: false, code: columns, reason: LACKS[columns] };
  const { x, y, xTitle, xUnit, yTitle, yUnit } = columns;
  // Named in another language the unit is a part of the name.
  const axis = (title: string, unit: string): AxisInput =>
    request.words === undefined ? { title, unit } : { title: request.words.axis(title, unit), unit: '' };
  const gaps = (request.curve.gaps ?? []).map((gap) => gap.beforeIndex);
  return {
    ok: true,
    plot: {
      x: axis(xTitle, xUnit),
      y: axis(yTitle, yUnit),
      traces: [{ name: request.name, x, y, length: lengthOf(request), gaps }],
      lines: offsetLinesOf(request, units),
      marks: marksOf(request, x, y),
    },
  };
}

/** Over time there is none; over extension only where the strain is that extension by a length, and the area is known. */
function offsetLinesOf(
  { curve, evaluation, form, words = ENGLISH }: PullPlotRequest,
  units: PlotUnits,
): PlotLine[] {
  const { strain, areaMm2 } = evaluation;
  const said = (percent: number): string => words.offset(String(percent));
  if (form === 'stress-strain')
    return offsetLines(evaluation, { xPerStrain: 100, yPerMpa: 1 / factorToCore(units.stress) }, said);
  if (form === 'load-time' || strain?.channel !== channelAlong(curve) || areaMm2 === undefined) return [];
  const scale = {
    xPerStrain: strain.lengthMm / factorToCore(units.length),
    yPerMpa: areaMm2 / factorToCore(units.force),
  };
  return offsetLines(evaluation, scale, said);
}

/** What a picture of load over extension is drawn over. */
export const channelAlong = (curve: Curve): 'extension' | 'travel' =>
  curve.extensionMm === undefined ? 'travel' : 'extension';

function lengthOf({ curve, evaluation }: PullPlotRequest): number {
  return evaluation.marks.fracture === undefined ? curve.length : drawnLength(curve);
}

interface Columns {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly xTitle: string;
  readonly xUnit: string;
  readonly yTitle: string;
  readonly yUnit: string;
}

function columnsOf(request: PullPlotRequest, units: PlotUnits): Columns | PullPlotLack {
  const { curve, form, words = ENGLISH } = request;
  if (form === 'stress-strain') return stressStrain(request, units, words);
  const force = curve.forceN;
  if (force === undefined) return 'no-force';
  const upright = { y: scaled(force, 1 / factorToCore(units.force)), yTitle: words.load, yUnit: units.force };
  if (form === 'load-time')
    return curve.timeS === undefined
      ? 'no-time'
      : { ...upright, x: curve.timeS, xTitle: words.time, xUnit: 's' };
  const along = curve.extensionMm ?? curve.travelMm;
  if (along === undefined) return 'no-extension';
  return {
    ...upright,
    x: scaled(along, 1 / factorToCore(units.length)),
    xTitle: curve.extensionMm === undefined ? words.travel : words.extension,
    xUnit: units.length,
  };
}

function stressStrain(
  { curve, evaluation: { strain, areaMm2 } }: PullPlotRequest,
  units: PlotUnits,
  words: PullPlotWords,
): Columns | PullPlotLack {
  if (strain === undefined) return 'no-strain';
  const along = { extension: curve.extensionMm, strain: curve.strainRatio, travel: curve.travelMm }[
    strain.channel
  ];
  const perMpa = 1 / factorToCore(units.stress);
  const stress =
    curve.forceN !== undefined && areaMm2 !== undefined
      ? scaled(curve.forceN, perMpa / areaMm2)
      : curve.stressMpa !== undefined
        ? scaled(curve.stressMpa, perMpa)
        : undefined;
  if (along === undefined || stress === undefined) return 'no-area';
  return {
    x: scaled(along, 100 / strain.lengthMm),
    y: stress,
    xTitle: strain.channel === 'travel' ? words.travelStrain : words.strain,
    xUnit: '%',
    yTitle: words.stress,
    yUnit: units.stress,
  };
}

const scaled = (column: Float64Array, factor: number): Float64Array => column.map((value) => value * factor);

function marksOf(
  { evaluation, form, units = SI_PLOT_UNITS, words: said = ENGLISH }: PullPlotRequest,
  x: Float64Array,
  y: Float64Array,
): PlotMark[] {
  const { marks, results, proofs } = evaluation;
  const asStress = form === 'stress-strain';
  const words = (symbol: string): string => {
    const result = results.find((r) => r.symbol === symbol);
    return result === undefined
      ? symbol
      : `${symbol} ${valueWords(result, asStress ? units.stress : units.force, said.digits)}`;
  };
  const wordsOf = (name: FoundName): string => {
    switch (name) {
      case 'upper-yield':
        return words('ReH');
      case 'lower-yield':
        return words('ReL');
      case 'proof':
        return words(`Rp${String(proofs[0]?.offsetPercent ?? 0.2)}`);
      case 'maximum':
        return words(asStress ? 'Rm' : 'Fm');
      case 'break':
        return said.break;
    }
  };
  return foundMarks(marks).map(({ name, sign, reading }) => ({
    x: x[reading] ?? Number.NaN,
    y: y[reading] ?? Number.NaN,
    words: wordsOf(name),
    sign,
  }));
}

/** Digits of a value that no rule has rounded. */
const DIGITS = 4;

/** As the rule rounded it, else with four digits; in the unit of the picture. */
function valueWords(result: Result, unit: UnitSymbol, read: PullPlotWords['digits']): string {
  const rounded = result.rounded.find((r) => r.unit === unit) ?? result.rounded[0];
  if (rounded?.unit === unit) return `${read(rounded.text)} ${unit}`;
  const { value, unit: its } = rounded ?? result;
  if (convertible(result, unit)) return `${read(fourDigits(convert(value, its, unit)))} ${unit}`;
  return `${read(rounded?.text ?? fourDigits(value))} ${its}`;
}

const fourDigits = (value: number): string => String(Number(value.toPrecision(DIGITS)));

function convertible(result: Result, unit: UnitSymbol): boolean {
  try {
    convert(1, result.unit, unit);
    return true;
  } catch {
    return false;
  }
}
