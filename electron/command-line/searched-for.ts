/** The arguments of a verb that takes words to be found anywhere among its options, and the query that they ask for. */
import type { SearchQuery } from '../../core/contract/search-requests.ts';
import { type VerbArguments, takeArguments } from './arguments.ts';
import { gatherValues } from './gather-values.ts';
import { searchQueryFrom } from './search-flags.ts';
import { InputError } from './verb.ts';

/** The words can also stand behind --search, as for the verbs that list. Throws an InputError that names the argument. */
export function searchedFor(
  args: readonly string[],
  verbOptions: Parameters<typeof gatherValues>[1] & Parameters<typeof takeArguments>[1],
): { readonly given: VerbArguments; readonly query: SearchQuery } {
  const options = { ...verbOptions, search: { type: 'string' } } as const;
  const gathered = gatherValues(args, options, { oneEach: true });
  const words = gathered.filter((arg) => !arg.startsWith('-'));
  const given = takeArguments(
    gathered,
    options,
    words.map(() => 'The text to be found'),
    'archive',
  );
  const search = given.text('search');
  if (search !== undefined && words.length > 0)
    throw new InputError(
      'options-exclude',
      'Give the words to be found as they are or behind --search, not both.',
      'search',
    );
  return {
    given,
    query: searchQueryFrom(given, words.length === 0 ? search : given.positionals.join(' ')),
  };
}
