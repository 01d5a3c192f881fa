/**
 * What a worksheet says of a force-measuring system: errors at every force with their working, the class by ISO 7500-1,
 * and whether it stays within ASTM E4. Everything that is compared with a limit is compared exactly; rounding is for
 * showing only.
 */
import { type Exact, exactFromDecimal, exactRatio, toNumber } from '../quantity/exact.ts';
import { numberText } from '../quantity/number-text.ts';
import { roundExact, stepFromText } from '../quantity/round-exact.ts';
import type { Working } from '../results/result.ts';
import {
  E4_LIMITS,
  E4_RUNS_MIN,
  E4_SOURCE,
  E4_STEP_SHARE_MAX,
  ISO_CLASSES,
  ISO_LIMITS,
  ISO_RUNS_MIN,
  ISO_SOURCE,
  type ClassLimits,
  type IsoClass,
  STEPS_MIN,
} from './class-limits.ts';
import {
  type Figure,
  type ReadStep,
  type ReadWorksheet,
  type WorksheetUnit,
  meanApplied,
  meanOf,
} from './worksheet.ts';

/** A relative figure in percent. */
export interface PercentFinding {
  readonly symbol: 'q' | 'b' | 'v' | 'a' | 'f0' | 'E' | 'R';
  readonly name: string;
  /** The nearest double, for drawing; comparisons were made on the exact value. */
  readonly percent: number;
  /** Rounded to 0.001 %, for reading. */
  readonly text: string;
  readonly working: Working;
}

export interface VerifiedStep {
  /** Mean applied force, in the unit of the worksheet. */
  readonly applied: number;
  readonly appliedText: string;
  readonly error: PercentFinding;
  readonly repeatability: PercentFinding;
  /** Null where nothing was read on the way down. */
  readonly reversibility: PercentFinding | null;
  readonly resolution: PercentFinding;
  /** The best class whose limits all hold at this force; null where none does. */
  readonly isoClass: IsoClass | null;
  /** The run that is furthest off, and the spread of the runs. */
  readonly e4: {
    readonly error: PercentFinding;
    readonly repeatability: PercentFinding;
    readonly within: boolean;
  };
}

export interface VerifiedRange {
  readonly from: number;
  readonly fromText: string;
  readonly to: number;
  readonly toText: string;
}

export interface LowerLimit {
  readonly value: number;
  readonly text: string;
  readonly working: Working;
}

export interface IsoVerdict {
  /** Of the whole range that was verified; null where it has none. */
  readonly class: IsoClass | null;
  /** Why no class is stated; empty where one is. */
  readonly withheld: readonly string[];
  /** For each class the range at the upper end in which every force conforms to it; null where the largest doesn't. */
  readonly ranges: Readonly<Record<IsoClass, VerifiedRange | null>>;
  /** The lowest force that the resolution allows for each class. */
  readonly lowerLimits: Readonly<Record<IsoClass, LowerLimit>>;
}

export interface E4Verdict {
  /** The range at the upper end in which every force is within E4; null where there is none. */
  readonly range: VerifiedRange | null;
  readonly wholeRange: boolean;
  readonly withheld: readonly string[];
  readonly lowerLimit: LowerLimit;
}

export interface Verification {
  readonly unit: WorksheetUnit;
  readonly runCount: number;
  readonly steps: readonly VerifiedStep[];
  /** The largest residual; null where none was noted. */
  readonly zero: PercentFinding | null;
  readonly iso: IsoVerdict;
  readonly e4: E4Verdict;
  /** What the standards ask for beside the figures and the worksheet doesn't show. */
  readonly remarks: readonly string[];
}

const ZERO = exactRatio(0n, 1n);
const HUNDRED = exactRatio(100n, 1n);

interface Worked {
  readonly exact: Exact;
  readonly finding: PercentFinding;
}

export function verifyForce(sheet: ReadWorksheet): Verification {
  const unit = sheet.unit;
  const steps = sheet.steps.map((step) => verifiedStep(step, sheet));
  const zero = zeroFinding(sheet);
  return {
    unit,
    runCount: sheet.runCount,
    steps: steps.map(({ shown }) => shown),
    zero: zero?.finding ?? null,
    iso: isoVerdict(sheet, steps, zero),
    e4: e4Verdict(sheet, steps),
    remarks: remarks(sheet),
  };
}

interface StepAtWork {
  readonly shown: VerifiedStep;
  readonly applied: Exact;
}

function verifiedStep(step: ReadStep, sheet: ReadWorksheet): StepAtWork {
  const { unit } = sheet;
  const applied = meanApplied(step);
  const error = meanError(step, applied, unit);
  const errors = step.runs.map((run) =>
    percentOf(run.indicated.exact.sub(run.applied.exact), run.applied.exact),
  );
  const spread = largest(errors).sub(smallest(errors));
  const repeatability = spreadFinding('b', 'relative repeatability error', errors, spread, ISO_SOURCE);
  const reversibility = reversibilityFinding(step, unit);
  const resolution = resolutionFinding(sheet.resolution, applied, unit);
  const within = (limits: ClassLimits): boolean =>
    inside(error.exact, limits.error) &&
    inside(spread, limits.repeatability) &&
    (reversibility === null || inside(reversibility.exact, limits.reversibility)) &&
    inside(resolution.exact, limits.resolution);
  const worst = worstRun(step, unit);
  const e4Within =
    inside(worst.exact, E4_LIMITS.error) &&
    inside(spread, E4_LIMITS.repeatability) &&
    applied.compare(sheet.resolution.exact.mul(E4_LIMITS.timesResolution)) >= 0;
  return {
    applied,
    shown: {
      applied: toNumber(applied),
      appliedText: forceText(applied),
      error: error.finding,
      repeatability,
      reversibility: reversibility?.finding ?? null,
      resolution: resolution.finding,
      isoClass: ISO_CLASSES.find((one) => within(ISO_LIMITS[one])) ?? null,
      e4: {
        error: worst.finding,
        repeatability: spreadFinding('R', 'repeatability', errors, spread, E4_SOURCE),
        within: e4Within,
      },
    },
  };
}

function meanError(step: ReadStep, applied: Exact, unit: WorksheetUnit): Worked {
  const indicated = meanOf(step.runs.map((run) => run.indicated.exact));
  const exact = percentOf(indicated.sub(applied), applied);
  return {
    exact,
    finding: {
      symbol: 'q',
      name: 'relative indication error',
      ...percentFacts(exact),
      working: {
        formula: 'q = 100 × (Fi − F) / F',
        inputs: [
          {
            symbol: 'Fi',
            name: 'force indicated',
            value: toNumber(indicated),
            unit,
            from: `mean of ${runWords(step.runs.map((run) => run.indicated))}`,
          },
          {
            symbol: 'F',
            name: 'force applied',
            value: toNumber(applied),
            unit,
            from: `mean of ${runWords(step.runs.map((run) => run.applied))}`,
          },
        ],
        substituted: `q = 100 × (${forceText(indicated)} − ${forceText(applied)}) / ${forceText(applied)} = ${percentText(exact)} %`,
        source: ISO_SOURCE,
      },
    },
  };
}

function spreadFinding(
  symbol: 'b' | 'R',
  name: string,
  errors: readonly Exact[],
  spread: Exact,
  source: string,
): PercentFinding {
  const [high, low] = [largest(errors), smallest(errors)];
  const of = symbol === 'b' ? 'q' : 'E';
  return {
    symbol,
    name,
    ...percentFacts(spread),
    working: {
      formula: `${symbol} = ${of}max − ${of}min`,
      inputs: [
        {
          symbol: `${of}max`,
          name: 'largest error of a run',
          value: toNumber(high),
          unit: '%',
          from: `${String(errors.length)} runs`,
        },
        {
          symbol: `${of}min`,
          name: 'smallest error of a run',
          value: toNumber(low),
          unit: '%',
          from: `${String(errors.length)} runs`,
        },
      ],
      substituted: `${symbol} = ${percentText(high)} % − ${inBrackets(percentText(low))} % = ${percentText(spread)} %`,
      source,
    },
  };
}

/** The way down against the way up of the last run, each by its own error, so that forces that differ a little do no harm. */
function reversibilityFinding(step: ReadStep, unit: WorksheetUnit): Worked | null {
  const up = step.runs.at(-1);
  const down = step.descending;
  if (up === undefined || down === null) return null;
  const errorUp = percentOf(up.indicated.exact.sub(up.applied.exact), up.applied.exact);
  const errorDown = percentOf(down.indicated.exact.sub(down.applied.exact), down.applied.exact);
  const exact = errorDown.sub(errorUp);
  const figure = (symbol: string, name: string, { text, exact: value }: Figure) => ({
    symbol,
    name,
    value: toNumber(value),
    unit,
    from: `last run, read ${text}`,
  });
  return {
    exact,
    finding: {
      symbol: 'v',
      name: 'relative reversibility error',
      ...percentFacts(exact),
      working: {
        formula: 'v = 100 × ((Fi′ − F′) / F′ − (Fi − F) / F)',
        inputs: [
          figure('Fi', 'indicated on the way up', up.indicated),
          figure('F', 'applied on the way up', up.applied),
          figure('Fi′', 'indicated on the way down', down.indicated),
          figure('F′', 'applied on the way down', down.applied),
        ],
        substituted: `v = ${percentText(errorDown)} % − ${inBrackets(percentText(errorUp))} % = ${percentText(exact)} %`,
        source: ISO_SOURCE,
      },
    },
  };
}

function resolutionFinding(resolution: Figure, applied: Exact, unit: WorksheetUnit): Worked {
  const exact = percentOf(resolution.exact, applied);
  return {
    exact,
    finding: {
      symbol: 'a',
      name: 'relative resolution',
      ...percentFacts(exact),
      working: {
        formula: 'a = 100 × r / F',
        inputs: [
          { symbol: 'r', name: 'resolution', value: toNumber(resolution.exact), unit, from: 'as noted' },
          { symbol: 'F', name: 'force applied', value: toNumber(applied), unit, from: 'mean of the runs' },
        ],
        substituted: `a = 100 × ${resolution.text} / ${forceText(applied)} = ${percentText(exact)} %`,
        source: ISO_SOURCE,
      },
    },
  };
}

/** ASTM E4 looks at every reading by itself, not at their mean. */
function worstRun(step: ReadStep, unit: WorksheetUnit): Worked {
  const [first, ...others] = step.runs.map((run, place) => ({
    run,
    place,
    exact: percentOf(run.indicated.exact.sub(run.applied.exact), run.applied.exact),
  }));
  if (first === undefined) throw new RangeError('a step has at least one run');
  const worst = others.reduce(
    (most, one) => (one.exact.abs().compare(most.exact.abs()) > 0 ? one : most),
    first,
  );
  const { applied, indicated } = worst.run;
  return {
    exact: worst.exact,
    finding: {
      symbol: 'E',
      name: 'percent error of the run that is furthest off',
      ...percentFacts(worst.exact),
      working: {
        formula: 'E = 100 × (A − B) / B',
        inputs: [
          {
            symbol: 'A',
            name: 'force indicated',
            value: toNumber(indicated.exact),
            unit,
            from: `run ${String(worst.place + 1)}`,
          },
          {
            symbol: 'B',
            name: 'force applied',
            value: toNumber(applied.exact),
            unit,
            from: `run ${String(worst.place + 1)}`,
          },
        ],
        substituted: `E = 100 × (${indicated.text} − ${applied.text}) / ${applied.text} = ${percentText(worst.exact)} %`,
        source: E4_SOURCE,
      },
    },
  };
}

function zeroFinding({ zeros, capacity, steps, unit }: ReadWorksheet): Worked | null {
  const [first, ...others] = zeros;
  const top = steps.at(-1);
  if (first === undefined || top === undefined) return null;
  const worst = others.reduce(
    (most, one) => (one.exact.abs().compare(most.exact.abs()) > 0 ? one : most),
    first,
  );
  const full = capacity?.exact ?? meanApplied(top);
  const exact = percentOf(worst.exact, full);
  return {
    exact,
    finding: {
      symbol: 'f0',
      name: 'relative zero error',
      ...percentFacts(exact),
      working: {
        formula: 'f0 = 100 × Fi0 / FN',
        inputs: [
          {
            symbol: 'Fi0',
            name: 'indicated without force',
            value: toNumber(worst.exact),
            unit,
            from: `furthest of ${String(zeros.length)}`,
          },
          {
            symbol: 'FN',
            name: 'largest force of the range',
            value: toNumber(full),
            unit,
            from: capacity === null ? 'largest force applied' : 'as noted',
          },
        ],
        substituted: `f0 = 100 × ${inBrackets(worst.text)} / ${forceText(full)} = ${percentText(exact)} %`,
        source: ISO_SOURCE,
      },
    },
  };
}

function isoVerdict(sheet: ReadWorksheet, steps: readonly StepAtWork[], zero: Worked | null): IsoVerdict {
  const zeroHolds = (one: IsoClass): boolean => zero === null || inside(zero.exact, ISO_LIMITS[one].zero);
  const ranges = ofClasses((one) =>
    zeroHolds(one) ? rangeAtTop(steps, ({ shown }) => classHolds(shown.isoClass, one)) : null,
  );
  const conforming =
    ISO_CLASSES.find(
      (one) => zeroHolds(one) && steps.every(({ shown }) => classHolds(shown.isoClass, one)),
    ) ?? null;
  const incomplete = [
    ...(sheet.runCount >= ISO_RUNS_MIN
      ? []
      : [
          `ISO 7500-1 rests on ${String(ISO_RUNS_MIN)} runs and there ${sheet.runCount === 1 ? 'is 1' : `are ${String(sheet.runCount)}`}; add the others.`,
        ]),
    ...(steps.length >= STEPS_MIN
      ? []
      : [
          `ISO 7500-1 rests on ${String(STEPS_MIN)} forces at least (from memory); the worksheet has ${String(steps.length)}.`,
        ]),
    ...(zero === null ? ['What was indicated without force is not noted; add it under "zeros".'] : []),
  ];
  return {
    class: incomplete.length > 0 ? null : conforming,
    withheld:
      incomplete.length > 0 || conforming !== null
        ? incomplete
        : [
            'At some force, or at zero, even the limits of class 3 are passed; the range of each class tells where it holds.',
          ],
    ranges,
    lowerLimits: ofClasses((one) =>
      lowerLimit(sheet, ISO_LIMITS[one].timesResolution, `Lowest force of class ${one}`, ISO_SOURCE),
    ),
  };
}

function e4Verdict(sheet: ReadWorksheet, steps: readonly StepAtWork[]): E4Verdict {
  const withheld =
    sheet.runCount >= E4_RUNS_MIN
      ? []
      : [`ASTM E4 rests on ${String(E4_RUNS_MIN)} runs and there is 1; add another.`];
  const range = withheld.length > 0 ? null : rangeAtTop(steps, ({ shown }) => shown.e4.within);
  return {
    range,
    wholeRange: range !== null && steps.every(({ shown }) => shown.e4.within),
    withheld,
    lowerLimit: lowerLimit(sheet, E4_LIMITS.timesResolution, 'Lowest force that can be verified', E4_SOURCE),
  };
}

/** A better class meets the limits of every lesser one. */
const classHolds = (found: IsoClass | null, asked: IsoClass): boolean =>
  found !== null && ISO_CLASSES.indexOf(found) <= ISO_CLASSES.indexOf(asked);

function ofClasses<T>(of: (one: IsoClass) => T): Record<IsoClass, T> {
  return { '0.5': of('0.5'), '1': of('1'), '2': of('2'), '3': of('3') };
}

/** From the largest force downwards as long as it holds; a hole ends the range. */
function rangeAtTop(
  steps: readonly StepAtWork[],
  holds: (step: StepAtWork) => boolean,
): VerifiedRange | null {
  const firstBad = steps.findLastIndex((step) => !holds(step));
  const [from] = steps.slice(firstBad + 1);
  const to = steps.at(-1);
  if (from === undefined || to === undefined) return null;
  return {
    from: toNumber(from.applied),
    fromText: forceText(from.applied),
    to: toNumber(to.applied),
    toText: forceText(to.applied),
  };
}

function lowerLimit(
  { resolution, unit }: ReadWorksheet,
  times: number,
  name: string,
  source: string,
): LowerLimit {
  const exact = resolution.exact.mul(times);
  return {
    value: toNumber(exact),
    text: forceText(exact),
    working: {
      formula: `${String(times)} × r`,
      inputs: [
        { symbol: 'r', name: 'resolution', value: toNumber(resolution.exact), unit, from: 'as noted' },
      ],
      substituted: `${name}: ${String(times)} × ${resolution.text} ${unit} = ${forceText(exact)} ${unit}`,
      source,
    },
  };
}

function remarks({ steps, resolution, unit }: ReadWorksheet): string[] {
  const forces = steps.map(meanApplied);
  const low = forces.filter(
    (force) => force.compare(resolution.exact.mul(E4_LIMITS.timesResolution)) < 0,
  ).length;
  return [
    ...decades(forces).flatMap((decade) => spacingRemarks(decade, unit)),
    ...(low === 0
      ? []
      : [`${String(low)} of the forces ${low === 1 ? 'lies' : 'lie'} below 200 times the resolution.`]),
    ...(steps.some((step) => step.descending !== null)
      ? []
      : [
          'Nothing was read on the way down, so the reversibility was not looked at; it is needed only where it is asked for.',
        ]),
  ];
}

interface Decade {
  readonly forces: readonly Exact[];
  /** The uppermost may end anywhere. */
  readonly isWhole: boolean;
}

/** From the lowest force on: one range where it spans no more than ten to one, else decades that share their ends. */
function decades(forces: readonly Exact[]): Decade[] {
  const [bottom] = forces;
  const top = forces.at(-1);
  if (bottom === undefined || top === undefined) return [];
  if (bottom.mul(10).compare(top) >= 0) return [{ forces, isWhole: true }];
  const found: Decade[] = [];
  for (let start = bottom; start.compare(top) < 0; start = start.mul(10)) {
    const end = start.mul(10);
    found.push({
      forces: forces.filter((force) => force.compare(start) >= 0 && force.compare(end) <= 0),
      isWhole: end.compare(top) <= 0,
    });
  }
  return found;
}

/** ASTM E4-16, 10.2 and 10.3.2. */
function spacingRemarks({ forces, isWhole }: Decade, unit: WorksheetUnit): string[] {
  const [bottom] = forces;
  const top = forces.at(-1);
  if (bottom === undefined || top === undefined) return [];
  const between = `from ${forceText(bottom)} to ${forceText(top)} ${unit}`;
  const widest = top.sub(bottom).mul(exactRatio(E4_STEP_SHARE_MAX.numerator, E4_STEP_SHARE_MAX.denominator));
  const place = forces.findIndex((force, i) => {
    const before = forces[i - 1];
    return before !== undefined && force.sub(before).compare(widest) > 0;
  });
  return [
    ...(forces.length >= STEPS_MIN || !isWhole
      ? []
      : [
          `${String(forces.length)} ${forces.length === 1 ? 'force lies' : 'forces lie'} ${between}; at least ${String(STEPS_MIN)} are asked for in a range or decade (ASTM E4-16, 10.2).`,
        ]),
    ...(place === -1 || forces.length < STEPS_MIN
      ? []
      : [
          `${forceText(forces[place - 1] ?? ZERO)} and ${forceText(forces[place] ?? ZERO)} ${unit} lie further apart than a third of the range ${between} (ASTM E4-16, 10.2).`,
        ]),
  ];
}

const percentOf = (part: Exact, whole: Exact): Exact => part.mul(HUNDRED).div(whole);
const largest = (values: readonly Exact[]): Exact => values.reduce((a, b) => (b.compare(a) > 0 ? b : a));
const smallest = (values: readonly Exact[]): Exact => values.reduce((a, b) => (b.compare(a) < 0 ? b : a));

/** Exactly at the limit is inside. */
function inside(value: Exact, limit: string): boolean {
  const exact = exactFromDecimal(limit);
  return exact !== null && value.abs().compare(exact) <= 0;
}

const PERCENT_STEP = stepFromText('0.001');

const percentText = (exact: Exact): string => roundExact(exact, PERCENT_STEP, 'half-even').text;
const inBrackets = (text: string): string => (text.startsWith('-') ? `(${text})` : text);
const percentFacts = (exact: Exact): Pick<PercentFinding, 'percent' | 'text'> => ({
  percent: toNumber(exact),
  text: percentText(exact),
});

/** More digits than any indicator has. */
const FORCE_DIGITS = 9;
const forceText = (exact: Exact): string => numberText(toNumber(exact), FORCE_DIGITS);

const runWords = (figures: readonly Figure[]): string => {
  const texts = figures.map(({ text }) => text);
  return new Set(texts).size === 1 ? (texts[0] ?? '') : texts.join(', ');
};
