/** What stands in the place of a number: never 0, and never the value before. */
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { ChannelStatus } from '../reading.ts';

type WordStatus = Extract<ChannelStatus, 'overload' | 'blank' | 'error-word'>;

/** Words that mean the same on indicators of every make (common practice, no source); a profile's own come first. */
const COMMON_WORDS: Readonly<Record<string, WordStatus>> = {
  ol: 'overload',
  '+ol': 'overload',
  '-ol': 'overload',
  'o.l': 'overload',
  'o.l.': 'overload',
  ovl: 'overload',
  ovld: 'overload',
  over: 'overload',
  overload: 'overload',
  ovr: 'overload',
  'over range': 'overload',
  overrange: 'overload',
  under: 'overload',
  underload: 'overload',
  'under range': 'overload',
  ul: 'overload',
  inf: 'overload',
  '+inf': 'overload',
  '-inf': 'overload',
  infinity: 'overload',
  '-infinity': 'overload',
  'n/a': 'blank',
  na: 'blank',
  null: 'blank',
  none: 'blank',
  nan: 'error-word',
  '-nan': 'error-word',
  open: 'error-word',
  fault: 'error-word',
  fail: 'error-word',
};

const ALL_DASHES = /^[-–_.\s]*[-–_][-–_.\s]*$/;
const ALL_BARS = /^(?:[\^¯~="]+|[*#]{2,})$/;
const ERROR_WORD = /^[+-]?e(?:rr|rror|rr?)?[\s.:_-]*\d{0,4}$/i;

/** Answers what a field means that is not a number; `malformed` where it means nothing known. */
export function statusOfWord(words: ReadoutProfile['words']): (field: string) => ChannelStatus {
  const known = new Map<string, WordStatus>(Object.entries(COMMON_WORDS));
  const learn = (list: readonly string[], status: WordStatus): void => {
    for (const word of list) known.set(keyOf(word), status);
  };
  learn(words.error, 'error-word');
  learn(words.blank, 'blank');
  learn(words.overload, 'overload');
  return (field) => {
    const key = keyOf(field);
    if (key === '') return 'blank';
    const status = known.get(key);
    if (status !== undefined) return status;
    if (ALL_DASHES.test(key)) return 'blank';
    if (ALL_BARS.test(key)) return 'overload';
    if (ERROR_WORD.test(key)) return 'error-word';
    return 'malformed';
  };
}

/** Words of the profile that look like numbers ("99999"): they must be asked before the number is read. */
export function numericWords(words: ReadoutProfile['words']): ReadonlySet<string> {
  return new Set(
    [...words.overload, ...words.blank, ...words.error].map(keyOf).filter((key) => /\d/.test(key)),
  );
}

export function keyOf(word: string): string {
  return word.trim().toLowerCase();
}
