/** Where the parts of the recorder are: in this folder, as source; beside the bundle, where the program is bundled. */
export type ThreadName =
  | 'archive-thread'
  | 'backup-check-thread'
  | 'evaluation-thread'
  | 'learn-thread'
  | 'self-check-thread'
  | 'split-thread';

export const programFile = (name: ThreadName | 'run-recorder'): URL =>
  new URL(`./${name}.${import.meta.url.endsWith('.ts') ? 'ts' : 'cjs'}`, import.meta.url);

export const threadFile = (name: ThreadName): URL => programFile(name);
