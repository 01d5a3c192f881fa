/** Once before all window tests: Electron, the bundles and a display are there, also when vitest is called by hand. */
import { prepare } from '../../../electron/setup/prepare.mjs';

export default async function setUpWindowTests(): Promise<(() => void) | undefined> {
  // `npm test` has done it already and says so.
  if (process.env['GAUGEMARK_ELECTRON'] !== undefined) return undefined;
  const prepared = await prepare({
    say: (line) => process.stderr.write(`${line}\n`),
    forTests: true,
  });
  Object.assign(process.env, prepared.environment, { GAUGEMARK_ELECTRON: prepared.electron });
  return prepared.end;
}
