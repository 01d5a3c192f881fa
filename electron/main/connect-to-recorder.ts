/** One attempt to reach the recorder of an archive. */
import type { RecorderConnection } from './recorder-connection.ts';

export function connectToRecorder(archivePath: string): Promise<RecorderConnection | null> {
  void archivePath;
  return Promise.resolve(null);
}
