/** A pair of pseudo-terminals joined end to end: what is written to one side, the program reads from the other as a port. */
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { join } from 'node:path';
import { until } from './until.ts';

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
  const port = join(folder, 'port');
  const readoutSide = join(folder, 'readout');
  const socat = spawn('socat', [`pty,raw,echo=0,link=${port}`, `pty,raw,echo=0,link=${readoutSide}`], {
    stdio: 'ignore',
  });
  let ended = false;
  socat.once('close', () => {
    ended = true;
  });
  await until(() => existsSync(port) && existsSync(readoutSide), 'socat makes its two ports');
  const file = await open(readoutSide, 'r+');
  return {
    port,
    readoutSide,
    write: async (text) => {
      await file.writeFile(text);
    },
    end: async () => {
      await file.close().catch(() => undefined);
      socat.kill('SIGTERM');
      await until(() => ended, 'socat ends');
    },
  };
}
