/** `--judged-by ID|FILE|set` of archive show and evaluate: other rules for one pull of a set, and the verdicts as text. */
import type { ChosenRules } from '../../core/acceptance/rule-pack.ts';
import type { ReplyOf } from '../../core/contract/index.ts';
import type { RuledVerdict } from '../../core/contract/evaluation-requests.ts';
import { rulesBeside } from '../../core/sets/set-faults.ts';
import type { VerbArguments } from './arguments.ts';
import type { RecorderAccess } from './recorder-access.ts';
import { packFromArgument, packsAtHand } from './rule-pack-argument.ts';
import { verdictText } from './verdict-text.ts';
import { InputError } from './verb.ts';

/** Goes back to the rules of the set. */
const OF_SET = 'set';

export const JUDGED_BY_USAGE = `  --judged-by ID|FILE|${OF_SET}   rule pack by which this pull is judged, with the metals and minima of its set, beside what
                            the set's own rules say; "${OF_SET}": by those alone again. The set goes on being judged by its own`;

/** Undefined without the flag; null for the rules of the set. Throws an InputError. */
export async function rulesAsked(
  given: VerbArguments,
  access: RecorderAccess,
  pullId: number,
): Promise<ChosenRules | null | undefined> {
  const named = given.text('judged-by');
  if (named === undefined) return undefined;
  if (named === OF_SET) return null;
  const { places } = await access.ask('set.of-specimen', { pullId });
  const [place] = places;
  if (place === undefined)
    throw new InputError(
      'rules-without-set',
      `Pull ${String(pullId)} is in no set, and metals and minima are said of a set; put its specimen into one, or judge it with "gaugemark judge".`,
      'judged-by',
    );
  const pack = packFromArgument(named, await packsAtHand(given.text('rules-folder')), 'judged-by');
  const { set } = await access.ask('set.get', { setId: place.setId });
  return rulesBeside(pack, set);
}

/** Lines of both verdicts; none where the pull is in no set. */
export function judgedText({ before, after, setName }: ReplyOf<'evaluation.judge'>): string[] {
  if (setName === null || before === null) return [];
  return after === null
    ? ['', ruledText(before)]
    : ['', 'As it stands:', ruledText(before), '', 'By what is asked:', ruledText(after)];
}

const ruledText = ({ rules, verdict, faults }: RuledVerdict): string =>
  verdict === null ? [`By ${rules}:`, ...faults].join('\n') : verdictText(verdict);
