/** Texts about evaluating a whole search once more, in English. */
export const enAgain = {
  open: 'Evaluate all again…',
  title: 'What was found, evaluated again',
  means: (method: string) =>
    `Every pull is evaluated by this program (method ${method}) with the options that stand, and compared with what was stated of it last: the evaluation that was kept, or the newer certificate; without either, what it was first worked out as. Nothing is kept unless you ask for it below.`,
  begin: (count: string) => (count === '1' ? 'Evaluate 1 pull' : `Evaluate ${count} pulls`),
  goOn: 'Go on',
  stop: 'Stop',
  progress: (done: string, all: string, changed: string, without: string) =>
    `${done} of ${all} evaluated; ${changed} changed; ${without} had nothing stated before`,
  tooMany: (count: string) => `At most ${count} at a time: narrow the search.`,
  changed: 'What changed',
  nothingToCompare: 'Of none of them was anything stated before, so there is nothing to compare with.',
  nothing: 'Nothing changed.',
  pull: 'Pull',
  value: 'Value',
  before: 'Stated',
  after: 'Now',
  against: {
    evaluation: (number: string, method: string) => `evaluation ${number}, method ${method}`,
    certificate: (number: string, method: string) => `certificate ${number}, method ${method}`,
    'as-it-stands': (_number: string, method: string) => `as it stands, method ${method}`,
  },
  firstStated: (moment: string, program: string, method: string) =>
    `as first worked out on ${moment} by Gaugemark ${program}, method ${method}`,
  more: (count: string) =>
    `${count} more pulls changed; the command line lists them all (archive evaluate-again).`,
  notGiven: 'not given',
  setsTitle: 'Sets of what changed',
  judging: 'The sets are being judged …',
  noSets: 'None of what changed is in a set.',
  setsFlip: (flips: string, all: string) =>
    flips === '0'
      ? `Verdicts of the ${all === '1' ? 'set' : `${all} sets`} are as before.`
      : `${flips} of ${all} ${all === '1' ? 'set' : 'sets'} ${flips === '1' ? 'is' : 'are'} judged otherwise, as a whole or in a specimen.`,
  set: 'Set, specimen',
  verdictBefore: 'By what was stated',
  verdictNow: 'Now',
  asBefore: 'as before',
  moreSets: (count: string) =>
    `${count} more sets; the command line lists them all (archive evaluate-again).`,
  keepTitle: 'Keep what changed',
  keepMeans:
    'Keeps a new evaluation of each pull in the list. It names the one that it supersedes, who, when and why; what was recorded and what stood before stay.',
  reason: 'Why',
  reasonNeeded: 'Say why these evaluations take the place of the ones before.',
  by: 'Who',
  keep: (count: string) => (count === '1' ? 'Keep 1 evaluation' : `Keep ${count} evaluations`),
  kept: (count: string) => (count === '1' ? '1 evaluation is kept.' : `${count} evaluations are kept.`),
  keptAs: (number: string) => `kept as evaluation ${number}`,
  nothingToKeep: 'Nothing has changed that could be kept.',
};
