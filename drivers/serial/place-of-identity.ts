/** Under which path the wanted adapter is now. */
import type { ListedPort, PortIdentity } from '../../core/contract/source.ts';
import type { SourceFault, TransportNote } from '../transport.ts';
import { compareIdentity, identityInWords, knowsAnything, matchIdentity } from './port-identity.ts';

export type PlaceOfIdentity =
  | { readonly kind: 'path'; readonly path: string; readonly note?: TransportNote }
  | { readonly kind: 'refused'; readonly fault: SourceFault };

/**
 * The path to open: the saved one while the same adapter is behind it, another one where the adapter has come
 * back elsewhere. Refused where another adapter is behind the saved path, or where several could be the one.
 */
export function placeOfIdentity(
  path: string,
  wanted: PortIdentity,
  ports: readonly ListedPort[],
): PlaceOfIdentity {
  if (!knowsAnything(wanted)) return { kind: 'path', path };
  const atPath = ports.find((port) => port.path === path);
  if (atPath !== undefined && compareIdentity(wanted, atPath.identity) === 'same') {
    const match = matchIdentity(wanted, ports);
    if (match.kind === 'found' && match.port.path === path) return { kind: 'path', path };
  }
  const match = matchIdentity(wanted, ports);
  switch (match.kind) {
    case 'found':
      return {
        kind: 'path',
        path: match.port.path,
        ...(match.port.path === path
          ? {}
          : {
              note: {
                code: 'port-moved',
                sentence: `The readout's adapter (${identityInWords(wanted)}) is now ${match.port.path} instead of ${path}.`,
              },
            }),
      };
    case 'ask':
      return {
        kind: 'refused',
        fault: {
          code: 'port-is-another',
          sentence: `${match.candidates.map((port) => port.path).join(' and ')} could each be the readout's adapter (${identityInWords(wanted)}); choose the port that is meant.`,
        },
      };
    case 'absent':
      break;
  }
  if (atPath !== undefined && compareIdentity(wanted, atPath.identity) === 'another')
    return {
      kind: 'refused',
      fault: {
        code: 'port-is-another',
        sentence: `Another adapter (${identityInWords(atPath.identity)}) is now at ${path}, not the readout's (${identityInWords(wanted)}); plug the readout's in, or choose the port anew.`,
      },
    };
  // Not listed at all, or listed without any clue (a virtual port): the path is all there is.
  if (atPath !== undefined || ports.length === 0) return { kind: 'path', path };
  return {
    kind: 'refused',
    fault: {
      code: 'port-missing',
      sentence: `The readout's adapter (${identityInWords(wanted)}) is not plugged in; plug it in, or choose another port.`,
    },
  };
}
