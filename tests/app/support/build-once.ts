/** Once before tests that start what is bundled: the bundles are those of this source, also when vitest is called by hand. */
import { build } from '../../../electron/setup/build.mjs';

export default async function buildOnce(): Promise<void> {
  // `npm test` has done it already.
  if (process.env['GAUGEMARK_ELECTRON'] === undefined) await build();
}
