/** A client of the recorder that holds an archive, as soon as it answers. */
import { type RecorderClient, connectToRecorder } from '../../../electron/recorder/client.ts';
import { until } from './until.ts';

/** `look` is called before each try; what it throws ends the waiting. */
export async function recorderClient(archivePath: string, look?: () => void): Promise<RecorderClient> {
  const found: RecorderClient[] = [];
  await until(async () => {
    look?.();
    const client = await connectToRecorder(archivePath);
    if (client !== null) found.push(client);
    return client !== null;
  }, 'the recorder answers');
  const [client] = found;
  if (client === undefined) throw new Error('the recorder does not answer');
  return client;
}
