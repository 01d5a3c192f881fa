/** Every migration in order; the archive's `user_version` is how many of them it has had. Append only. */
import { firstForm } from './0001-first-form.ts';
import { offsetOfStart } from './0002-offset-of-start.ts';
import { sets } from './0003-sets.ts';

export const MIGRATIONS: readonly string[] = [firstForm, offsetOfStart, sets];
export const SCHEMA_VERSION = MIGRATIONS.length;
