/** `gaugemark set CURVE.csv …`: several pulls evaluated, and mean, deviation and extremes of each result. */
import { displayUnit, inDisplayUnit, UNIT_SYSTEMS } from '../../../core/quantity/display-unit.ts';
import { numberText } from '../../../core/quantity/number-text.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import { type SetMember, type SetStatistic, setStatistics } from '../../../core/results/set-statistics.ts';
import { measuredInInches } from '../../../core/results/specimen-findings.ts';
import type { Specimen } from '../../../core/specimen/specimen.ts';
import { oneOf, takeArguments } from '../arguments.ts';
import { readCurveFile, readSpecimenFile } from '../input-files.ts';
import { PROGRAM_VERSION } from '../program-version.ts';
import { EXIT_DONE, InputError, type Verb } from '../verb.ts';

/** Pulls in one set; a procedure qualification has two to eight, a lot of filler metal fewer. */
const SET_PULLS_MAX = 200;

export const verb: Verb = {
  name: 'set',
  summary: 'mean, standard deviation, smallest and largest of several pulls',
  usage: `gaugemark set --curve CURVE.csv [--specimen FILE.json] --curve … [--units si|us] [--json]

  Evaluates each curve and gives, for each result: mean, standard deviation (n − 1), coefficient of variation, smallest
  and largest with the specimen they belong to. Averages are taken of unrounded values.

  --curve FILE       curve as for "evaluate", given once for each pull
  --specimen FILE    specimens in the same order as the curves, or one for all of them
  --units WORD       si or us (default us where every specimen was measured in inches)
  --json             one JSON document on stdout, in SI

  gaugemark set --curve 1.csv --specimen 1.json --curve 2.csv --specimen 2.json`,
  run: (args, io) => {
    const given = takeArguments(args, OPTIONS, [], 'set');
    const curves = given.texts('curve');
    const files = given.texts('specimen');
    checkCounts(curves.length, files.length);
    const specimens = files.map(readSpecimenFile);
    const set = curves.map((path, i): SetMember => {
      const specimen = specimens[specimens.length === 1 ? 0 : i] ?? null;
      const { curve } = readCurveFile(path);
      return { id: identity(path, specimen, specimens.length), evaluation: evaluate(curve, specimen) };
    });
    const statistics = setStatistics(set);
    const units = oneOf('units', given.text('units'), UNIT_SYSTEMS) ?? usual(specimens);
    io.out(
      given.has('json')
        ? JSON.stringify({
            program: { name: 'gaugemark', version: PROGRAM_VERSION },
            members: set.map(({ id, evaluation }) => ({ id, withheld: evaluation.withheld })),
            statistics: Object.fromEntries(statistics.map(({ symbol, ...rest }) => [symbol, rest])),
          })
        : statistics.map((statistic) => lineOf(statistic, units)).join('\n'),
    );
    return Promise.resolve(EXIT_DONE);
  },
};

const OPTIONS = {
  curve: { type: 'string', multiple: true },
  specimen: { type: 'string', multiple: true },
  units: { type: 'string' },
  json: { type: 'boolean' },
} as const;

function checkCounts(curves: number, specimens: number): void {
  if (curves === 0)
    throw new InputError('argument-missing', 'A set needs at least one --curve FILE.', 'curve');
  if (curves > SET_PULLS_MAX)
    throw new InputError('set-too-large', `At most ${String(SET_PULLS_MAX)} pulls make a set.`, 'curve');
  if (specimens > 1 && specimens !== curves)
    throw new InputError(
      'specimens-do-not-match',
      `--curve is given ${String(curves)}× and --specimen ${String(specimens)}×; give one specimen for each curve in the same order, or one for all.`,
      'specimen',
    );
}

/** The specimen's own identity where each curve has its specimen; else the file of the curve. */
const identity = (path: string, specimen: Specimen | null, specimens: number): string =>
  specimen === null || specimens === 1 ? path : specimen.id;

const usual = (specimens: readonly Specimen[]): 'us' | 'si' =>
  specimens.length > 0 && specimens.every(measuredInInches) ? 'us' : 'si';

function lineOf(statistic: SetStatistic, units: 'us' | 'si'): string {
  const unit = displayUnit(statistic.unit, units);
  const text = (value: number): string => numberText(inDisplayUnit(value, statistic.unit, units).value, 5);
  const { standardDeviation: s, coefficientOfVariation: v, missing } = statistic;
  return [
    `${statistic.symbol.padEnd(16)} n = ${String(statistic.count)}, mean ${text(statistic.mean)}${unit === '1' ? '' : ` ${unit}`}`,
    s === null ? 'no deviation from one value' : `s ${text(s)}`,
    ...(v === null ? [] : [`s/mean ${numberText(100 * v, 3)} %`]),
    `smallest ${text(statistic.min)} (${statistic.minOf})`,
    `largest ${text(statistic.max)} (${statistic.maxOf})`,
    ...(missing.length === 0 ? [] : [`none from ${missing.join(', ')}`]),
  ].join(', ');
}
