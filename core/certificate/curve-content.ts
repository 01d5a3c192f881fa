/** The curve for a certificate: corner points enough for a picture on paper, with what it has to show on it. */
import type { Curve } from '../curve/curve.ts';
import { drawnLength } from '../curve/drawn-length.ts';
import { thinCurve } from '../curve/thin-curve.ts';
import type { PixelMap } from '../curve/thinning.ts';
import { numberText } from '../quantity/number-text.ts';
import type { Evaluation } from '../results/evaluation.ts';
import type { CurveContent } from './certificate-content.ts';

/** Corner points of one curve: more than a printer's dots across the picture need. */
const CORNERS_MAX = 6_000;
/** A picture of this many dots; thinning finer than that can't be seen. */
const PICTURE_PX = { width: 2_000, height: 1_200 };
/** An offset line is carried on a little above the strength it gives. */
const LINE_BEYOND = 1.15;
const FIGURES = 5;

interface Axis {
  readonly label: string;
  readonly values: Float64Array;
  /** Millimetres for which the x axis stands, to place lines given in strain; null where it has no length. */
  readonly strainLengthMm: number | null;
}

/** Null where the curve has no two quantities to draw against each other. */
export function curveContent(curve: Curve, evaluation: Evaluation | null): CurveContent | null {
  const x = abscissa(curve);
  const y = ordinate(curve);
  if (x === null || y === null || curve.length === 0) return null;
  const length = evaluation?.marks.fracture === undefined ? curve.length : drawnLength(curve);
  const thinned = thinCurve(
    {
      length,
      x: x.values,
      y: y.values,
      lifts: (curve.gaps ?? []).map((gap) => gap.beforeIndex),
    },
    pixelMap(x.values.subarray(0, length), y.values.subarray(0, length)),
    { cornersMax: CORNERS_MAX },
  );
  const corners = Array.from({ length: thinned.length }, (_, i) => thinned.reading[i] ?? 0);
  return {
    xLabel: x.label,
    yLabel: y.label,
    x: corners.map((reading) => x.values[reading] ?? Number.NaN),
    y: corners.map((reading) => y.values[reading] ?? Number.NaN),
    lifts: corners.flatMap((_, i) => (i > 0 && thinned.lifts[i] === 1 ? [i] : [])),
    marks: evaluation === null ? [] : marks(evaluation, x, y),
    lines: evaluation === null ? [] : offsetLines(evaluation, x, y),
    note:
      x.label.startsWith('crosshead') || evaluation?.strain?.channel === 'travel'
        ? 'Crosshead travel contains the give of frame and grips; it is no extension of the gauge length.'
        : null,
  };
}

function abscissa(curve: Curve): Axis | null {
  if (curve.extensionMm !== undefined) {
    return { label: 'extension, mm', values: curve.extensionMm, strainLengthMm: null };
  }
  if (curve.strainRatio !== undefined)
    return { label: 'strain', values: curve.strainRatio, strainLengthMm: 1 };
  if (curve.travelMm !== undefined) {
    return { label: 'crosshead travel, mm', values: curve.travelMm, strainLengthMm: null };
  }
  return curve.timeS === undefined ? null : { label: 'time, s', values: curve.timeS, strainLengthMm: null };
}

function ordinate(curve: Curve): Axis | null {
  if (curve.forceN !== undefined) return { label: 'force, N', values: curve.forceN, strainLengthMm: null };
  return curve.stressMpa === undefined
    ? null
    : { label: 'stress, MPa', values: curve.stressMpa, strainLengthMm: null };
}

function pixelMap(x: Float64Array, y: Float64Array): PixelMap {
  const [xLow, xHigh] = extent(x);
  const [yLow, yHigh] = extent(y);
  const xPerUnit = PICTURE_PX.width / (xHigh - xLow || 1);
  const yPerUnit = -PICTURE_PX.height / (yHigh - yLow || 1);
  return { xOffset: -xLow * xPerUnit, xPerUnit, yOffset: -yHigh * yPerUnit, yPerUnit };
}

function extent(values: Float64Array): [number, number] {
  let low = Infinity;
  let high = -Infinity;
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return Number.isFinite(low) ? [low, high] : [0, 1];
}

function marks(evaluation: Evaluation, x: Axis, y: Axis): CurveContent['marks'] {
  const at = evaluation.marks;
  const unit = y.label.endsWith('MPa') ? 'MPa' : 'N';
  const wanted: readonly (readonly [number | undefined, string, boolean])[] = [
    [at.maximumForce, 'maximum', true],
    [at.upperYield, 'upper yield', true],
    [at.proof, '0.2 % offset', true],
    [at.fracture, 'break', false],
  ];
  return wanted.flatMap(([index, name, withValue]) => {
    if (index === undefined) return [];
    const [px, py] = [x.values[index], y.values[index]];
    if (px === undefined || py === undefined || Number.isNaN(px) || Number.isNaN(py)) return [];
    return [{ x: px, y: py, words: withValue ? `${name} ${numberText(py, FIGURES)} ${unit}` : name }];
  });
}

/** Offset lines in the units of the axes; left out where strain can't be placed on them. */
function offsetLines(evaluation: Evaluation, x: Axis, y: Axis): CurveContent['lines'] {
  const { slope, strain, areaMm2 } = evaluation;
  if (slope === undefined || strain === undefined) return [];
  const onExtension = x.label.startsWith('extension') && strain.channel === 'extension';
  const lengthMm = onExtension ? strain.lengthMm : x.strainLengthMm;
  const perMpa = y.label.endsWith('MPa') ? 1 : areaMm2;
  if (lengthMm === null || perMpa === undefined) return [];
  return evaluation.proofs.map((proof) => {
    const foot = slope.footStrain + proof.offsetPercent / 100;
    const top = proof.stressMpa * LINE_BEYOND;
    return {
      x1: foot * lengthMm,
      y1: 0,
      x2: (foot + top / slope.slopeMpa) * lengthMm,
      y2: top * perMpa,
      words: `${numberText(proof.offsetPercent, 3)} % offset`,
    };
  });
}
