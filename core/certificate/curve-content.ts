/** The curve for a certificate: corner points enough for a picture on paper, with what it has to show on it. */
import { grouped } from '../acceptance/number-text.ts';
import type { Curve } from '../curve/curve.ts';
import { drawnLength } from '../curve/drawn-length.ts';
import { thinCurve } from '../curve/thin-curve.ts';
import type { PixelMap } from '../curve/thinning.ts';
import { type FoundName, foundMarks, offsetLines } from '../drawing/found-on-curve.ts';
import { type DisplaySystem, displayUnit } from '../quantity/display-unit.ts';
import { numberText } from '../quantity/number-text.ts';
import { type UnitSymbol, convert } from '../quantity/units.ts';
import type { Evaluation } from '../results/evaluation.ts';
import { ENGLISH_PAPER, type PaperText, type PaperWords } from '../words/paper-words.ts';
import type { CurveContent } from './certificate-content.ts';

/** Corner points of one curve: more than a printer's dots across the picture need. */
const CORNERS_MAX = 6_000;
/** A picture of this many dots; thinning finer than that can't be seen. */
const PICTURE_PX = { width: 2_000, height: 1_200 };
const FIGURES = 5;

interface Axis {
  readonly quantity: 'extension' | 'strain' | 'travel' | 'time' | 'force' | 'stress';
  readonly label: string;
  /** In the core's unit. */
  readonly values: Float64Array;
  /** Of the label; `perUnit` of them make one of the core's unit. */
  readonly unit: UnitSymbol;
  readonly perUnit: number;
}

/**
 * In the units of the specimen. Null where the curve has no two quantities to draw against each other. Where the
 * extensometer came off before the maximum, the force over time is drawn too, or maximum and break would be nowhere.
 */
export function curveContent(
  curve: Curve,
  evaluation: Evaluation | null,
  system: DisplaySystem = 'si',
  words: PaperWords = ENGLISH_PAPER,
): CurveContent | null {
  const x = abscissa(curve, system, words);
  const y = ordinate(curve, system, words);
  if (x === null || y === null || curve.length === 0) return null;
  const time = timeAxis(curve, words);
  const first = drawn(curve, { evaluation, x, y, words });
  if (time === null || time.values === x.values || !endsBeforeMaximum(evaluation, x)) return first;
  return {
    ...first,
    note: [first.note, words.text('The extension ends before the maximum force: see the force over time.')]
      .filter((words) => words !== null)
      .join(' '),
    overTime: drawn(curve, { evaluation, x: time, y, words }),
  };
}

interface Drawing {
  readonly evaluation: Evaluation | null;
  readonly x: Axis;
  readonly y: Axis;
  readonly words: PaperWords;
}

function drawn(curve: Curve, { evaluation, x, y, words }: Drawing): CurveContent {
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
    x: corners.map((reading) => inAxis(x, reading)),
    y: corners.map((reading) => inAxis(y, reading)),
    lifts: corners.flatMap((_, i) => (i > 0 && thinned.lifts[i] === 1 ? [i] : [])),
    marks: evaluation === null ? [] : marks(evaluation, x, y, words),
    lines: evaluation === null ? [] : linesOf(evaluation, x, y, words),
    note:
      x.quantity === 'travel' || evaluation?.strain?.channel === 'travel'
        ? words.text(
            'Crosshead travel contains the give of frame and grips; it is no extension of the gauge length.',
          )
        : null,
    overTime: null,
  };
}

/** What was recorded behind the last extension that can be relied on is no extension. */
function endsBeforeMaximum(evaluation: Evaluation | null, x: Axis): boolean {
  const { maximumForce, extensionTrustedUntil } = evaluation?.marks ?? {};
  if (maximumForce === undefined || (x.quantity !== 'extension' && x.quantity !== 'strain')) return false;
  return (
    Number.isNaN(x.values[maximumForce] ?? Number.NaN) ||
    (extensionTrustedUntil !== undefined && extensionTrustedUntil < maximumForce)
  );
}

function abscissa(
  { extensionMm, strainRatio, travelMm, ...curve }: Curve,
  system: DisplaySystem,
  words: PaperWords,
): Axis | null {
  const { text } = words;
  if (extensionMm !== undefined)
    return axis('extension', text('extension'), extensionMm, displayUnit('mm', system));
  if (strainRatio !== undefined)
    return { quantity: 'strain', label: text('strain'), values: strainRatio, unit: '1', perUnit: 1 };
  if (travelMm !== undefined)
    return axis('travel', text('crosshead travel'), travelMm, displayUnit('mm', system));
  return timeAxis(curve, words);
}

function timeAxis({ timeS }: Pick<Curve, 'timeS'>, { text }: PaperWords): Axis | null {
  return timeS === undefined
    ? null
    : { quantity: 'time', label: `${text('time')}, s`, values: timeS, unit: 's', perUnit: 1 };
}

function ordinate({ forceN, stressMpa }: Curve, system: DisplaySystem, { text }: PaperWords): Axis | null {
  if (forceN !== undefined) return axis('force', text('force'), forceN, displayUnit('N', system));
  return stressMpa === undefined
    ? null
    : axis('stress', text('stress'), stressMpa, displayUnit('MPa', system));
}

const CORE_UNITS = { extension: 'mm', travel: 'mm', force: 'N', stress: 'MPa' } as const;

/** The column stays as it is: a point is converted when it is drawn. */
function axis(
  quantity: keyof typeof CORE_UNITS,
  title: string,
  values: Float64Array,
  unit: UnitSymbol,
): Axis {
  return {
    quantity,
    label: `${title}, ${unit}`,
    values,
    unit,
    perUnit: convert(1, CORE_UNITS[quantity], unit),
  };
}

const inAxis = ({ values, perUnit }: Axis, reading: number): number =>
  (values[reading] ?? Number.NaN) * perUnit;

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

function marks(evaluation: Evaluation, x: Axis, y: Axis, paper: PaperWords): CurveContent['marks'] {
  const [first] = evaluation.proofs;
  return foundMarks(evaluation.marks).flatMap(({ name, sign, reading }) => {
    const [px, py] = [inAxis(x, reading), inAxis(y, reading)];
    if (Number.isNaN(px) || Number.isNaN(py) || (name === 'proof' && first === undefined)) return [];
    const words = name === 'proof' ? offsetWords(paper)(first?.offsetPercent ?? 0) : paper.text(NAMES[name]);
    const value = `${grouped(numberText(py, FIGURES))} ${y.unit}`;
    return [{ x: px, y: py, words: name === 'break' ? words : `${words} ${value}`, sign }];
  });
}

const NAMES = {
  maximum: 'maximum',
  'upper-yield': 'upper yield',
  'lower-yield': 'lower yield',
  break: 'fracture',
} as const satisfies Readonly<Record<Exclude<FoundName, 'proof'>, PaperText>>;
const offsetWords =
  ({ text }: PaperWords) =>
  (percent: number): string =>
    text('{1} % offset', numberText(percent, 3));

/** Offset lines in the units of the axes; left out where strain can't be placed on them. */
function linesOf(evaluation: Evaluation, x: Axis, y: Axis, words: PaperWords): CurveContent['lines'] {
  const { strain, areaMm2 } = evaluation;
  if (strain === undefined) return [];
  const onExtension = x.quantity === 'extension' && strain.channel === 'extension';
  const lengthMm = onExtension ? strain.lengthMm : x.quantity === 'strain' ? 1 : null;
  const perMpa = y.quantity === 'stress' ? 1 : areaMm2;
  if (lengthMm === null || perMpa === undefined) return [];
  return offsetLines(
    evaluation,
    { xPerStrain: lengthMm * x.perUnit, yPerMpa: perMpa * y.perUnit },
    offsetWords(words),
  );
}
