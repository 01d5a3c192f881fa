/** A schema that is built when it is first used. */
import { z } from 'zod';

/**
 * The messages of the whole program are some 3 700 schemas, of which a process uses a few at its start: building all of
 * them there took longer than all else that main and page do before the first picture. What is checked stays the same.
 * `unwrap()` gives the schema itself, for its fields.
 */
export function atFirstUse<S extends z.ZodType>(build: () => S): z.ZodLazy<S> {
  let built: S | undefined;
  return z.lazy(() => (built ??= build()));
}
