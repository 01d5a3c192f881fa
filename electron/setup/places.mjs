/** Where things lie: the project, the pinned Node, the cache for what is fetched once per machine. */
import { accessSync, constants, mkdirSync } from 'node:fs';
import { homedir, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const projectFolder = fileURLToPath(new URL('../..', import.meta.url)).replace(/[\\/]$/, '');
export const modulesFolder = join(projectFolder, 'node_modules');
export const buildFolder = join(projectFolder, 'build');

/** The Node that is pinned as a dependency; everything but the first steps of set-up runs on it. */
export const pinnedNode = join(
  modulesFolder,
  'node',
  'bin',
  process.platform === 'win32' ? 'node.exe' : 'node',
);

/**
 * A folder outside the project for large things that are fetched once: `GAUGEMARK_CACHE`, else the
 * user's cache folder, else (a home that can't be written, as on some build machines) the temporary one.
 * @returns {string}
 */
export function cacheFolder() {
  const chosen =
    process.env['GAUGEMARK_CACHE'] ??
    join(process.env['XDG_CACHE_HOME'] ?? join(homedir(), '.cache'), 'gaugemark');
  for (const folder of [chosen, join(tmpdir(), 'gaugemark-cache')]) {
    try {
      mkdirSync(folder, { recursive: true });
      accessSync(folder, constants.W_OK);
      return folder;
    } catch {
      // The next one may do.
    }
  }
  throw new Error(
    `No folder for the cache can be written; tried ${chosen}. Set GAUGEMARK_CACHE to one that can.`,
  );
}

/** Root needs `--no-sandbox`; nobody else gets it. */
export const isRoot = process.getuid?.() === 0;
