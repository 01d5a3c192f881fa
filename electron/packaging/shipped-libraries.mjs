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
 */

/**
 * Everything in the lock file that is not for development only, as installed here.
 * @returns {ShippedLibrary[]}
 */
export function shippedLibraries() {
  const lock = /** @type {{ packages: Record<string, { dev?: boolean, optional?: boolean }> }} */ (
    readJson(join(projectFolder, 'package-lock.json'))
  );
  return Object.entries(lock.packages)
    .filter(([place, entry]) => place !== '' && entry.dev !== true && existsSync(join(projectFolder, place)))
    .map(([place]) => libraryIn(join(projectFolder, place)))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}

/**
 * @param {string} folder
 * @returns {ShippedLibrary}
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
 *   development dependency and in every package all the same
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
  const bill = /** @type {{ metadata: { component: { name: string } }, components: unknown[] }} */ (parsed);
  const { name, version, licence } = libraryIn(join(projectFolder, 'node_modules', 'electron'));
  bill.metadata.component.name = 'gaugemark';
  bill.components.push({
    'bom-ref': `${name}@${version}`,
    type: 'framework',
    name,
    version,
    scope: 'required',
    purl: `pkg:npm/${name}@${version}`,
    licenses: [{ license: { id: licence } }],
  });
  return `${JSON.stringify(bill, null, 2)}\n`;
}
