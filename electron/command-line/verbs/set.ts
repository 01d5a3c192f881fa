/** `gaugemark set`: sets in an archive (see archived-sets.ts), or the statistics of several curve files. */
import { ORIGIN_NOTICES } from '../../../core/pull/readings-origin.ts';
import { displayUnit, inDisplayUnit, UNIT_SYSTEMS } from '../../../core/quantity/display-unit.ts';
import { numberText } from '../../../core/quantity/number-text.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import { type SetMember, type SetStatistic, setStatistics } from '../../../core/results/set-statistics.ts';
import { measuredInInches } from '../../../core/results/specimen-findings.ts';
import { SET_PURPOSES, SPECIMEN_TYPES } from '../../../core/sets/set-form.ts';
import { sizesOutsideRange } from '../../../core/specimen/plausible-range.ts';
import type { Specimen } from '../../../core/specimen/specimen.ts';
import { oneOf, takeArguments } from '../arguments.ts';
import { SET_ACTIONS, archivedSets } from '../archived-sets.ts';
import { readCurveFile, readSpecimenFile } from '../input-files.ts';
import { PROGRAM_VERSION } from '../program-version.ts';
import { EXIT_DONE, InputError, type Verb } from '../verb.ts';

/** Pulls in one set; a procedure qualification has two to eight, a lot of filler metal fewer. */
const SET_PULLS_MAX = 200;

export const verb: Verb = {
  name: 'set',
  summary:
    'sets of specimens: save, list, show, join, void, judge, override; or statistics of several curves',
  usage: `gaugemark set save FILE.json   [--set N --reason TEXT] [--operator NAME] [--rules-folder DIR] --archive FILE [--json]
gaugemark set list             [--search TEXT] --archive FILE [--json]
gaugemark set show N           [--units si|us] --archive FILE [--json]
gaugemark set join N           --pull N … | --specimen N … [--retest-of NAME --reason TEXT] [--operator NAME] --archive FILE [--json]
gaugemark set void N           --specimen NAME|--pull N --reason TEXT --operator NAME --archive FILE [--json]
gaugemark set judge N          --archive FILE [--json]
gaugemark set override N       --specimen NAME|--pull N --to accept|reject|undecided --reason TEXT --operator NAME
                               --archive FILE [--json]
gaugemark set --curve CURVE.csv [--specimen FILE.json] --curve … [--units si|us] [--json]

  A set groups the specimens of one purpose under one rule pack; its certificate: "gaugemark certificate --set N".

  save      a new set from a file; with --set the correction of one, which needs its reason, and the one before stays
  list      the sets, newest first
  show      what the set is, and for each specimen: measured, pulled, judged, what is to be done next
  join      puts the specimens of these pulls into the set; --retest-of names the one that is tested again, and why
  void      a specimen that counts no more in this set; it stays visible
  judge     accept, reject or undecided for each specimen and for the set, by the rules as they were kept with it.
            Nothing is judged before it is noted where it broke ("gaugemark archive note-fracture")
  override  a person's word over the rules, with name and reason; what the rules said stays visible

  A set file is JSON, its quantities text with their unit. Of these name, purpose, rulePackId and specimenType are
  needed ("gaugemark rules list" shows the packs, those of your own folder too):
    {"name": "Bracket", "purpose": "procedure-qualification", "rulePackId": "asme-ix", "specimenType": "transverse-flat",
     "baseMetals": [{"designation": "SA-516-70", "heat": "H12"}, {"designation": "our plate", "minimum": "400 MPa"}],
     "filler": {"classification": "E7018"}, "process": "SMAW", "welder": "W-7", "requiredCount": 2,
     "documents": [{"kind": "wps", "number": "WPS-4"}]}
    purpose        ${SET_PURPOSES.join(', ')}
    specimenType   ${SPECIMEN_TYPES.join(', ')}
    and joint, position, thickness, outsideDiameter, wall, customer, weldMetalMinimum, system (US or SI),
    decisionRule, guardFactor, notes

  With --curve: evaluates each curve and gives, for each result: mean, standard deviation (n − 1), coefficient of variation, smallest
  and largest with the specimen they belong to. Averages are taken of unrounded values.

  --curve FILE       curve as for "evaluate", given once for each pull
  --specimen FILE    specimens in the same order as the curves, or one for all of them
  --units WORD       si or us (default us where every specimen was measured in inches)
  --json             one JSON document on stdout, in SI

  gaugemark set --curve 1.csv --specimen 1.json --curve 2.csv --specimen 2.json`,
  run: (args, io) => {
    const action = SET_ACTIONS.find((word) => word === args[0]);
    if (action !== undefined) return archivedSets(action, args.slice(1), io);
    refuseUnknownAction(args[0]);
    const given = takeArguments(args, OPTIONS, [], 'set');
    const curves = given.texts('curve');
    const files = given.texts('specimen');
    checkCounts(curves.length, files.length);
    const specimens = files.map(readSpecimenFile);
    for (const doubt of specimens.flatMap(sizesOutsideRange)) io.err(doubt);
    const set = curves.map((path, i): SetMember => {
      const specimen = specimens[specimens.length === 1 ? 0 : i] ?? null;
      const { curve, origin } = readCurveFile(path);
      if (origin !== null) io.err(`${path}: ${ORIGIN_NOTICES[origin]}`);
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

/** Where neither an act nor an option comes first. */
function refuseUnknownAction(word: string | undefined): void {
  if (word?.startsWith('-') === true) return;
  throw new InputError(
    'action-unknown',
    word === undefined
      ? `Say what to do with sets: ${SET_ACTIONS.join(', ')}, or give curves for statistics with --curve FILE.`
      : `"set ${word.slice(0, 40)}" is not known; use one of ${SET_ACTIONS.join(', ')}, or --curve FILE for statistics.`,
  );
}

function checkCounts(curves: number, specimens: number): void {
  if (curves === 0)
    throw new InputError(
      'argument-missing',
      `Statistics need at least one --curve FILE; sets in an archive are ${SET_ACTIONS.join(', ')}.`,
      'curve',
    );
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
