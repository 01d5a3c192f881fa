/** Acts that need the file of an archive for themselves: nobody may record into it meanwhile. */
import { connectToRecorder } from '../recorder/client.ts';
import { JobError } from './verb.ts';

/** Rejects with a JobError where a recorder has the archive open. `then`: what is to be done after closing it, "split". */
export async function refuseOpenArchive(path: string, then: string): Promise<void> {
  const client = await connectToRecorder(path);
  client?.close();
  if (client !== null)
    throw new JobError(
      'archive-in-use',
      `The archive ${path} is open in a window or a recorder; close it there, then ${then}. Nothing was changed.`,
    );
}
