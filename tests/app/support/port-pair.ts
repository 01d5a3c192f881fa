/** A pair of pseudo-terminals joined end to end: what is written to one side, the program reads from the other as a port. */
import { makePty } from '../drivers-pty.ts';

export interface PortPair {
  /** What the program opens. */
  readonly port: string;
  /** What the readout writes to. */
  readonly readoutSide: string;
  /** Writes as a readout would. A pty holds about 20 KB when nobody reads, then the write waits. */
  readonly write: (text: string) => Promise<void>;
  /** Pulls the plug. */
  readonly end: () => Promise<void>;
}

export async function openPortPair(folder: string): Promise<PortPair> {
  const { path, farPath, write, kill } = await makePty(folder);
  return { port: path, readoutSide: farPath, write, end: kill };
}
