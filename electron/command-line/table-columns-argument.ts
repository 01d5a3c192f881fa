/** The columns of a table of results as they are named on the command line. */
import {
  ASKED_COLUMNS_MAX,
  type AskedColumn,
  OFFERED_RESULTS,
  PULL_FACTS,
  RESULT_FORMS,
  resultSymbol,
} from '../../core/exchange/export/asked-columns.ts';
import { nearName } from '../../core/near-name.ts';
import { InputError } from './verb.ts';

export const TABLE_COLUMNS_USAGE = `  --columns "NAME, NAME"    of the table, in this order: ${PULL_FACTS.slice(0, 11).join(', ')},
                            ${PULL_FACTS.slice(11).join(', ')};
                            a result by its symbol (Rm), rounded as a certificate states it (Rm rounded), or
                            all of them: results, results unrounded, results rounded`;

/** Undefined where none are chosen. Throws an InputError that names the column. */
export function tableColumnsFrom(text: string | undefined): readonly AskedColumn[] | undefined {
  if (text === undefined) return undefined;
  const names = text
    .split(/[,;]/)
    .map((name) => name.trim().replaceAll(/\s+/g, ' '))
    .filter((name) => name !== '');
  if (names.length === 0 || names.length > ASKED_COLUMNS_MAX)
    throw new InputError(
      'option-value-wrong',
      `--columns names ${String(names.length)} columns; name at least one and at most ${String(ASKED_COLUMNS_MAX)}, with commas between them.`,
      'columns',
    );
  return names.map(columnOf);
}

function columnOf(name: string): AskedColumn {
  const fact = PULL_FACTS.find((one) => one === name.toLowerCase().replaceAll(' ', '-'));
  if (fact !== undefined) return { kind: 'fact', fact };
  const [first = '', second, ...more] = name.split(' ');
  const form = RESULT_FORMS.find((one) => one === second?.toLowerCase());
  const isWhole = more.length === 0 && (second === undefined || form !== undefined);
  if (isWhole && first.toLowerCase() === 'results')
    return { kind: 'results', forms: form === undefined ? [...RESULT_FORMS] : [form] };
  const near = nearName(first, PULL_FACTS);
  // A symbol begins with a capital (or is n, r, m … with a figure): a word that is nearly a fact is a slip of the hand.
  if (isWhole && near === null && resultSymbol.safeParse(first).success)
    return { kind: 'result', symbol: first, form: form ?? 'unrounded' };
  throw new InputError(
    'option-value-unknown',
    `--columns "${name.slice(0, 40)}" is no column${near === null ? '' : `; "${near}" may be meant`}. Name ${PULL_FACTS.join(', ')}, results, or a result by its symbol (${OFFERED_RESULTS.join(', ')}), with "rounded" behind it where wanted.`,
    'columns',
  );
}
