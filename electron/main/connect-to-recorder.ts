/** One attempt to reach the recorder of an archive, in the form that the supervisor and the page's relay need. */
import type { RequestOf } from '../../core/contract/index.ts';
import { connectToRecorder as connect } from '../recorder/client.ts';
import type { RecorderConnection } from './recorder-connection.ts';

export async function connectToRecorder(archivePath: string): Promise<RecorderConnection | null> {
  const client = await connect(archivePath);
  if (client === null) return null;
  return {
    // The relay has checked the payload against this very name's schema.
    request: (name, payload) => client.request(name, payload as RequestOf<typeof name>),
    onEvent: (listener) => void client.onEvent(listener),
    onClosed: (listener) => void client.onClosed(listener),
    close: () => client.close(),
  };
}
