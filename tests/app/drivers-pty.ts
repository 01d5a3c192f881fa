/** Ptys for the tests of drivers: pairs whose far end is in the test's hand, and whose socat can be stopped or killed. */
import { type ChildProcess, spawn } from 'node:child_process';
import { type FileHandle, open, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { CloseReason, SourceFault, Transport, TransportNote } from '../../drivers/transport.ts';
import { until } from './support/until.ts';

export interface Pty {
  /** What the program opens. */
  readonly path: string;
  /** The same pair's other side, which the readout writes to. */
  readonly farPath: string;
  readonly far: FileHandle;
  readonly socat: ChildProcess;
  /** Writes as a readout would. A pty holds about 20 KB when nobody reads, then the write waits. */
  readonly write: (bytes: string | Uint8Array) => Promise<void>;
  /** Pulls the plug. */
  readonly kill: () => Promise<void>;
}

/** The names are there a moment before the sides are raw: what is written in between has a CR put before each LF. */
const SOCAT_IS_READY = 'starting data transfer loop';

export async function makePty(folder: string, name = 'port'): Promise<Pty> {
  const path = join(folder, name);
  const farPath = join(folder, `${name}-far`);
  const socat = spawn(
    'socat',
    ['-d', '-d', `pty,raw,echo=0,link=${path}`, `pty,raw,echo=0,link=${farPath}`],
    { stdio: ['ignore', 'ignore', 'pipe'] },
  );
  let ended = false;
  let told = '';
  socat.stderr.on('data', (text: Buffer) => {
    told = (told + text.toString()).slice(-4_000);
  });
  socat.once('close', () => {
    ended = true;
  });
  await until(() => {
    if (ended) throw new Error(`socat has ended: ${told}`);
    return told.includes(SOCAT_IS_READY);
  }, 'socat joins its ports');
  const far = await open(farPath, 'r+');
  return {
    path,
    farPath,
    far,
    socat,
    write: async (bytes) => {
      await far.writeFile(bytes);
    },
    kill: async () => {
      // As a port that is unplugged goes from its folder. Left behind, the name would lead to the next pty that any process
      // on this machine makes, since their numbers are given out again: a recorder that looks for its port would read
      // another test's lines.
      await Promise.all([path, farPath].map((link) => rm(link, { force: true })));
      socat.kill('SIGKILL');
      await until(() => ended, 'socat ends');
      await far.close().catch(() => undefined);
    },
  };
}

/** Everything that one opening told. */
export interface Heard {
  readonly bytes: () => Buffer;
  readonly arrivedUs: number[];
  readonly closed: CloseReason[];
  readonly faults: SourceFault[];
  readonly notes: TransportNote[];
}

export async function openAndHear(transport: Transport): Promise<Heard> {
  const chunks: Buffer[] = [];
  const heard: Heard = {
    bytes: () => Buffer.concat(chunks),
    arrivedUs: [],
    closed: [],
    faults: [],
    notes: [],
  };
  await transport.open({
    onChunk: (bytes, arrivedUs) => {
      if (heard.closed.length > 0) throw new Error('bytes after the end');
      chunks.push(Buffer.from(bytes));
      heard.arrivedUs.push(arrivedUs);
    },
    onClose: (reason) => heard.closed.push(reason),
    onFault: (fault) => heard.faults.push(fault),
    onNote: (note) => heard.notes.push(note),
  });
  return heard;
}
