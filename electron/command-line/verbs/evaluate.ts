/** `gaugemark evaluate CURVE.csv [--specimen FILE]`: every result that the curve and the specimen can support. */
import { UNIT_SYSTEMS } from '../../../core/quantity/display-unit.ts';
import { ORIGIN_NOTICES } from '../../../core/pull/readings-origin.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import { sizesOutsideRange } from '../../../core/specimen/plausible-range.ts';
import { oneOf, takeArguments } from '../arguments.ts';
import { EVALUATION_FLAGS, EVALUATION_USAGE } from '../evaluation-flags.ts';
import { evaluationDocument } from '../evaluation-json.ts';
import { checkedOptions, optionsGiven } from '../evaluation-options.ts';
import { evaluationText } from '../evaluation-text.ts';
import { verdictOnEvaluation } from '../evaluation-verdict.ts';
import { gatherValues } from '../gather-values.ts';
import { readCurveFile, readSpecimenFile } from '../input-files.ts';
import { JUDGING_OPTIONS } from '../judging-options.ts';
import { optionsDocument, statedText } from '../stated-options-text.ts';
import { verdictText } from '../verdict-text.ts';
import { EXIT_DONE, InputError, type Verb } from '../verb.ts';

const usage = `gaugemark evaluate CURVE.csv [--specimen FILE.json] [options]

  Evaluates a recorded curve. The header of the file names quantity and unit of each column:
  time_s, force_N (kN, lbf, kip, kgf), extension_mm (in), stress_MPa (psi, ksi), strain_1 or strain_percent,
  travel_mm for crosshead travel. Comma, tab, or semicolon with decimal comma; # starts a comment line.

  --specimen FILE           specimen as JSON; without it, what needs its dimensions is withheld
${EVALUATION_USAGE}
  --units WORD              si or us: units of values and working (default: as the specimen was measured); --json is SI
  --rules ID|FILE --broke WHERE …
                            a verdict too, with the options of "gaugemark help judge"
  --working                 show formula, numbers put in and source of every value
  --json                    one JSON document on stdout

  gaugemark evaluate pull.csv --specimen T-1.json --offset 0.1,1 --slope-from 50..150 --working`;

export const verb: Verb = {
  name: 'evaluate',
  summary: 'results of a curve file, each with its working',
  usage,
  run: async (args, io) => {
    const given = takeArguments(
      gatherValues(args, OPTIONS, { oneEach: true }),
      OPTIONS,
      ['The curve file'],
      'evaluate',
    );
    const { options: asked, sources } = optionsGiven(given);
    const options = checkedOptions(asked);
    if (options.lineFormat !== undefined)
      throw new InputError(
        'line-format-without-effect',
        'A curve file has no lines of a readout to read again; leave --line-format out, or say it of an archived pull (archive evaluate).',
        'line-format',
      );
    if (options.importPlan !== undefined)
      throw new InputError(
        'import-plan-without-effect',
        'This curve is read from its file as its header says; leave "importPlan" out of the options, or say it of an imported pull (archive evaluate).',
        'options',
      );
    if (options.judgedBy !== undefined)
      throw new InputError(
        'rules-without-set',
        'Rules that are kept with an evaluation belong to a pull of a set in the archive; leave "judgedBy" out of the options, and judge this curve with --rules.',
        'options',
      );
    const specimenPath = given.text('specimen');
    const specimen = specimenPath === undefined ? null : readSpecimenFile(specimenPath);
    const doubts = specimen === null ? [] : sizesOutsideRange(specimen);
    for (const doubt of doubts) io.err(doubt);
    const curvePath = given.positionals[0] ?? '';
    const { curve, notes, origin } = readCurveFile(curvePath);
    const evaluation = evaluate(curve, specimen, options);
    const verdict = await verdictOnEvaluation(given, evaluation, specimen);
    if (given.has('json')) {
      io.out(
        JSON.stringify(
          evaluationDocument(evaluation, {
            curve: {
              file: curvePath,
              readings: curve.length,
              notes,
              ...(origin === null ? {} : { origin, notice: ORIGIN_NOTICES[origin] }),
            },
            specimen: specimen === null ? null : { id: specimen.id, ...remarksOn(doubts) },
            ...optionsDocument(options, sources),
            ...(verdict === null ? {} : { verdict }),
          }),
        ),
      );
    } else {
      if (origin !== null) io.out(ORIGIN_NOTICES[origin]);
      io.out(
        evaluationText(evaluation, {
          working: given.has('working'),
          specimen,
          units: oneOf('units', given.text('units'), UNIT_SYSTEMS),
          rounding: options.rounding,
        }),
      );
      const stated = statedText(options, sources);
      if (stated !== null) io.out(`\n${stated}`);
      for (const note of notes) io.out(`${curvePath}: ${note}`);
      if (verdict !== null) io.out(`\n${verdictText(verdict)}`);
    }
    return EXIT_DONE;
  },
};

const remarksOn = (doubts: readonly string[]): { readonly remarks?: readonly string[] } =>
  doubts.length === 0 ? {} : { remarks: doubts };

const OPTIONS = {
  ...JUDGING_OPTIONS,
  ...EVALUATION_FLAGS,
  specimen: { type: 'string' },
  units: { type: 'string' },
  working: { type: 'boolean' },
  json: { type: 'boolean' },
} as const;
