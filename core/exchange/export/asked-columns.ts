/** Which columns a table of results has, as they are asked for. */
import { z } from 'zod';
import { atFirstUse } from '../../at-first-use.ts';

/** What a pull is, before anything is said of its results. */
const WHAT_IT_IS = [
  'archive',
  'pull',
  'specimen',
  'started',
  'pulled-on',
  'operator',
  'set',
  'rule-pack',
  'base-metal',
  'filler',
  'heat',
  'filler-lot',
  'welder',
] as const;

export const PULL_FACTS = [
  ...WHAT_IT_IS,
  'verdict',
  'fracture',
  'readings',
  'gaps',
  'interrupted',
  'void',
  'source',
  'notes',
  'withheld',
  'remarks',
] as const;
export type PullFact = (typeof PULL_FACTS)[number];

/** Unrounded, or as a certificate states it: by the rule of the evaluation, in the unit of that rule. */
export const RESULT_FORMS = ['unrounded', 'rounded'] as const;
export type ResultForm = (typeof RESULT_FORMS)[number];

/** Columns that somebody asks for by name. */
export const ASKED_COLUMNS_MAX = 100;

/** Rows that are printed: some seventy pages, as many as anybody turns over. */
export const PAPER_ROWS_MAX = 2_000;
/** Columns that can be read beside each other on a sheet that is turned across. */
export const PAPER_COLUMNS_MAX = 18;

/** A symbol of a result: Rm, Rp0.2, A, A11.3, n4-6 … */
export const resultSymbol = z.string().regex(/^[A-Za-z][A-Za-z0-9.,%/-]{0,23}$/);

export const askedColumn = atFirstUse(() =>
  z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('fact'), fact: z.enum(PULL_FACTS) }),
    z.strictObject({ kind: z.literal('result'), symbol: resultSymbol, form: z.enum(RESULT_FORMS) }),
    /** Every result that one of the pulls has, in these forms beside each other. */
    z.strictObject({ kind: z.literal('results'), forms: z.array(z.enum(RESULT_FORMS)).min(1).max(2) }),
  ]),
);
export type AskedColumn = z.infer<typeof askedColumn>;

const fact = (name: PullFact): AskedColumn => ({ kind: 'fact', fact: name });

/** Without a choice: what a pull is, every result of each unrounded and rounded, what is said of it. */
export const USUAL_COLUMNS: readonly AskedColumn[] = [
  ...WHAT_IT_IS.map(fact),
  { kind: 'results', forms: ['unrounded', 'rounded'] },
  ...(['verdict', 'fracture', 'gaps', 'void', 'source', 'withheld'] as const).map(fact),
];

/** On paper there is room for fewer; of these, columns in which nothing stands are left out. */
export const USUAL_ON_PAPER: readonly AskedColumn[] = [
  ...(
    [
      'archive',
      'pull',
      'specimen',
      'started',
      'pulled-on',
      'set',
      'base-metal',
      'heat',
      'filler',
      'filler-lot',
      'welder',
    ] as const
  ).map(fact),
  ...['Rm', 'ReH', 'Rp0.2', 'A', 'Z'].map((symbol) => ({ kind: 'result', symbol, form: 'rounded' }) as const),
  ...(['fracture', 'verdict'] as const).map(fact),
];

/** Results that are offered by name. */
export const OFFERED_RESULTS = [
  'Fm',
  'S0',
  'Rm',
  'ReH',
  'ReL',
  'Rp0.2',
  'Rt0.5',
  'A',
  'Ag',
  'Agt',
  'At',
  'Z',
] as const;
