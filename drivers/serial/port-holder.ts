/** Which programs have a device open, as far as this user may see. Linux only; elsewhere nobody is named. */
import { readFile, readdir, readlink, realpath } from 'node:fs/promises';

/** Processes looked at before giving up: a workshop computer has a few hundred. */
const PROCESSES_MAX = 4_000;
/** Named in one sentence; a port that more have open is nobody's. */
const HOLDERS_NAMED_MAX = 3;

/**
 * "socat (process 12) and Gaugemark (process 345)", or null where none is found. All are named: which of them has
 * locked the port the system doesn't tell, and closing the wrong one may end a pull.
 */
export async function holderOf(path: string): Promise<string | null> {
  if (process.platform !== 'linux') return null;
  const holders: string[] = [];
  try {
    const device = await realpath(path);
    const processes = (await readdir('/proc')).filter((name) => /^\d+$/.test(name)).slice(0, PROCESSES_MAX);
    for (const pid of processes) {
      if (holders.length === HOLDERS_NAMED_MAX) break;
      if (await holds(pid, device)) holders.push(await nameOf(pid));
    }
  } catch {
    // A process may end while it is looked at; not knowing the holder is no fault of its own.
  }
  const last = holders.pop();
  if (last === undefined) return null;
  return holders.length === 0 ? last : `${holders.join(', ')} and ${last}`;
}

async function nameOf(pid: string): Promise<string> {
  if (Number(pid) === process.pid) return 'Gaugemark itself';
  const command = await readFile(`/proc/${pid}/cmdline`, 'utf8');
  // Recorder and command line run as plain Node processes, whose own name says nothing.
  const name = /electron\/(?:recorder|command-line)\/main\.ts/.test(command)
    ? 'Gaugemark'
    : (await readFile(`/proc/${pid}/comm`, 'utf8')).trim();
  return `${name} (process ${pid})`;
}

async function holds(pid: string, device: string): Promise<boolean> {
  try {
    for (const fd of await readdir(`/proc/${pid}/fd`)) {
      const target = await readlink(`/proc/${pid}/fd/${fd}`).catch(() => '');
      if (target === device) return true;
    }
  } catch {
    // Other users' processes can't be looked into.
  }
  return false;
}
