/** `gaugemark judge --rules ID|FILE --strength "66500 psi" --broke base-metal …`: the verdict on one specimen. */
import { DECISION_RULES } from '../../../core/acceptance/decision-rule.ts';
import { DOUBT_CODES } from '../../../core/acceptance/doubts.ts';
import { APPEARANCES, FRACTURE_LOCATIONS, SOUNDNESS } from '../../../core/acceptance/fracture.ts';
import { type JudgeRequest, judgeAsked } from '../../../core/acceptance/judge-request.ts';
import { type VerbArguments, oneOf, takeArguments } from '../arguments.ts';
import { gatherValues } from '../gather-values.ts';
import { packFromArgument, packsWithFolder } from '../rule-pack-argument.ts';
import { verdictText } from '../verdict-text.ts';
import { EXIT_DONE, InputError, type Verb } from '../verb.ts';

const usage = `gaugemark judge --rules ID|FILE --strength VALUE --broke WHERE [options]

  Judges one specimen by one rule pack: accept, reject or undecided, with clause, numbers and what is missing.

  --rules ID|FILE           rule pack ("gaugemark rules list"), or a pack file of your own
  --strength VALUE          tensile strength, unrounded: "66 500 psi", "66.5 ksi", "458.5 MPa"
  --yield VALUE             yield strength, where the pack asks for it
  --elongation VALUE        elongation, "22 %"
  --broke WHERE             ${FRACTURE_LOCATIONS.join(', ')}
  --fracture WORD           ${SOUNDNESS.join(', ')}
  --appearance WORD         ${APPEARANCES.join(', ')}
  --base-metal ID           base metal, once for each metal joined ("gaugemark rules show" lists them)
  --broke-metal ID|N        which of two base metals broke
  --filler ID               filler class
  --minimum VALUE           specified minimum tensile strength of a base metal that is not in the tables
                            (or of the filler, for an all-weld-metal pack), once for each
  --yield-minimum VALUE --elongation-minimum VALUE
                            further minima of a filler that is not in the tables
  --weld-metal-minimum VALUE
                            minimum of a weld metal weaker on purpose, where the construction code provides for it
  --system US|SI            whose printed figures count (default: those of the unit of --strength)
  --doubt WORD              why the test is questionable, several times: ${DOUBT_CODES.join(', ')}
  --uncertainty VALUE       expanded uncertainty of the strength, "1.8 %" or "6 MPa"
  --coverage-factor K       k of that uncertainty (default 2)
  --decision-rule WORD      ${DECISION_RULES.join(', ')} (default ${DECISION_RULES[0]})
  --guard-factor R          guard band = R times the expanded uncertainty (default 1)
  --folder DIR              read the rule packs in this folder too
  --json                    one JSON document on stdout: {"verdict":{…}}

  gaugemark judge --rules asme-ix --base-metal SA-516-70 --strength "68 200 psi" --broke base-metal`;

const OPTIONS = {
  rules: { type: 'string', multiple: true },
  strength: { type: 'string', multiple: true },
  yield: { type: 'string' },
  elongation: { type: 'string' },
  broke: { type: 'string' },
  fracture: { type: 'string' },
  appearance: { type: 'string' },
  'base-metal': { type: 'string', multiple: true },
  'broke-metal': { type: 'string' },
  filler: { type: 'string' },
  minimum: { type: 'string', multiple: true },
  'yield-minimum': { type: 'string' },
  'elongation-minimum': { type: 'string' },
  'weld-metal-minimum': { type: 'string' },
  system: { type: 'string' },
  doubt: { type: 'string', multiple: true },
  uncertainty: { type: 'string' },
  'coverage-factor': { type: 'string' },
  'decision-rule': { type: 'string' },
  'guard-factor': { type: 'string' },
  folder: { type: 'string' },
  json: { type: 'boolean' },
} as const;

/** Fields of the request beside the option that carries each. */
const OPTION_OF_FIELD: Readonly<Record<string, string>> = {
  baseMetals: 'base-metal',
  minima: 'minimum',
  brokenBaseMetal: 'broke-metal',
  yieldMinimum: 'yield-minimum',
  elongationMinimum: 'elongation-minimum',
  weldMetalMinimum: 'weld-metal-minimum',
  coverageFactor: 'coverage-factor',
  decisionRule: 'decision-rule',
  guardFactor: 'guard-factor',
  doubts: 'doubt',
};

export const verb: Verb = {
  name: 'judge',
  summary: 'accept, reject or undecided, by a rule pack',
  usage,
  run: (args, io) => {
    const given = takeArguments(gatherValues(args, OPTIONS), OPTIONS, [], 'judge');
    const packs = packsWithFolder(given.text('folder'));
    const pack = packFromArgument(theOnly(given, 'rules', 'a specimen is judged by one rule pack'), packs);
    const outcome = judgeAsked(pack, request(given), packs);
    if (!outcome.ok) {
      const [first] = outcome.faults;
      const field = (first?.field ?? '').replace(/\[.*$/, '');
      const option = OPTION_OF_FIELD[field] ?? field;
      throw new InputError(
        'judge-input-wrong',
        `--${option}${(first?.sentence ?? '').slice((first?.field ?? '').length)}`,
        option,
      );
    }
    io.out(given.has('json') ? JSON.stringify({ verdict: outcome.verdict }) : verdictText(outcome.verdict));
    return Promise.resolve(EXIT_DONE);
  },
};

function theOnly(given: VerbArguments, option: string, because: string): string {
  const [first, second] = given.texts(option);
  if (first === undefined) {
    throw new InputError(
      `${option}-missing`,
      `--${option} is missing; "gaugemark rules list" shows the packs.`,
      option,
    );
  }
  if (second !== undefined) {
    throw new InputError(
      `${option}-mixed`,
      `--${option} is given twice; ${because}, so give it once and judge again for the other.`,
      option,
    );
  }
  return first;
}

function request(given: VerbArguments): JudgeRequest {
  if (given.texts('strength').length > 1) {
    throw new InputError(
      'strength-twice',
      '--strength is given twice; judge one specimen at a time.',
      'strength',
    );
  }
  const text = <K extends string>(field: K, option: string): { [P in K]?: string } => {
    const value = given.text(option);
    return value === undefined ? {} : ({ [field]: value } as { [P in K]?: string });
  };
  const word = <K extends string, T extends string>(
    field: K,
    option: string,
    words: readonly T[],
  ): { [P in K]?: T } => {
    const value = oneOf(option, given.text(option), words);
    return value === undefined ? {} : ({ [field]: value } as { [P in K]?: T });
  };
  return {
    ...text('strength', 'strength'),
    ...text('yield', 'yield'),
    ...text('elongation', 'elongation'),
    ...text('broke', 'broke'),
    ...word('fracture', 'fracture', SOUNDNESS),
    ...word('appearance', 'appearance', APPEARANCES),
    ...text('brokenBaseMetal', 'broke-metal'),
    ...text('filler', 'filler'),
    ...text('yieldMinimum', 'yield-minimum'),
    ...text('elongationMinimum', 'elongation-minimum'),
    ...text('weldMetalMinimum', 'weld-metal-minimum'),
    ...word('system', 'system', ['US', 'SI'] as const),
    ...text('uncertainty', 'uncertainty'),
    ...text('coverageFactor', 'coverage-factor'),
    ...word('decisionRule', 'decision-rule', DECISION_RULES),
    ...text('guardFactor', 'guard-factor'),
    baseMetals: [...given.texts('base-metal')],
    minima: [...given.texts('minimum')],
    doubts: given.texts('doubt').map((value) => ({ code: oneOf('doubt', value, DOUBT_CODES) ?? 'other' })),
  };
}
