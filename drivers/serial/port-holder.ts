/** Which program has a device open, as far as this user may see. Linux only; elsewhere nobody is named. */
import { readFile, readdir, readlink, realpath } from 'node:fs/promises';

/** Processes looked at before giving up: a workshop computer has a few hundred. */
const PROCESSES_MAX = 4_000;

/** "name (process 123)", or null where none is found. */
export async function holderOf(path: string): Promise<string | null> {
  if (process.platform !== 'linux') return null;
  try {
    const device = await realpath(path);
    const processes = (await readdir('/proc')).filter((name) => /^\d+$/.test(name)).slice(0, PROCESSES_MAX);
    for (const pid of processes) {
      if (!(await holds(pid, device))) continue;
      if (Number(pid) === process.pid) return 'Gaugemark itself';
      const name = (await readFile(`/proc/${pid}/comm`, 'utf8')).trim();
      return `${name} (process ${pid})`;
    }
  } catch {
    // A process may end while it is looked at; not knowing the holder is no fault of its own.
  }
  return null;
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
