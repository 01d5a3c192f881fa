/** `--archive FILE --with FILE …`: an archive and others beside it, of other years for example, each named once. */
import type { VerbArguments } from './arguments.ts';
import { existingArchive } from './recorder-access.ts';

/** The first is that of `--archive`. Throws an InputError where one is not there. */
export const archivesFrom = (given: VerbArguments): readonly string[] => [
  ...new Set([
    existingArchive(given.text('archive')),
    ...given.texts('with').map((one) => existingArchive(one)),
  ]),
];
