/** A port that was named by its path alone is known again by its adapter, as one that was chosen from the list is. */
import type { ListedPort, Source } from '../../core/contract/source.ts';
import { listPorts } from './list-ports.ts';
import { placeOfIdentity } from './place-of-identity.ts';
import { knowsAnything } from './port-identity.ts';
import { scanDevices } from './scan-devices.ts';

/** The device files of Linux say it at once; elsewhere the library has to be asked. */
export const portsAtOnce = (): Promise<readonly ListedPort[]> =>
  process.platform === 'linux' ? scanDevices().catch(() => []) : listPorts();

/**
 * The source with the identity of the adapter that is at its path now. As it was where it carries one, where nothing is
 * known of the port, or where another could be taken for it: the path that somebody has named is opened in any case.
 */
export async function withIdentity(
  source: Source,
  ports: () => Promise<readonly ListedPort[]>,
): Promise<Source> {
  if (source.kind !== 'serial' && source.kind !== 'modbus-rtu') return source;
  if (source.identity !== undefined) return source;
  const listed = await ports();
  const found = listed.find(({ path }) => path === source.path);
  if (found === undefined || !knowsAnything(found.identity)) return source;
  const place = placeOfIdentity(source.path, found.identity, listed);
  return place.kind === 'path' && place.path === source.path
    ? { ...source, identity: found.identity }
    : source;
}
