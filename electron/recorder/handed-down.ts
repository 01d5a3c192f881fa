/**
 * Electron hands its own pipes and sockets down to whatever it starts on Linux. A recorder that outlives the window would
 * hold them open, and whoever waits for the window's end (a shell's pipe, a build machine) would wait for the recorder's.
 */
import { closeSync, readdirSync, readFileSync, readlinkSync } from 'node:fs';

/** Octal, as in fcntl.h and in /proc/self/fdinfo: closed by itself when another program is started. */
const CLOSE_ON_EXEC = 0o2000000;

/** Closes them. What this process has opened by itself closes at the start of another, and is left alone by that. */
export function closeWhatWasHandedDown(): void {
  if (process.platform !== 'linux') return;
  for (const name of readdirSync('/proc/self/fd')) {
    const descriptor = Number(name);
    try {
      const kind = readlinkSync(`/proc/self/fd/${name}`);
      const facts = /^flags:\s*([0-7]+)/m.exec(readFileSync(`/proc/self/fdinfo/${name}`, 'utf8'));
      const closesItself = (Number.parseInt(facts?.[1] ?? '0', 8) & CLOSE_ON_EXEC) !== 0;
      if (descriptor > 2 && !closesItself && /^(?:pipe|socket):/.test(kind)) closeSync(descriptor);
    } catch {
      // The listing's own descriptor is gone again.
    }
  }
}
