/** The options by which a verdict is asked for: shared by `judge` and by `evaluate --rules`. */
import { DECISION_RULES } from '../../core/acceptance/decision-rule.ts';
import { DOUBT_CODES } from '../../core/acceptance/doubts.ts';
import { FRACTURE_MARKS } from '../../core/acceptance/fracture-details.ts';
import { APPEARANCES, FRACTURE_LOCATIONS, SOUNDNESS } from '../../core/acceptance/fracture.ts';
import type { JudgeOutcome, JudgeRequest } from '../../core/acceptance/judge-request.ts';
import type { RulePack } from '../../core/acceptance/read-rule-pack.ts';
import type { Verdict } from '../../core/acceptance/verdict.ts';
import { type VerbArguments, oneOf } from './arguments.ts';
import { type PacksAtHand, RULES_FOLDER_OPTION, packFromArgument } from './rule-pack-argument.ts';
import { InputError } from './verb.ts';

/** Everything but the measured values. */
export const JUDGING_OPTIONS = {
  rules: { type: 'string', multiple: true },
  broke: { type: 'string' },
  fracture: { type: 'string' },
  appearance: { type: 'string' },
  mark: { type: 'string' },
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
  ...RULES_FOLDER_OPTION,
} as const;

export const JUDGING_USAGE = `  --rules ID|FILE           rule pack ("gaugemark rules list"), or a pack file of your own
  --broke WHERE             ${FRACTURE_LOCATIONS.join(', ')}
  --fracture WORD           ${SOUNDNESS.join(', ')}
  --appearance WORD         ${APPEARANCES.join(', ')}
  --mark WORD               it broke at a mark: ${FRACTURE_MARKS.join(', ')}
  --base-metal ID           base metal, once for each metal joined ("gaugemark rules show" lists them)
  --broke-metal ID|N        which of two base metals broke
  --filler ID               filler class
  --minimum VALUE           specified minimum tensile strength of a base metal that is not in the tables
                            (or of the filler, for an all-weld-metal pack), once for each
  --yield-minimum VALUE --elongation-minimum VALUE
                            further minima of a filler that is not in the tables
  --weld-metal-minimum VALUE
                            minimum of a weld metal weaker on purpose, where the construction code provides for it
  --system US|SI            whose printed figures count (default: those of the unit that was measured in)
  --doubt WORD              why the test is questionable, several times: ${DOUBT_CODES.join(', ')}
  --uncertainty VALUE       expanded uncertainty of the strength, "1.8 %" or "6 MPa"
  --coverage-factor K       k of that uncertainty (default 2)
  --decision-rule WORD      ${DECISION_RULES.join(', ')} (default ${DECISION_RULES[0]})
  --guard-factor R          guard band = R times the expanded uncertainty (default 1)
  --rules-folder DIR        folder of your own rule packs, instead of the usual one ("gaugemark help rules")`;

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

/** The one pack that `--rules` names. Throws an InputError where it is missing, given twice, or no pack. */
export function packAsked(given: VerbArguments, atHand: PacksAtHand): RulePack {
  const [first, second] = given.texts('rules');
  if (first === undefined) {
    throw new InputError(
      'rules-missing',
      '--rules is missing; "gaugemark rules list" shows the packs.',
      'rules',
    );
  }
  if (second !== undefined) {
    throw new InputError(
      'rules-mixed',
      '--rules is given twice; a specimen is judged by one rule pack, so give it once and judge again for the other.',
      'rules',
    );
  }
  return packFromArgument(first, atHand);
}

/** The request without the measured values. Throws an InputError for a word that isn't one of the list. */
export function judgingRequest(
  given: VerbArguments,
): Omit<JudgeRequest, 'strength' | 'yield' | 'elongation'> {
  const word = <K extends string, T extends string>(
    field: K,
    option: string,
    words: readonly T[],
  ): { [P in K]?: T } => {
    const value = oneOf(option, given.text(option), words);
    return value === undefined ? {} : ({ [field]: value } as { [P in K]?: T });
  };
  return {
    ...textField(given, 'broke', 'broke'),
    ...word('fracture', 'fracture', SOUNDNESS),
    ...word('appearance', 'appearance', APPEARANCES),
    ...word('mark', 'mark', FRACTURE_MARKS),
    ...textField(given, 'brokenBaseMetal', 'broke-metal'),
    ...textField(given, 'filler', 'filler'),
    ...textField(given, 'yieldMinimum', 'yield-minimum'),
    ...textField(given, 'elongationMinimum', 'elongation-minimum'),
    ...textField(given, 'weldMetalMinimum', 'weld-metal-minimum'),
    ...word('system', 'system', ['US', 'SI'] as const),
    ...textField(given, 'uncertainty', 'uncertainty'),
    ...textField(given, 'coverageFactor', 'coverage-factor'),
    ...word('decisionRule', 'decision-rule', DECISION_RULES),
    ...textField(given, 'guardFactor', 'guard-factor'),
    baseMetals: given.texts('base-metal'),
    minima: given.texts('minimum'),
    doubts: given
      .texts('doubt')
      .map((value) => ({ code: oneOf('doubt', value, DOUBT_CODES) ?? ('other' as const) })),
  };
}

export function textField<K extends string>(
  given: VerbArguments,
  field: K,
  option: string,
): { [P in K]?: string } {
  const value = given.text(option);
  return value === undefined ? {} : ({ [field]: value } as { [P in K]?: string });
}

/** The verdict, or the first fault as an InputError that names the option. */
export function verdictOrFault(outcome: JudgeOutcome): Verdict {
  if (outcome.ok) return outcome.verdict;
  const [first] = outcome.faults;
  const field = (first?.field ?? '').replace(/\[.*$/, '');
  const option = OPTION_OF_FIELD[field] ?? field;
  throw new InputError(
    'judge-input-wrong',
    `--${option}${(first?.sentence ?? '').slice((first?.field ?? '').length)}`,
    option,
  );
}
