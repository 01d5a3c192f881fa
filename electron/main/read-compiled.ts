/**
 * Reads a bundle of this program together with what the engine made of it at an earlier start: to make it anew takes longer
 * than everything that the bundle then does. Node can do the same for whole programs, but only from its version 22 on.
 */
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import Module, { createRequire } from 'node:module';
import { basename, dirname, join } from 'node:path';
import { Script } from 'node:vm';

const SUM_BYTES = 32;
const ENDING = '.compiled';

export interface CompiledPart {
  /** What the bundle exports. */
  readonly exports: unknown;
  /** Keeps what the engine has made of it by now for the next start; at the end, when most of it has been made. */
  readonly keep: () => void;
}

/**
 * @param path of a bundle in Node's older kind of module
 * @param folder holds what is kept: may be missing, and whatever lies there that is not of this bundle and this engine,
 * or is damaged, is not used
 */
export function readCompiled(path: string, folder: string): CompiledPart {
  const source = readFileSync(path);
  // The engine itself compares no more than the length of the source.
  const mark = createHash('sha256').update(process.versions.v8).update(source).digest('hex');
  const beginning = `${basename(path)}-`;
  const place = join(folder, `${beginning}${mark}${ENDING}`);
  const kept = readKept(place);
  const script = new Script(Module.wrap(source.toString('utf8')), {
    filename: path,
    ...(kept === null ? {} : { cachedData: kept }),
  });
  const made = { exports: {} };
  const run = script.runInThisContext() as (...given: readonly unknown[]) => void;
  run(made.exports, createRequire(path), made, path, dirname(path));
  const isKept = kept !== null && script.cachedDataRejected !== true;
  return {
    exports: made.exports,
    keep: () => {
      if (!isKept) keep(place, beginning, script.createCachedData());
    },
  };
}

function readKept(place: string): Buffer | null {
  try {
    const file = readFileSync(place);
    const data = file.subarray(SUM_BYTES);
    return sum(data).equals(file.subarray(0, SUM_BYTES)) ? data : null;
  } catch {
    return null;
  }
}

/** In place of what was kept of another version of the bundle. A start without it is only slower. */
function keep(place: string, beginning: string, data: Buffer): void {
  try {
    const folder = dirname(place);
    mkdirSync(folder, { recursive: true });
    writeFileSync(`${place}.new`, Buffer.concat([sum(data), data]));
    renameSync(`${place}.new`, place);
    for (const name of readdirSync(folder))
      if (name.startsWith(beginning) && name.endsWith(ENDING) && name !== basename(place))
        rmSync(join(folder, name), { force: true });
  } catch {
    // No room, or no right to write there: the next start makes it anew.
  }
}

const sum = (data: Buffer): Buffer => createHash('sha256').update(data).digest();
