/** `gaugemark judge --rules ID|FILE --strength "66500 psi" --broke base-metal …`: the verdict on one specimen. */
import { judgeAsked } from '../../../core/acceptance/judge-request.ts';
import { takeArguments } from '../arguments.ts';
import { gatherValues } from '../gather-values.ts';
import {
  JUDGING_OPTIONS,
  JUDGING_USAGE,
  judgingRequest,
  packAsked,
  textField,
  verdictOrFault,
} from '../judging-options.ts';
import { packsAtHand } from '../rule-pack-argument.ts';
import { verdictText } from '../verdict-text.ts';
import { EXIT_DONE, InputError, type Verb } from '../verb.ts';

const usage = `gaugemark judge --rules ID|FILE --strength VALUE --broke WHERE [options]

  Judges one specimen by one rule pack: accept, reject or undecided, with clause, numbers and what is missing.

  --strength VALUE          tensile strength, unrounded: "66 500 psi", "66.5 ksi", "458.5 MPa"
  --yield VALUE             yield strength, where the pack asks for it
  --elongation VALUE        elongation, "22 %"
${JUDGING_USAGE}
  --json                    one JSON document on stdout: {"verdict":{…}}

  gaugemark judge --rules asme-ix --base-metal SA-516-70 --strength "68 200 psi" --broke base-metal`;

const OPTIONS = {
  ...JUDGING_OPTIONS,
  strength: { type: 'string', multiple: true },
  yield: { type: 'string' },
  elongation: { type: 'string' },
  json: { type: 'boolean' },
} as const;

export const verb: Verb = {
  name: 'judge',
  summary: 'accept, reject or undecided, by a rule pack',
  usage,
  run: async (args, io) => {
    const given = takeArguments(gatherValues(args, OPTIONS), OPTIONS, [], 'judge');
    if (given.texts('strength').length > 1) {
      throw new InputError(
        'strength-twice',
        '--strength is given twice; judge one specimen at a time.',
        'strength',
      );
    }
    const atHand = await packsAtHand(given.text('rules-folder'));
    const pack = packAsked(given, atHand);
    const request = {
      ...judgingRequest(given),
      ...textField(given, 'strength', 'strength'),
      ...textField(given, 'yield', 'yield'),
      ...textField(given, 'elongation', 'elongation'),
    };
    const verdict = verdictOrFault(judgeAsked(pack, request, atHand.packs));
    io.out(given.has('json') ? JSON.stringify({ verdict }) : verdictText(verdict));
    return EXIT_DONE;
  },
};
