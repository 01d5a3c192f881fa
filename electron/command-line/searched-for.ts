/** The arguments of a verb that takes words to be found anywhere among its options, and the query that they ask for. */
import type { SearchQuery } from '../../core/contract/search-requests.ts';
import { type VerbArguments, takeArguments } from './arguments.ts';
import { gatherValues } from './gather-values.ts';
import { searchQueryFrom } from './search-flags.ts';

/** Throws an InputError that names the argument. */
export function searchedFor(
  args: readonly string[],
  options: Parameters<typeof gatherValues>[1] & Parameters<typeof takeArguments>[1],
): { readonly given: VerbArguments; readonly query: SearchQuery } {
  const gathered = gatherValues(args, options, { oneEach: true });
  const words = gathered.filter((arg) => !arg.startsWith('-'));
  const given = takeArguments(
    gathered,
    options,
    words.map(() => 'The text to be found'),
    'archive',
  );
  return {
    given,
    query: searchQueryFrom(given, words.length === 0 ? undefined : given.positionals.join(' ')),
  };
}
