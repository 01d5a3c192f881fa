/** Where the threads of the recorder are: in this folder, as source; beside the bundle, where the program is bundled. */
export type ThreadName =
  'archive-thread' | 'backup-check-thread' | 'evaluation-thread' | 'learn-thread' | 'self-check-thread';

export const threadFile = (name: ThreadName): URL =>
  new URL(`./${name}.${import.meta.url.endsWith('.ts') ? 'ts' : 'mjs'}`, import.meta.url);
