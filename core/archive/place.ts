/** Where the archive lies when nobody says otherwise: the platform's own place for a person's data. */
import { posix, win32 } from 'node:path';

export const ARCHIVE_FILE_NAME = 'archive.gaugemark';

export interface Surroundings {
  readonly platform: NodeJS.Platform;
  readonly home: string;
  readonly environment: Readonly<Record<string, string | undefined>>;
}

/** Linux and others: XDG base directory specification; macOS: Application Support; Windows: roaming data. */
export function defaultArchivePath({ platform, home, environment }: Surroundings): string {
  if (platform === 'win32') {
    const roaming = environment['APPDATA'];
    const base =
      roaming !== undefined && win32.isAbsolute(roaming) ? roaming : win32.join(home, 'AppData', 'Roaming');
    return win32.join(base, 'gaugemark', ARCHIVE_FILE_NAME);
  }
  if (platform === 'darwin')
    return posix.join(home, 'Library', 'Application Support', 'gaugemark', ARCHIVE_FILE_NAME);
  // The specification tells to ignore a relative path here.
  const data = environment['XDG_DATA_HOME'];
  const base = data !== undefined && posix.isAbsolute(data) ? data : posix.join(home, '.local', 'share');
  return posix.join(base, 'gaugemark', ARCHIVE_FILE_NAME);
}
