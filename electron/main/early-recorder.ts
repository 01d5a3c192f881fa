/**
 * A recorder that is started before the rest of this process is read: it takes longest to be there. Only where no socket of
 * one lies: else somebody may answer there, and whoever watches over the recorder looks first.
 */
import { existsSync } from 'node:fs';
import { socketPlace } from '../recorder/socket-place.ts';
import type { StartRecorder } from './recorder-connection.ts';

export interface EarlyRecorder {
  /** Settles when it has ended soon after its start; null for another archive, and once it has been asked for. */
  readonly takenFor: (archivePath: string) => Promise<void> | null;
}

/** Null where it could not be known that there is none (also where sockets are no files). */
export function startEarly(archivePath: string, start: StartRecorder): EarlyRecorder | null {
  const place = socketPlace(archivePath);
  if (place.folder === null || existsSync(place.path)) return null;
  let ended: Promise<void> | null = start(archivePath);
  return {
    takenFor: (asked) => {
      const its = asked === archivePath ? ended : null;
      ended = null;
      return its;
    },
  };
}
