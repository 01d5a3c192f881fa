/** The platform's own places for what a person has of this program: its data, first of all the archive, and its configuration. */
import { posix, win32 } from 'node:path';

export interface Surroundings {
  readonly platform: NodeJS.Platform;
  readonly home: string;
  readonly environment: Readonly<Record<string, string | undefined>>;
}

/** On Windows data and configuration lie apart; on Linux and others each has a variable of the XDG base directory specification, and folders without it. */
export interface KindOfPlace {
  /** `local` stays on this computer; `roaming` is copied about between computers at every sign-in and sign-out. */
  readonly onWindows: 'local' | 'roaming';
  readonly variable: 'XDG_DATA_HOME' | 'XDG_CONFIG_HOME';
  readonly under: readonly string[];
}

const WINDOWS = {
  local: { variable: 'LOCALAPPDATA', folder: 'Local' },
  roaming: { variable: 'APPDATA', folder: 'Roaming' },
} as const;

/** Linux and others: XDG base directory specification; macOS: Application Support; Windows: the person's AppData. */
export function personPlace(
  { platform, home, environment }: Surroundings,
  { onWindows, variable, under }: KindOfPlace,
  name: string,
): string {
  if (platform === 'win32') {
    const place = WINDOWS[onWindows];
    const given = environment[place.variable];
    const base =
      given !== undefined && win32.isAbsolute(given) ? given : win32.join(home, 'AppData', place.folder);
    return win32.join(base, 'gaugemark', name);
  }
  if (platform === 'darwin') return posix.join(home, 'Library', 'Application Support', 'gaugemark', name);
  // The specification tells to ignore a relative path here.
  const given = environment[variable];
  const base = given !== undefined && posix.isAbsolute(given) ? given : posix.join(home, ...under);
  return posix.join(base, 'gaugemark', name);
}

export const ARCHIVE_FILE_NAME = 'archive.gaugemark';

/**
 * Where the archive lies when nobody says otherwise. Never in a folder that is synchronised: a database that is copied
 * while it is open, or without its log, is damaged or lacks its newest pulls.
 */
export const defaultArchivePath = (surroundings: Surroundings): string =>
  personPlace(
    surroundings,
    { onWindows: 'local', variable: 'XDG_DATA_HOME', under: ['.local', 'share'] },
    ARCHIVE_FILE_NAME,
  );
