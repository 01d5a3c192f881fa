/** What was searched for, in words, to stand above what was found. */
import { SORTED_AS_TEXT, type SearchOrder, type SearchQuery } from '../../contract/search-requests.ts';

interface Fact {
  readonly label: string;
  readonly value: string;
}

/** One line a condition; of a search without any, that every pull was wanted. */
export function searchFacts(query: SearchQuery, order: SearchOrder): Fact[] {
  const { text, fromDay, toDay, strengthMinMpa: min, strengthMaxMpa: max } = query;
  const facts: readonly (readonly [string, string | undefined])[] = [
    ['words', text?.trim() === '' ? undefined : text],
    ['days', between(fromDay, toDay)],
    ['set', query.set === undefined ? undefined : String(query.set)],
    ['rules', query.rules],
    ['base metal', query.baseMetal],
    ['filler', query.filler],
    ['section', query.geometry],
    ['broke in', query.broke],
    ['strength', between(stress(min), stress(max))],
    ['verdict', query.verdict],
    [
      'only',
      [
        query.questionable === true ? 'questionable' : '',
        query.interrupted === true ? 'interrupted' : '',
        query.voided === true ? 'void' : '',
      ]
        .filter((word) => word !== '')
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
        .join(', ') || undefined,
    ],
  ];
  const said = facts.flatMap(([label, value]) => (value === undefined ? [] : [{ label, value }]));
  const [first, last] = SORTED_AS_TEXT.has(order.by)
    ? ['from A to Z', 'from Z to A']
    : ['smallest or oldest first', 'largest or newest first'];
  return [
    ...(said.length === 0 ? [{ label: 'search', value: 'every pull' }] : said),
    {
      label: 'order',
      value: `by ${order.by === 'kept' ? 'when they were kept' : order.by.replace('-', ' ')}, ${order.descending ? last : first}`,
    },
  ];
}

const stress = (mpa: number | undefined): string | undefined =>
  mpa === undefined ? undefined : `${String(Number(mpa.toPrecision(6)))} MPa`;

function between(from: string | undefined, to: string | undefined): string | undefined {
  if (from === undefined) return to === undefined ? undefined : `to ${to}`;
  return to === undefined ? `from ${from}` : `from ${from} to ${to}`;
}
