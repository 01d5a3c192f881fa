/**
 * The serial ports of this computer. The library is asked in a process of its own: its listing may need a tool
 * that is missing (udevadm), may hang, and has taken processes down with it on some systems. What it can't tell
 * is looked for in the device files.
 */
import { createRequire } from 'node:module';
import { z } from 'zod';
import { type ListedPort, listedPort } from '../../core/contract/source.ts';
import { scanDevices } from './scan-devices.ts';

/** Listing is something a person waits for. */
export const LIST_MS_MAX = 3_000;
/** Ports shown; a computer with more has a list that nobody reads. */
export const PORTS_MAX = 200;
/** Output of the child process: PORTS_MAX ports of half a kilobyte. */
const OUTPUT_BYTES_MAX = 262_144;

const libraryPort = z.object({
  path: z.string().min(1),
  manufacturer: z.string().nullish(),
  serialNumber: z.string().nullish(),
  locationId: z.string().nullish(),
  vendorId: z.string().nullish(),
  productId: z.string().nullish(),
});

/** Never rejects: a computer without ports, or one that can't be asked, has an empty list and a path typed by hand. */
export async function listPorts(): Promise<readonly ListedPort[]> {
  const [asked, scanned] = await Promise.all([
    askLibrary().catch(() => []),
    process.platform === 'linux' ? scanDevices().catch(() => []) : [],
  ]);
  const ports = new Map<string, ListedPort>();
  // The library lists ttyS0 to ttyS31 whether or not there is a chip behind them; the scan knows.
  for (const port of asked)
    if (process.platform !== 'linux' || !/\/ttyS\d+$/.test(port.path)) ports.set(port.path, port);
  for (const port of scanned) {
    const known = ports.get(port.path);
    ports.set(
      port.path,
      known === undefined ? port : { ...port, identity: { ...known.identity, ...port.identity } },
    );
  }
  return [...ports.values()]
    .sort((a, b) => a.path.localeCompare(b.path, 'en', { numeric: true }))
    .slice(0, PORTS_MAX);
}

async function askLibrary(): Promise<ListedPort[]> {
  const library = JSON.stringify(requireHere().resolve('serialport'));
  const program = `require(${library}).SerialPort.list().then((ports) => process.stdout.write(JSON.stringify(ports)), () => process.exit(1))`;
  const { execFile } = await import('node:child_process');
  const output = await new Promise<string>((resolve, reject) => {
    execFile(
      process.execPath,
      ['-e', program],
      {
        timeout: LIST_MS_MAX,
        killSignal: 'SIGKILL',
        maxBuffer: OUTPUT_BYTES_MAX,
        // Where the recorder runs on Electron's own Node, the child must too.
        env: { ...process.env, ...('electron' in process.versions ? { ELECTRON_RUN_AS_NODE: '1' } : {}) },
        windowsHide: true,
      },
      (error, stdout) => {
        if (error === null) resolve(stdout);
        else reject(new Error(error.message, { cause: error }));
      },
    );
  });
  return z
    .array(libraryPort)
    .parse(JSON.parse(output))
    .flatMap((port) => {
      const text = (value: string | null | undefined): string | undefined =>
        value === null || value === undefined || value.trim() === '' ? undefined : value.trim();
      const identity = Object.fromEntries(
        Object.entries({
          vendorId: text(port.vendorId),
          productId: text(port.productId),
          serialNumber: text(port.serialNumber),
          location: text(port.locationId),
          manufacturer: text(port.manufacturer),
        }).filter(([, value]) => value !== undefined),
      );
      const checked = listedPort.safeParse({ path: port.path, identity });
      return checked.success ? [checked.data] : [];
    });
}

/** `require` from where this code lies, bundled or not. */
function requireHere(): NodeJS.Require {
  return createRequire(typeof __filename === 'string' ? __filename : import.meta.url);
}
