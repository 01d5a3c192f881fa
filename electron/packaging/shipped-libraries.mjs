/** The libraries that reach users: their licences as text, and a bill of materials (CycloneDX, made by npm from the lock file). */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { SetupFault, runNpm } from '../setup/dependencies.mjs';
import { projectFolder } from '../setup/places.mjs';
import { readJson } from './json-file.mjs';

/**
 * @typedef {object} ShippedLibrary
 * @property {string} name
 * @property {string} version
 * @property {string} licence as its manifest states it (an SPDX expression)
 * @property {string | null} text of its licence file
 * @property {string | null} integrity the hash that the lock file holds it to ("sha512-…")
 */

/**
 * Everything in the lock file that is not for development only, as installed here.
 * @returns {ShippedLibrary[]}
 */
export function shippedLibraries() {
  const lock =
    /** @type {{ packages: Record<string, { dev?: boolean, optional?: boolean, integrity?: string }> }} */ (
      readJson(join(projectFolder, 'package-lock.json'))
    );
  return Object.entries(lock.packages)
    .filter(([place, entry]) => place !== '' && entry.dev !== true && existsSync(join(projectFolder, place)))
    .map(([place, { integrity = null }]) => ({ ...libraryIn(join(projectFolder, place)), integrity }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}

/**
 * @param {string} folder
 * @returns {Omit<ShippedLibrary, 'integrity'>}
 */
function libraryIn(folder) {
  const { name, version, license } = /** @type {{ name: string, version: string, license?: unknown }} */ (
    readJson(join(folder, 'package.json'))
  );
  const file = readdirSync(folder).find((entry) => /^(?:licen[cs]e|copying)/i.test(entry));
  return {
    name,
    version,
    licence: typeof license === 'string' ? license : 'not stated',
    text: file === undefined ? null : readFileSync(join(folder, file), 'utf8').trim(),
  };
}

/** @returns {string} */
export function licencesText() {
  const parts = shippedLibraries().map(
    ({ name, version, licence, text }) =>
      `${name} ${version}\nLicence: ${licence}\n\n${text ?? `(The package holds no licence file; its manifest states ${licence}.)`}\n`,
  );
  const head =
    'Gaugemark contains the following libraries. Electron and Chromium, on which it runs, bring their own files:\n' +
    'LICENSE.electron.txt and LICENSES.chromium.html beside the program.\n';
  return [head, ...parts].join(`\n${'-'.repeat(78)}\n\n`);
}

/**
 * @returns {Promise<string>} CycloneDX as JSON: what is shipped, with licences and hashes; Electron too, which is a
 *   development dependency and in every package all the same, and what npm leaves out because development needs it as well
 */
export async function billOfMaterials() {
  const { code, text } = await runNpm(
    [
      'sbom',
      '--sbom-format=cyclonedx',
      '--sbom-type=application',
      '--omit=dev',
      '--package-lock-only',
      '--loglevel=error',
    ],
    'capture',
  );
  if (code !== 0)
    throw new SetupFault(`npm could not make the bill of materials: ${text.trim().slice(-500)}`);
  /** @type {unknown} */
  const parsed = JSON.parse(text);
  const bill =
    /** @type {{ metadata: { component: { name: string } }, components: { name: string, version: string }[] }} */ (
      parsed
    );
  const npms = new Set(bill.components.map(({ name, version }) => `${name}@${version}`));
  for (const library of shippedLibraries())
    if (!npms.has(`${library.name}@${library.version}`))
      bill.components.push(componentOf(library, 'library'));
  const electron = libraryIn(join(projectFolder, 'node_modules', 'electron'));
  bill.metadata.component.name = 'gaugemark';
  bill.components.push(componentOf({ ...electron, integrity: null }, 'framework'));
  return `${JSON.stringify(bill, null, 2)}\n`;
}

/**
 * A component as npm writes it.
 * @param {ShippedLibrary} library
 * @param {'library' | 'framework'} type
 */
function componentOf({ name, version, licence, integrity }, type) {
  const sha512 = /^sha512-(\S+)/.exec(integrity ?? '')?.[1];
  return {
    'bom-ref': `${name}@${version}`,
    type,
    name,
    version,
    scope: 'required',
    purl: `pkg:npm/${name.replace('@', '%40')}@${version}`,
    ...(sha512 === undefined
      ? {}
      : { hashes: [{ alg: 'SHA-512', content: Buffer.from(sha512, 'base64').toString('hex') }] }),
    licenses: [{ license: { id: licence } }],
  };
}
