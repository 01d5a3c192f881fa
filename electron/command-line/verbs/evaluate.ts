/** `gaugemark evaluate CURVE.csv [--specimen FILE]`: every result that the curve and the specimen can support. */
import { UNIT_SYSTEMS } from '../../../core/quantity/display-unit.ts';
import { parseQuantity, quantityFaultSentence } from '../../../core/quantity/parse-quantity.ts';
import { CONVERSION_RULES } from '../../../core/results/elongation-conversion.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import type { EvaluationOptions } from '../../../core/results/evaluation.ts';
import { EXTENSOMETER_CLASSES, FORCE_CLASSES } from '../../../core/results/force-uncertainty.ts';
import { ARC_FORMS } from '../../../core/results/pipe-strip-area.ts';
import { FINAL_SECTION_FORMS } from '../../../core/results/reduction-of-area.ts';
import { ROUNDING_RULES } from '../../../core/results/rounding.ts';
import { SECTION_RULES } from '../../../core/results/section-rule.ts';
import { type VerbArguments, numberOption, oneOf, takeArguments } from '../arguments.ts';
import { evaluationDocument } from '../evaluation-json.ts';
import { evaluationText } from '../evaluation-text.ts';
import { verdictOnEvaluation } from '../evaluation-verdict.ts';
import { gatherValues } from '../gather-values.ts';
import { readCurveFile, readSpecimenFile } from '../input-files.ts';
import { JUDGING_OPTIONS } from '../judging-options.ts';
import { verdictText } from '../verdict-text.ts';
import { EXIT_DONE, InputError, type Verb } from '../verb.ts';

const usage = `gaugemark evaluate CURVE.csv [--specimen FILE.json] [options]

  Evaluates a recorded curve. The header of the file names quantity and unit of each column:
  time_s, force_N (kN, lbf, kip, kgf), extension_mm (in), stress_MPa (psi, ksi), strain_1 or strain_percent,
  travel_mm for crosshead travel. Comma, tab, or semicolon with decimal comma; # starts a comment line.

  --specimen FILE           specimen as JSON; without it, what needs its dimensions is withheld
  --offset PERCENT          offset of a proof strength, may be given several times (default 0.2)
  --extension PERCENT       total extension of a strength under load, several times (default 0.5)
  --slope-from MPA --slope-to MPA
                            fit the elastic line between these stresses instead of where the program finds it
  --strain-from WORD        extensometer (default) or travel; travel labels every strain as crosshead travel
  --fracture-index N        last reading before the break, counted from 0, where a person has marked it
  --no-toe                  measure strain from the record's own zero instead of the foot of the elastic line
  --section WORD            ${SECTION_RULES.join(', ')}: which measured section is S0 (default mean)
  --arc-form WORD           ${ARC_FORMS.join(', ')}: area of a strip cut from pipe (default exact)
  --rounding RULE           ${ROUNDING_RULES.join(', ')}
  --final-section WORD      parabola or plain: neck of a flat specimen (default parabola for three thicknesses)
  --required-elongation PERCENT
                            an elongation that meets it counts wherever the specimen broke
  --elongation-on LENGTH --by RULE
                            A on another gauge length ("80 mm"), by iso-2566-1 (carbon steel) or iso-2566-2 (austenitic)
  --force-class CLASS       ISO 7500-1 class of the force-measuring system: 0.5, 1, 2, 3 (default 1, and it says so)
  --extensometer-class CLASS
                            ISO 9513 class of the extensometer: 0.5, 1, 2 (default 1, and it says so)
  --units WORD              si or us: units of values and working (default: as the specimen was measured); --json is SI
  --rules ID|FILE --broke WHERE …
                            a verdict too, with the options of "gaugemark help judge"
  --working                 show formula, numbers put in and source of every value
  --json                    one JSON document on stdout

  gaugemark evaluate pull.csv --specimen T-1.json --rounding e8-1 --working`;

/** Percent values above this are no offset or extension that any standard names. */
const PERCENT_MAX = 50;
const STRESS_MPA_MAX = 10_000;

export const verb: Verb = {
  name: 'evaluate',
  summary: 'results of a curve file, each with its working',
  usage,
  run: (args, io) => {
    const given = takeArguments(
      gatherValues(args, JUDGING_OPTIONS, { oneEach: true }),
      OPTIONS,
      ['The curve file'],
      'evaluate',
    );
    const options = evaluationOptions(given);
    const specimenPath = given.text('specimen');
    const specimen = specimenPath === undefined ? null : readSpecimenFile(specimenPath);
    const curvePath = given.positionals[0] ?? '';
    const { curve, notes } = readCurveFile(curvePath);
    const evaluation = evaluate(curve, specimen, options);
    const verdict = verdictOnEvaluation(given, evaluation, specimen);
    if (given.has('json')) {
      io.out(
        JSON.stringify(
          evaluationDocument(evaluation, {
            curve: { file: curvePath, readings: curve.length, notes },
            specimen: specimen === null ? null : { id: specimen.id },
            ...(verdict === null ? {} : { verdict }),
          }),
        ),
      );
    } else {
      io.out(
        evaluationText(evaluation, {
          working: given.has('working'),
          specimen,
          units: oneOf('units', given.text('units'), UNIT_SYSTEMS),
          rounding: options.rounding,
        }),
      );
      for (const note of notes) io.out(`${curvePath}: ${note}`);
      if (verdict !== null) io.out(`\n${verdictText(verdict)}`);
    }
    return Promise.resolve(EXIT_DONE);
  },
};

const OPTIONS = {
  ...JUDGING_OPTIONS,
  specimen: { type: 'string' },
  offset: { type: 'string', multiple: true },
  extension: { type: 'string', multiple: true },
  'slope-from': { type: 'string' },
  'slope-to': { type: 'string' },
  'strain-from': { type: 'string' },
  'fracture-index': { type: 'string' },
  'no-toe': { type: 'boolean' },
  section: { type: 'string' },
  'arc-form': { type: 'string' },
  rounding: { type: 'string' },
  'final-section': { type: 'string' },
  'required-elongation': { type: 'string' },
  'elongation-on': { type: 'string' },
  by: { type: 'string' },
  'force-class': { type: 'string' },
  'extensometer-class': { type: 'string' },
  units: { type: 'string' },
  working: { type: 'boolean' },
  json: { type: 'boolean' },
} as const;

function evaluationOptions(given: VerbArguments): EvaluationOptions {
  const percents = (option: string): number[] =>
    given
      .texts(option)
      .map((text) => numberOption(option, text.replace(/\s*%$/, ''), { above: 0, max: PERCENT_MAX }))
      .filter((n) => n !== undefined);
  const offsets = percents('offset');
  const extensions = percents('extension');
  const lowerMpa = numberOption('slope-from', given.text('slope-from'), { above: -1, max: STRESS_MPA_MAX });
  const upperMpa = numberOption('slope-to', given.text('slope-to'), { above: 0, max: STRESS_MPA_MAX });
  if ((lowerMpa === undefined) !== (upperMpa === undefined))
    throw new InputError(
      'slope-window-half',
      'A window for the elastic line needs both --slope-from and --slope-to.',
      'slope-from',
    );
  if (lowerMpa !== undefined && upperMpa !== undefined && upperMpa <= lowerMpa)
    throw new InputError('slope-window-wrong', '--slope-to must lie above --slope-from.', 'slope-to');
  const fractureIndex = numberOption('fracture-index', given.text('fracture-index'), {
    above: -1,
    max: Number.MAX_SAFE_INTEGER,
  });
  if (fractureIndex !== undefined && !Number.isInteger(fractureIndex))
    throw new InputError('option-value-wrong', '--fracture-index must be a whole number.', 'fracture-index');
  const strainFrom = oneOf('strain-from', given.text('strain-from'), ['extensometer', 'travel'] as const);
  const section = oneOf('section', given.text('section'), SECTION_RULES);
  const arcForm = oneOf('arc-form', given.text('arc-form'), ARC_FORMS);
  const rounding = oneOf('rounding', given.text('rounding'), ROUNDING_RULES);
  const finalSection = oneOf('final-section', given.text('final-section'), FINAL_SECTION_FORMS);
  const requiredElongationPercent = percents('required-elongation').at(-1);
  const forceClass = oneOf('force-class', given.text('force-class'), FORCE_CLASSES);
  const extensometerClass = oneOf(
    'extensometer-class',
    given.text('extensometer-class'),
    EXTENSOMETER_CLASSES,
  );
  const elongationOn = conversion(given);
  return {
    ...(finalSection === undefined ? {} : { finalSection }),
    ...(requiredElongationPercent === undefined ? {} : { requiredElongationPercent }),
    ...(elongationOn === undefined ? {} : { elongationOn }),
    measuring: {
      ...(forceClass === undefined ? {} : { forceClass }),
      ...(extensometerClass === undefined ? {} : { extensometerClass }),
    },
    ...(offsets.length === 0 ? {} : { offsetsPercent: offsets }),
    ...(extensions.length === 0 ? {} : { totalExtensionsPercent: extensions }),
    ...(lowerMpa === undefined || upperMpa === undefined ? {} : { slopeWindow: { lowerMpa, upperMpa } }),
    ...(fractureIndex === undefined ? {} : { fractureIndex }),
    ...(strainFrom === undefined ? {} : { strainFrom }),
    ...(given.has('no-toe') ? { corrections: { toe: false } } : {}),
    ...(section === undefined ? {} : { section }),
    ...(arcForm === undefined ? {} : { arcForm }),
    ...(rounding === undefined ? {} : { rounding }),
  };
}

/** A on another gauge length: the length and the rule belong together, so neither is guessed. */
function conversion(given: VerbArguments): EvaluationOptions['elongationOn'] {
  const length = given.text('elongation-on');
  const rule = oneOf('by', given.text('by'), CONVERSION_RULES);
  if (length === undefined && rule === undefined) return undefined;
  if (length === undefined || rule === undefined)
    throw new InputError(
      'conversion-half',
      `A on another gauge length needs both --elongation-on LENGTH and --by ${CONVERSION_RULES.join(' or ')}.`,
      'elongation-on',
    );
  const outcome = parseQuantity(length, { dimension: 'length', positive: true });
  if (!outcome.ok)
    throw new InputError(
      'option-value-wrong',
      `--elongation-on: ${quantityFaultSentence(outcome.fault, length)}`,
      'elongation-on',
    );
  return { gaugeLengthMm: outcome.quantity.core, rule };
}
