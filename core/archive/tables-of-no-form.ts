/** What a file says of itself as a file, not of what is kept in it: left out where contents are compared. */
import { COPY_TABLE } from './copy-goes-on.ts';
import { OPEN_TABLE } from './half-copy.ts';

export const TABLES_OF_NO_FORM: readonly string[] = [OPEN_TABLE, COPY_TABLE];
