/** Where the recorder of an archive listens: a local socket that only this person can reach, named after the archive. */
import { createHash } from 'node:crypto';
import { realpathSync } from 'node:fs';
import { tmpdir, userInfo } from 'node:os';
import { basename, dirname, join, resolve } from 'node:path';

/** Sixteen hex digits: enough to tell archives apart, short enough for the 108 bytes that a socket's path may have. */
const NAME_DIGITS = 16;

export interface SocketPlace {
  /** Folder of the socket, to be made with mode 0700; null where there is none (named pipes). */
  readonly folder: string | null;
  readonly path: string;
}

/** The same archive gives the same place, whatever way leads to it. */
export function socketPlace(
  archivePath: string,
  environment: Readonly<Record<string, string | undefined>> = process.env,
): SocketPlace {
  const name = createHash('sha256').update(realArchivePath(archivePath)).digest('hex').slice(0, NAME_DIGITS);
  if (process.platform === 'win32')
    return { folder: null, path: `\\\\.\\pipe\\gaugemark-${userInfo().username}-${name}` };
  const runtime = environment['XDG_RUNTIME_DIR'];
  const base = runtime !== undefined && runtime.startsWith('/') ? runtime : tmpdir();
  const folder = join(base, `gaugemark-${userInfo().uid}`);
  return { folder, path: join(folder, `${name}.socket`) };
}

/** The archive's path without links; its file, and even its folder, may not exist yet. */
export function realArchivePath(archivePath: string): string {
  const full = resolve(archivePath);
  try {
    return realpathSync(full);
  } catch {
    try {
      return join(realpathSync(dirname(full)), basename(full));
    } catch {
      return full;
    }
  }
}
