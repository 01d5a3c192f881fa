/** The program's own version, as package.json states it; bundled with the program. */
import packageFile from '../../package.json' with { type: 'json' };

export const PROGRAM_VERSION: string = packageFile.version;
