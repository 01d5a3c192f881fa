/**
 * A source written as one text, for wherever a port can be typed: a path is a serial port; anything else says its kind
 * first ("tcp:10.0.0.7:4001", "modbus-tcp:10.0.0.7:502#1", "modbus-rtu:/dev/ttyUSB0#1", "replay:FILE").
 */
import { type PullSource, type Source, source } from './source.ts';

const KINDS = ['tcp', 'modbus-tcp', 'modbus-rtu', 'replay'] as const;
type AddressedKind = (typeof KINDS)[number];

/** How each kind is written; the same words stand in the help of the command line and in what is said of a mistake. */
export const ADDRESS_FORMS: Readonly<Record<AddressedKind, string>> = {
  tcp: 'tcp:HOST:PORT',
  'modbus-tcp': 'modbus-tcp:HOST:PORT#UNIT',
  'modbus-rtu': 'modbus-rtu:PATH#UNIT',
  replay: 'replay:FILE',
};

/** Unit that is asked where none is written: the one that most instruments have when they are new (from memory). */
const UNIT_USUAL = 1;
/** As registered for Modbus with IANA (from memory). */
const MODBUS_PORT = 502;

type AddressOutcome =
  | { readonly ok: true; readonly source: Source }
  | { readonly ok: false; readonly sentence: string };

/** What was typed, as a source; blanks around it don't count. */
export function sourceFromAddress(text: string): AddressOutcome {
  const typed = text.trim();
  const kind = KINDS.find((one) => typed.startsWith(`${one}:`));
  const read = source.safeParse(
    kind === undefined ? { kind: 'serial', path: typed } : addressed(kind, typed.slice(kind.length + 1)),
  );
  if (read.success) return { ok: true, source: read.data };
  return {
    ok: false,
    sentence:
      kind === undefined
        ? 'A port needs a path, for example /dev/ttyUSB0 or COM3.'
        : `"${typed.slice(0, 60)}" is no address of this kind; write it as ${ADDRESS_FORMS[kind]}.`,
  };
}

/** The text that `sourceFromAddress` reads as this source; null where nothing is typed for it (simulated, imported). */
export function addressOf(given: PullSource): string | null {
  switch (given.kind) {
    case 'serial':
      return given.path;
    case 'tcp':
      return `tcp:${hostWritten(given.host)}:${String(given.port)}`;
    case 'modbus-tcp':
      return `modbus-tcp:${hostWritten(given.host)}:${String(given.port)}#${String(given.unitId)}`;
    case 'modbus-rtu':
      return `modbus-rtu:${given.path}#${String(given.unitId)}`;
    case 'replay':
      return `replay:${given.file}`;
    case 'simulated':
    case 'typed':
    case 'imported':
      return null;
  }
}

/** Unchecked: `source` says whether it is one. */
function addressed(kind: AddressedKind, rest: string): unknown {
  if (kind === 'replay') return { kind, file: rest };
  const [, place = '', unit] = /^(.*?)(?:#(\d{1,3}))?$/.exec(rest) ?? [];
  const unitId = unit === undefined ? UNIT_USUAL : Number(unit);
  if (kind === 'modbus-rtu') return { kind, path: place, unitId };
  const { host, port } = hostAndPort(place);
  return kind === 'tcp' ? { kind, host, port } : { kind, host, port: port ?? MODBUS_PORT, unitId };
}

/** "[::1]:4001" as well as "10.0.0.7:4001"; a host alone has no port. */
function hostAndPort(place: string): { host: string; port: number | undefined } {
  const [, six, plain, digits] = /^(?:\[([^\][]+)\]|([^:\][/#\s]+))(?::(\d{1,5}))?$/.exec(place) ?? [];
  return { host: six ?? plain ?? '', port: digits === undefined ? undefined : Number(digits) };
}

const hostWritten = (host: string): string => (host.includes(':') ? `[${host}]` : host);
