/** What was searched for, in words, to stand above what was found. */
import { GEOMETRY_WORDS } from '../../certificate/dimension-facts.ts';
import { SORTED_AS_TEXT, type SearchOrder, type SearchQuery } from '../../contract/search-requests.ts';
import { ENGLISH_PAPER, type PaperText, type PaperWords } from '../../words/paper-words.ts';
import { codeSaid } from '../../words/words-of-codes.ts';

interface Fact {
  readonly label: string;
  readonly value: string;
}

/** One line a condition; of a search without any, that every pull was wanted. */
export function searchFacts(
  query: SearchQuery,
  order: SearchOrder,
  paper: PaperWords = ENGLISH_PAPER,
): Fact[] {
  const { said } = paper;
  const between = betweenIn(paper);
  const put = (code: string | undefined): string | undefined =>
    code === undefined ? undefined : codeSaid(code, paper);
  const { text, fromDay, toDay, strengthMinMpa: min, strengthMaxMpa: max } = query;
  const facts: readonly (readonly [PaperText, string | undefined])[] = [
    ['words', text?.trim() === '' ? undefined : text],
    ['days', between(fromDay, toDay)],
    ['set', query.set === undefined ? undefined : String(query.set)],
    ['rules', query.rules],
    ['base metal', query.baseMetal],
    ['filler', query.filler],
    ['section', query.geometry === undefined ? undefined : paper.text(GEOMETRY_WORDS[query.geometry])],
    ['broke in', put(query.broke)],
    ['strength', between(stress(min), stress(max))],
    ['verdict', put(query.verdict)],
    [
      'only',
      [
        query.questionable === true ? 'questionable' : '',
        query.interrupted === true ? 'interrupted' : '',
        query.voided === true ? 'void' : '',
      ]
        .filter((word) => word !== '')
        .map(said)
        .join(', ') || undefined,
    ],
    [
      'without',
      [
        query.questionable === false ? 'questionable' : '',
        query.interrupted === false ? 'interrupted' : '',
        query.voided === false ? 'void' : '',
      ]
        .filter((word) => word !== '')
        .map(said)
        .join(', ') || undefined,
    ],
  ];
  const conditions = facts.flatMap(([label, value]) =>
    value === undefined ? [] : [{ label: paper.text(label), value }],
  );
  const [first, last] = SORTED_AS_TEXT.has(order.by)
    ? (['from A to Z', 'from Z to A'] as const)
    : (['smallest or oldest first', 'largest or newest first'] as const);
  return [
    ...(conditions.length === 0
      ? [{ label: paper.text('search'), value: paper.text('every pull') }]
      : conditions),
    {
      label: paper.text('order'),
      value: paper.text(
        'by {1}, {2}',
        said(order.by === 'kept' ? 'when they were kept' : order.by.replace('-', ' ')),
        paper.text(order.descending ? last : first),
      ),
    },
  ];
}

const stress = (mpa: number | undefined): string | undefined =>
  mpa === undefined ? undefined : `${String(Number(mpa.toPrecision(6)))} MPa`;

const betweenIn =
  ({ text }: PaperWords) =>
  (from: string | undefined, to: string | undefined): string | undefined => {
    if (from === undefined) return to === undefined ? undefined : text('to {1}', to);
    return to === undefined ? text('from {1}', from) : text('from {1} to {2}', from, to);
  };
