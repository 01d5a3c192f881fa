/** The flags by which pulls are found, as the query that the archive takes. */
import {
  FOUND_VERDICTS,
  GEOMETRIES,
  type SearchQuery,
  searchQuery,
} from '../../core/contract/search-requests.ts';
import { parseQuantity, quantityFaultSentence } from '../../core/quantity/parse-quantity.ts';
import { type VerbArguments, oneOf } from './arguments.ts';
import { PLACE_WORDS, fracturePlaceFrom } from './fracture-place-argument.ts';
import { InputError } from './verb.ts';

export const SEARCH_FLAGS = {
  from: { type: 'string' },
  to: { type: 'string' },
  set: { type: 'string' },
  rules: { type: 'string' },
  'base-metal': { type: 'string' },
  filler: { type: 'string' },
  geometry: { type: 'string' },
  broke: { type: 'string' },
  'strength-min': { type: 'string' },
  'strength-max': { type: 'string' },
  verdict: { type: 'string' },
  questionable: { type: 'boolean' },
  interrupted: { type: 'boolean' },
  void: { type: 'boolean' },
} as const;

export const SEARCH_USAGE = `  --from DATE, --to DATE    begun on these days by the clock of the place, ends included: 2026-03-04
  --set N|TEXT              in the set with this number, or whose name has these words
  --rules TEXT              judged by a rule pack with these words in its name or sign: asme-ix
  --base-metal TEXT, --filler TEXT
                            of the set: SA-36, E7018
  --geometry WORD           ${GEOMETRIES.join(', ')}
  --broke WORD              ${PLACE_WORDS}
  --strength-min STRESS, --strength-max STRESS
                            Rm of the evaluation that stands, else recorded peak over S0 or largest
                            recorded stress: "60 ksi"
  --verdict WORD            ${FOUND_VERDICTS.join(', ')}
  --questionable, --interrupted, --void
                            only these`;

/** Names of the query's parts as flags, for sentences. */
const FLAG_OF: Readonly<Partial<Record<keyof SearchQuery, keyof typeof SEARCH_FLAGS>>> = {
  fromDay: 'from',
  toDay: 'to',
  baseMetal: 'base-metal',
  strengthMinMpa: 'strength-min',
  strengthMaxMpa: 'strength-max',
};

/** Throws an InputError that names the flag. */
export function searchQueryFrom(given: VerbArguments, text: string | undefined): SearchQuery {
  const set = given.text('set');
  const broke = given.text('broke');
  const query = {
    text,
    fromDay: given.text('from'),
    toDay: given.text('to'),
    set: set !== undefined && /^[1-9]\d{0,14}$/.test(set) ? Number(set) : set,
    rules: given.text('rules'),
    baseMetal: given.text('base-metal'),
    filler: given.text('filler'),
    geometry: oneOf('geometry', given.text('geometry'), GEOMETRIES),
    broke: broke === undefined ? undefined : fracturePlaceFrom(broke),
    strengthMinMpa: stress(given, 'strength-min'),
    strengthMaxMpa: stress(given, 'strength-max'),
    verdict: oneOf('verdict', given.text('verdict'), FOUND_VERDICTS),
    questionable: only(given, 'questionable'),
    interrupted: only(given, 'interrupted'),
    voided: only(given, 'void'),
  };
  const checked = searchQuery.safeParse(
    Object.fromEntries(Object.entries(query).filter(([, value]) => value !== undefined)),
  );
  if (checked.success) return checked.data;
  const [issue] = checked.error.issues;
  const part = issue?.path[0] as keyof SearchQuery | undefined;
  const flag = part === undefined ? 'search' : (FLAG_OF[part] ?? part);
  throw new InputError(
    'option-value-wrong',
    part === 'text'
      ? `The text to be found ${issue?.message ?? 'is wrong'}; a few words are enough.`
      : `--${flag} ${issue?.message ?? 'is wrong'}; correct it.`,
    flag,
  );
}

/** Whether finding it needs verdicts, which may have to be judged first. */
export const asksForVerdicts = ({ verdict, questionable }: SearchQuery): boolean =>
  verdict !== undefined || questionable !== undefined;

const only = (given: VerbArguments, flag: string): true | undefined => (given.has(flag) ? true : undefined);

function stress(given: VerbArguments, flag: string): number | undefined {
  const text = given.text(flag);
  if (text === undefined) return undefined;
  const read = parseQuantity(text, { dimension: 'stress' });
  if (read.ok) return read.quantity.core;
  throw new InputError(
    'option-value-wrong',
    `--${flag}: ${quantityFaultSentence(read.fault, text.slice(0, 60), 'stress')}`,
    flag,
  );
}
