/** JSON that is our own or a library's manifest: read as unknown, for the caller to say what it is. */
import { readFileSync } from 'node:fs';

/**
 * @param {string} file
 * @returns {unknown}
 */
export function readJson(file) {
  /** @type {unknown} */
  const parsed = JSON.parse(readFileSync(file, 'utf8'));
  return parsed;
}
