/** Words in a picture of results of many pulls, for the command line and the English page. */
import { ENGLISH_INDIVIDUALS } from '../drawing/scatter-plot.ts';
import type { TrendWords } from './trend-plot.ts';
import type { NotJudged } from './trend-pull.ts';

/** Why a value was held against no minimum, behind "not judged". */
export const ENGLISH_NOT_JUDGED: Readonly<Record<NotJudged, string>> = {
  'no-set': 'in no set, so no rules are chosen',
  'set-waits': 'their sets are not judged yet',
  'not-counted': 'they count for no specimen of their set: void there, or another pull stands in their place',
  'no-verdict': 'no verdict could be worked out; their set says what is missing',
  'nothing-asked': 'their rules ask for no least value of this result',
  'other-value': 'their rules compared another value than this one',
  undecided: 'their rules could not decide on this result',
};

export const ENGLISH_TREND_WORDS: TrendWords = {
  ...ENGLISH_INDIVIDUALS,
  date: 'date',
  group: { heat: 'heat of the base metal', lot: 'lot of the filler', welder: 'welder' },
  notWritten: 'not written',
};
