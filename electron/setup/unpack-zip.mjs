/** Unpacks one folder of a zip archive, with parts left out, and never outside the target. */
import { createWriteStream } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { dirname, join, resolve, sep } from 'node:path';
import { pipeline } from 'node:stream/promises';
import yauzl from 'yauzl';

/**
 * @param {object} options
 * @param {string} options.file
 * @param {string} options.root folder inside the zip whose content is wanted, with its trailing slash
 * @param {readonly string[]} options.leftOut beginnings of paths under `root`
 * @param {string} options.into
 */
export async function unpackZip({ file, root, leftOut, into }) {
  const zip = await yauzl.openPromise(file);
  const target = resolve(into);
  await mkdir(target, { recursive: true });
  for await (const entry of zip.eachEntry()) {
    if (!entry.fileName.startsWith(root) || entry.fileName.endsWith('/')) continue;
    const name = entry.fileName.slice(root.length);
    if (leftOut.some((beginning) => name.startsWith(beginning))) continue;
    const place = resolve(join(target, name));
    if (!place.startsWith(target + sep)) throw new Error(`The zip names a place outside its folder: ${name}`);
    await mkdir(dirname(place), { recursive: true });
    await pipeline(await zip.openReadStreamPromise(entry), createWriteStream(place));
  }
}
