/** The picture of one pull as the export and the certificate show it: its curve with what the evaluation found on it. */
import type { Curve } from '../curve/curve.ts';
import { drawnLength } from '../curve/drawn-length.ts';
import { type UnitSymbol, convert, factorToCore } from '../quantity/units.ts';
import type { Evaluation } from '../results/evaluation.ts';
import type { Result } from '../results/result.ts';
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
  { readonly ok: true; readonly plot: PullPlot } | { readonly ok: false; readonly reason: string };

export interface PullPlotRequest {
  readonly name: string;
  readonly curve: Curve;
  readonly evaluation: Evaluation;
  readonly form: PullPlotForm;
  readonly units?: PlotUnits;
}

/** Where the curve can't give the picture asked for, the reason is handed back. */
export function pullPlot(request: PullPlotRequest): PullPlotOutcome {
  const units = request.units ?? SI_PLOT_UNITS;
  const columns = columnsOf(request, units);
  if (typeof columns === 'string') return { ok: false, reason: columns };
  const { x, y, xTitle, xUnit, yTitle, yUnit } = columns;
  const gaps = (request.curve.gaps ?? []).map((gap) => gap.beforeIndex);
  return {
    ok: true,
    plot: {
      x: { title: xTitle, unit: xUnit },
      y: { title: yTitle, unit: yUnit },
      traces: [{ name: request.name, x, y, length: lengthOf(request), gaps }],
      lines: request.form === 'stress-strain' ? offsetLines(request.evaluation, units) : [],
      marks: marksOf(request, x, y),
    },
  };
}

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

function columnsOf({ curve, evaluation, form }: PullPlotRequest, units: PlotUnits): Columns | string {
  if (form === 'stress-strain') return stressStrain(curve, evaluation, units);
  const force = curve.forceN;
  if (force === undefined) return 'The curve holds stress and no force; draw stress over strain.';
  const upright = { y: scaled(force, 1 / factorToCore(units.force)), yTitle: 'load', yUnit: units.force };
  if (form === 'load-time')
    return curve.timeS === undefined
      ? 'The curve has no time; draw the load over the extension.'
      : { ...upright, x: curve.timeS, xTitle: 'time', xUnit: 's' };
  const along = curve.extensionMm ?? curve.travelMm;
  if (along === undefined) return 'The curve has neither extension nor travel; draw the load over time.';
  return {
    ...upright,
    x: scaled(along, 1 / factorToCore(units.length)),
    xTitle: curve.extensionMm === undefined ? 'crosshead travel' : 'extension',
    xUnit: units.length,
  };
}

function stressStrain(curve: Curve, { strain, areaMm2 }: Evaluation, units: PlotUnits): Columns | string {
  if (strain === undefined) return 'There is no strain that could be relied on; draw the load instead.';
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
  if (along === undefined || stress === undefined)
    return 'The area of the specimen is not known; draw the load instead.';
  return {
    x: scaled(along, 100 / strain.lengthMm),
    y: stress,
    xTitle: strain.channel === 'travel' ? 'crosshead travel by length, not a gauge-length strain,' : 'strain',
    xUnit: '%',
    yTitle: 'stress',
    yUnit: units.stress,
  };
}

const scaled = (column: Float64Array, factor: number): Float64Array => column.map((value) => value * factor);

/** How far an offset line is drawn beyond the curve that it crosses. */
const BEYOND = 1.08;

function offsetLines({ slope, proofs }: Evaluation, units: PlotUnits): PlotLine[] {
  if (slope === undefined) return [];
  const stressTo = 1 / factorToCore(units.stress);
  return proofs.map(({ offsetPercent, stressMpa }) => {
    const foot = slope.footStrain * 100 + offsetPercent;
    const top = stressMpa * BEYOND;
    return {
      x1: foot,
      y1: 0,
      x2: foot + (top / slope.slopeMpa) * 100,
      y2: top * stressTo,
      words: `offset ${String(offsetPercent)} %`,
    };
  });
}

function marksOf(
  { evaluation, form, units = SI_PLOT_UNITS }: PullPlotRequest,
  x: Float64Array,
  y: Float64Array,
): PlotMark[] {
  const { marks, results, proofs } = evaluation;
  const asStress = form === 'stress-strain';
  const words = (symbol: string): string => {
    const result = results.find((r) => r.symbol === symbol);
    return result === undefined
      ? symbol
      : `${symbol} ${valueWords(result, asStress ? units.stress : units.force)}`;
  };
  const at = (index: number | undefined, text: string): PlotMark[] =>
    index === undefined ? [] : [{ x: x[index] ?? Number.NaN, y: y[index] ?? Number.NaN, words: text }];
  return [
    ...at(marks.upperYield, words('ReH')),
    ...at(marks.lowerYield, words('ReL')),
    ...at(marks.proof, words(`Rp${String(proofs[0]?.offsetPercent ?? 0.2)}`)),
    ...at(marks.maximumForce, words(asStress ? 'Rm' : 'Fm')),
    ...at(marks.fracture, 'break'),
  ];
}

/** Digits of a value that no rule has rounded. */
const DIGITS = 4;

/** As the rule rounded it where that is in the unit of the picture, else with four digits. */
function valueWords(result: Result, unit: UnitSymbol): string {
  const rounded = result.rounded.find((r) => r.unit === unit) ?? result.rounded[0];
  if (rounded !== undefined) return `${rounded.text} ${rounded.unit}`;
  const value = convertible(result, unit) ? convert(result.value, result.unit, unit) : result.value;
  return `${String(Number(value.toPrecision(DIGITS)))} ${convertible(result, unit) ? unit : result.unit}`;
}

function convertible(result: Result, unit: UnitSymbol): boolean {
  try {
    convert(1, result.unit, unit);
    return true;
  } catch {
    return false;
  }
}
