/**
 * Tries a packed program out as a person's first minute with it: its window opens, its own recorder answers, a port is
 * opened, readings are recorded, and after the end the archive holds exactly them.
 */
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { Archive } from '../../core/archive/archive.ts';
import type { ReplyOf, RequestInputOf, RequestName } from '../../core/contract/index.ts';
import { readoutProfile } from '../../core/contract/readout-profile.ts';
import { PROGRAM_VERSION } from '../command-line/program-version.ts';
import { type RecorderClient, connectToRecorder } from '../recorder/client.ts';
import { isRoot } from '../setup/places.mjs';

/** A first start on a busy machine takes some ten seconds. */
const WAIT_MS_MAX = 60_000;
const LOOK_AGAIN_MS = 50;
const LINES = 40;
/** The first line after opening may be the rest of one: kept raw, and a reading only if the port was quiet before it. */
const READINGS_MIN = LINES - 1;

const PROFILE = readoutProfile.parse({
  schema: 'gaugemark.readout-profile/1',
  name: 'load alone',
  serial: { baudRate: 9_600 },
  format: { kind: 'delimited', delimiter: ',', fields: ['load'] },
  channels: [{ field: 'load', quantity: 'force', unit: { kind: 'fixed', unit: 'N' } }],
});
const SPECIMEN = {
  id: 'TRY-OUT',
  geometry: { kind: 'flat', width: '20.00 mm', thickness: '6.00 mm' },
} as const;
const BY_HAND = {
  trigger: { kind: 'by-hand' },
  breakRule: { kind: 'by-hand' },
  tailS: null,
  heldOpenS: null,
} as const;

export interface PackedProgram {
  readonly executable: string;
  /** A new one for archive, settings and ports. */
  readonly folder: string;
  readonly environment: NodeJS.ProcessEnv;
}

/** What was seen, as a sentence. Throws where something is not as it must be. */
export async function tryOut({ executable, folder, environment }: PackedProgram): Promise<string> {
  mkdirSync(folder, { recursive: true });
  const archive = join(folder, 'try-out.gaugemark');
  const [port, readout] = [join(folder, 'port'), join(folder, 'readout')];
  const socat = spawn('socat', [`pty,raw,echo=0,link=${port}`, `pty,raw,echo=0,link=${readout}`], {
    stdio: 'ignore',
  });
  const program = spawn(
    executable,
    [
      ...(isRoot ? ['--no-sandbox'] : []),
      `--user-data-dir=${join(folder, 'settings')}`,
      '--archive',
      archive,
    ],
    { env: environment, stdio: 'ignore' },
  );
  let recorderPid: number | null = null;
  try {
    await until('the two ports', () => Promise.resolve(existsSync(port) && existsSync(readout)));
    const client = await connected(archive);
    const info = await ask(client, 'program.info', {});
    recorderPid = info.pid;
    await ask(client, 'readout.open', { source: { kind: 'serial', path: port }, profile: PROFILE });
    const { specimenId } = await ask(client, 'specimen.save', { specimen: SPECIMEN });
    const { pullId } = await ask(client, 'pull.ready', { specimenId, ...BY_HAND });
    const far = await open(readout, 'r+');
    for (let i = 0; i < LINES; i++) await far.writeFile(`${i * 100}\r\n`);
    let seen = 0;
    await until(
      () => `${READINGS_MIN} readings, of which ${seen} came`,
      async () => {
        seen = (await ask(client, 'session.get', {})).pull?.readingCount ?? 0;
        return seen >= READINGS_MIN;
      },
    );
    await ask(client, 'pull.close', {});
    await far.close();
    client.close();
    await ended(program.pid, () => program.kill('SIGTERM'));
    await ended(recorderPid, () => process.kill(info.pid, 'SIGTERM'));
    const kept = readingsIn(archive, pullId);
    if (kept < READINGS_MIN || kept > LINES)
      throw new Error(`the archive holds ${kept} readings of ${LINES} lines`);
    return `The packed program recorded ${kept} readings from a port and kept them.`;
  } finally {
    socat.kill('SIGTERM');
    program.kill('SIGKILL');
    if (recorderPid !== null && isThere(recorderPid)) process.kill(recorderPid, 'SIGKILL');
  }
}

async function connected(archive: string): Promise<RecorderClient> {
  const found: RecorderClient[] = [];
  await until('the recorder that the window starts', async () => {
    const client = await connectToRecorder(archive);
    if (client !== null) found.push(client);
    return client !== null;
  });
  const [client] = found;
  if (client === undefined) throw new Error('no recorder');
  return client;
}

async function ask<N extends RequestName>(
  client: RecorderClient,
  name: N,
  payload: RequestInputOf<N>,
): Promise<ReplyOf<N>> {
  const answer = await client.request(name, payload);
  if (!answer.ok) throw new Error(`${name}: ${answer.fault.sentence} ${answer.fault.detail ?? ''}`);
  return answer.value;
}

/** Of the closed record, with the project's own reading of it: nothing of the package is asked about itself. */
function readingsIn(path: string, pullId: number): number {
  const archive = new Archive(path, {
    programVersion: PROGRAM_VERSION,
    makeFolder: false,
    purpose: 'read',
    wallMs: Date.now,
  });
  try {
    return archive.curve(pullId).curve.length;
  } finally {
    archive.close();
  }
}

async function ended(pid: number | undefined, end: () => void): Promise<void> {
  if (pid === undefined) throw new Error('the packed program could not be started');
  end();
  await until(`the end of process ${pid}`, () => Promise.resolve(!isThere(pid)));
}

function isThere(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
}

async function until(what: string | (() => string), holds: () => Promise<boolean>): Promise<void> {
  const limit = performance.now() + WAIT_MS_MAX;
  while (!(await holds())) {
    if (performance.now() > limit)
      throw new Error(`waited in vain for ${typeof what === 'string' ? what : what()}`);
    await pause(LOOK_AGAIN_MS);
  }
}
