/** Lays the program out as it is packed: the bundles, the libraries that stay packages, and what lies beside them. */
import { existsSync } from 'node:fs';
import { cp, mkdir, readdir, writeFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { RECORDER_PACKAGES } from '../setup/build.mjs';
import { buildFolder, modulesFolder, projectFolder } from '../setup/places.mjs';
import { readJson } from './json-file.mjs';
import { billOfMaterials, licencesText } from './shipped-libraries.mjs';

/** Every file of the program that must be in a package; a bundle that is added belongs here. */
export const PROGRAM_FILES = [
  'build/main.cjs',
  'build/preload.cjs',
  'build/camera-preload.cjs',
  'build/the-rest.cjs',
  'build/spanish-paper.cjs',
  'build/recorder/main.cjs',
  'build/recorder/run-recorder.cjs',
  'build/recorder/archive-thread.cjs',
  'build/recorder/backup-check-thread.cjs',
  'build/recorder/evaluation-thread.cjs',
  'build/recorder/learn-thread.cjs',
  'build/recorder/self-check-thread.cjs',
  'build/recorder/split-thread.cjs',
  'build/recorder/spanish-paper.cjs',
  'build/renderer/index.html',
  'build/renderer/main.js',
];
/** For people who read them, not for the program. */
export const BESIDE = ['LICENSE', 'THIRD-PARTY-LICENCES.txt', 'sbom.cdx.json', 'serial-access'];
const SERIAL_ACCESS = join(projectFolder, 'electron', 'packaging', 'serial-access');

/**
 * Sources that compiled parts were made from, and compiled parts for other systems, are left out.
 * @param {string} path
 * @param {{ platform: NodeJS.Platform, arch: string }} system
 */
export function isLeftOut(path, { platform, arch }) {
  if (/[\\/](?:deps|src)$/.test(path) && /(?:better-sqlite3|bindings-cpp)[\\/][^\\/]+$/.test(path))
    return true;
  const [, compiled] = /[\\/]prebuilds[\\/]([^\\/]+)$/.exec(path) ?? [];
  return compiled !== undefined && !fits(compiled.replace(/\.node$/, ''), platform, arch);
}

/**
 * @param {string} compiled such as `linux-x64`, `linuxmusl-x64`, `darwin-x64+arm64`
 * @param {string} platform
 * @param {string} arch
 */
function fits(compiled, platform, arch) {
  const [system, architectures = ''] = compiled.split('-');
  return (system ?? '').replace('musl', '') === platform && architectures.split('+').includes(arch);
}

/**
 * @param {string} folder a new one
 * @param {{ platform?: NodeJS.Platform, arch?: string }} [system]
 */
export async function layOutProgram(folder, { platform = process.platform, arch = process.arch } = {}) {
  const missing = PROGRAM_FILES.filter((name) => !existsSync(join(projectFolder, name)));
  if (missing.length > 0) throw new Error(`the build lacks ${missing.join(', ')}; run npm run build`);
  await cp(buildFolder, join(folder, 'build'), {
    recursive: true,
    // Maps tell the sources' text again; nobody looks at them in a package.
    filter: (path) => !path.endsWith('.map'),
  });

  const libraries = packagesStayingPackages();
  for (const name of libraries) {
    await cp(join(modulesFolder, name), join(folder, 'node_modules', name), {
      recursive: true,
      filter: (path) => !isLeftOut(path, { platform, arch }),
    });
  }
  await writeFile(join(folder, 'package.json'), `${JSON.stringify(manifest(libraries), null, 2)}\n`);

  const beside = join(folder, 'beside');
  await mkdir(beside);
  await cp(join(projectFolder, 'LICENSE'), join(beside, 'LICENSE'));
  await cp(SERIAL_ACCESS, join(beside, 'serial-access'), { recursive: true });
  await writeFile(join(beside, 'THIRD-PARTY-LICENCES.txt'), licencesText());
  await writeFile(join(beside, 'sbom.cdx.json'), await billOfMaterials());
}

/**
 * What the bundles leave outside, and everything that it needs in turn, as installed here.
 * @returns {string[]}
 */
export function packagesStayingPackages() {
  const given = /** @type {Record<string, string>} */ (projectManifest()['dependencies']);
  const first = Object.keys(given).filter((name) =>
    RECORDER_PACKAGES.some((pattern) =>
      pattern.endsWith('/*') ? name.startsWith(pattern.slice(0, -1)) : name === pattern,
    ),
  );
  /** @type {Set<string>} */
  const found = new Set();
  for (const waiting = [...first]; waiting.length > 0;) {
    const name = waiting.pop() ?? '';
    if (found.has(name)) continue;
    found.add(name);
    waiting.push(...Object.keys(dependenciesOf(join(modulesFolder, name))).filter(isAtTop));
  }
  return [...found].sort();
}

/** @param {string} name */
const isAtTop = (name) => existsSync(join(modulesFolder, name));

/**
 * @param {string} folder
 * @returns {Record<string, string>}
 */
function dependenciesOf(folder) {
  const { dependencies = {} } = /** @type {{ dependencies?: Record<string, string> }} */ (
    readJson(join(folder, 'package.json'))
  );
  return dependencies;
}

/** @returns {Record<string, unknown>} */
function projectManifest() {
  return /** @type {Record<string, unknown>} */ (readJson(join(projectFolder, 'package.json')));
}

/**
 * Only what the packed program is: no scripts, no development dependencies.
 * @param {readonly string[]} libraries
 */
function manifest(libraries) {
  const { name, version, description, license, main } = projectManifest();
  const dependencies = Object.fromEntries(
    libraries.map((library) => {
      const { version: installed } = /** @type {{ version: string }} */ (
        readJson(join(modulesFolder, library, 'package.json'))
      );
      return [library, installed];
    }),
  );
  return {
    name,
    productName: 'Gaugemark',
    version,
    description,
    license,
    main,
    type: 'module',
    author: { name: 'Gaugemark maintainers', email: 'maintainers@gaugemark.invalid' },
    homepage: 'https://gaugemark.invalid',
    dependencies,
  };
}

/**
 * What a laid-out folder lacks.
 * @param {string} folder
 * @returns {Promise<string[]>}
 */
export async function lackingIn(folder) {
  const fonts = await readdir(join(folder, 'build', 'paper-fonts')).catch(() => []);
  return [
    ...PROGRAM_FILES.filter((name) => !existsSync(join(folder, name))),
    ...(fonts.length === 0 ? ['build/paper-fonts'] : []),
    ...packagesStayingPackages()
      .map((name) => `node_modules/${name}`)
      .filter((name) => !existsSync(join(folder, name))),
    ...BESIDE.filter((name) => !existsSync(join(folder, 'beside', name))).map(
      (name) => `beside/${basename(name)}`,
    ),
  ];
}
