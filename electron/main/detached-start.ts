/**
 * Stands for a moment between main and recorder on Linux. Electron hands its own pipes and sockets down to whatever it
 * starts; a recorder that outlives the window would hold them open, and whoever waits for the window's end (a shell's
 * pipe, a build machine) would wait for the recorder's. So they are closed here, and the recorder starts from here.
 * Run as plain Node: `detached-start.cjs COMMAND ARGUMENTS…`. Ends with 1 when the recorder ended within the watch.
 */
import { spawn } from 'node:child_process';
import { closeSync, readdirSync, readFileSync, readlinkSync } from 'node:fs';

/** A recorder that can't live ends sooner than this; longer would keep this process for nothing. */
const WATCH_MS = 3_000;
/** Octal, as in fcntl.h and in /proc/self/fdinfo: closed by itself when another program is started. */
const CLOSE_ON_EXEC = 0o2000000;

function closeWhatWasHandedDown(): void {
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

closeWhatWasHandedDown();
const [command, ...args] = process.argv.slice(2);
if (command === undefined) process.exit(2);
const child = spawn(command, args, { detached: true, stdio: ['ignore', 'ignore', 'inherit'] });
child.once('error', (error) => {
  process.stderr.write(`${error.message}\n`);
  process.exit(1);
});
child.once('exit', () => process.exit(1));
setTimeout(() => {
  child.unref();
  process.exit(0);
}, WATCH_MS);
