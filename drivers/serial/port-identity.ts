/** Which adapter is which: clues compared, the strongest first. Never a guess: where the clues don't decide, a person is asked. */
import type { ListedPort, PortIdentity } from '../../core/contract/source.ts';

/** `same`/`another`: a clue decides. `unknown`: nothing that both sides know can tell them apart. */
export type IdentityVerdict = 'same' | 'another' | 'unknown';

/**
 * Compares two sets of clues. Vendor, product or serial number that differ mean another adapter. Letter case,
 * a leading "0x" and the channel letter that some drivers append to the serial number do not count.
 */
export function compareIdentity(wanted: PortIdentity, found: PortIdentity): IdentityVerdict {
  const vendor = compareClue(hexKey(wanted.vendorId), hexKey(found.vendorId));
  const product = compareClue(hexKey(wanted.productId), hexKey(found.productId));
  if (vendor === 'another' || product === 'another') return 'another';
  const serial = compareSerialNumber(wanted.serialNumber, found.serialNumber);
  if (serial === 'another') return 'another';
  if (serial === 'same' && vendor === 'same') return 'same';
  if (compareClue(textKey(wanted.location), textKey(found.location)) === 'same' && vendor === 'same')
    return 'same';
  return 'unknown';
}

export type IdentityMatch =
  | {
      readonly kind: 'found';
      readonly port: ListedPort;
      readonly by: 'serial-number' | 'location' | 'only-one-of-its-kind';
    }
  | { readonly kind: 'ask'; readonly candidates: readonly ListedPort[] }
  | { readonly kind: 'absent' };

/** The one port of the list that has this identity; `ask` where several could be it. */
export function matchIdentity(wanted: PortIdentity, ports: readonly ListedPort[]): IdentityMatch {
  const possible = ports.filter(
    (port) => knowsAnything(port.identity) && compareIdentity(wanted, port.identity) !== 'another',
  );
  if (possible.length === 0) return { kind: 'absent' };
  const bySerial = possible.filter(
    (port) => compareSerialNumber(wanted.serialNumber, port.identity.serialNumber) === 'same',
  );
  const [onlyBySerial] = bySerial;
  if (onlyBySerial !== undefined && bySerial.length === 1)
    return { kind: 'found', port: onlyBySerial, by: 'serial-number' };
  // Two adapters with one serial number (cheap ones do that), or none at all: the place it is plugged in decides.
  const pool = bySerial.length > 1 ? bySerial : possible;
  const byLocation = pool.filter(
    (port) => compareClue(textKey(wanted.location), textKey(port.identity.location)) === 'same',
  );
  const [onlyByLocation] = byLocation;
  if (onlyByLocation !== undefined && byLocation.length === 1)
    return { kind: 'found', port: onlyByLocation, by: 'location' };
  const sameKind = pool.filter(
    (port) =>
      compareClue(hexKey(wanted.vendorId), hexKey(port.identity.vendorId)) === 'same' &&
      compareClue(hexKey(wanted.productId), hexKey(port.identity.productId)) === 'same',
  );
  const [onlyOfItsKind] = sameKind;
  // One of its kind and without a number on either side: moved to another socket. With a number wanted but not
  // shown, it may be another one.
  if (
    onlyOfItsKind !== undefined &&
    sameKind.length === 1 &&
    pool.length === 1 &&
    wanted.serialNumber === undefined
  )
    return { kind: 'found', port: onlyOfItsKind, by: 'only-one-of-its-kind' };
  return { kind: 'ask', candidates: pool };
}

/** In words: "1a2b:0042, number K-7, at usb-1". */
export function identityInWords(identity: PortIdentity): string {
  const clues = [
    identity.manufacturer,
    identity.vendorId === undefined ? undefined : `${identity.vendorId}:${identity.productId ?? '?'}`,
    identity.serialNumber === undefined ? undefined : `number ${identity.serialNumber}`,
    identity.location === undefined ? undefined : `at ${identity.location}`,
  ].filter((clue) => clue !== undefined);
  return clues.length === 0 ? 'no identity' : clues.join(', ');
}

/** Whether there is any clue at all. */
export function knowsAnything(identity: PortIdentity): boolean {
  return (
    identity.vendorId !== undefined || identity.serialNumber !== undefined || identity.location !== undefined
  );
}

function compareClue(wanted: string | undefined, found: string | undefined): IdentityVerdict {
  if (wanted === undefined || found === undefined) return 'unknown';
  return wanted === found ? 'same' : 'another';
}

/** Numbers that many adapters share are no clue. */
const EMPTY_NUMBERS = /^(?:0+|f+|1234567890?|0123456789(?:abcdef)?|n\/?a|none)$/;

function compareSerialNumber(wanted: string | undefined, found: string | undefined): IdentityVerdict {
  const a = serialKey(wanted);
  const b = serialKey(found);
  if (a === undefined || b === undefined) return 'unknown';
  if (a === b) return 'same';
  // FT0ABCDA is channel A of FT0ABCD.
  const [short, long] = a.length < b.length ? [a, b] : [b, a];
  return long.length === short.length + 1 && long.startsWith(short) && /[a-d]$/.test(long)
    ? 'same'
    : 'another';
}

function serialKey(text: string | undefined): string | undefined {
  const key = textKey(text);
  // Windows gives a part of the instance number of composite devices ("6&2c3d&0&0002"): no serial number.
  return key === undefined || EMPTY_NUMBERS.test(key) || key.includes('&') ? undefined : key;
}

function textKey(text: string | undefined): string | undefined {
  const key = text?.trim().toLowerCase();
  return key === undefined || key === '' ? undefined : key;
}

function hexKey(text: string | undefined): string | undefined {
  return textKey(text)?.replace(/^0x/, '').padStart(4, '0');
}
