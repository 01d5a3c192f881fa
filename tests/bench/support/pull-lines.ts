/**
 * The lines that the measurements send: 24 bytes each, load in N and extension in mm, a rising and then flat curve
 * with noise. Seeded: the same lines every time. A line of 0.1 N and 0.1 µm has more digits than most readouts show,
 * so what is measured with them (processor, disk) is on the large side.
 */
import { type ReadoutProfile, readoutProfile } from '../../../core/contract/readout-profile.ts';

export const LINE_BYTES = 24;

/** Readings to the largest load: four minutes at 1 000 a second. */
const RISE_READINGS = 240_000;
const LARGEST_LOAD_N = 58_000;
const EXTENSION_MM_PER_READING = 0.000_05;
const LOAD_NOISE_N = 2.5;
const EXTENSION_NOISE_MM = 0.000_3;

export const PROFILE: ReadoutProfile = readoutProfile.parse({
  schema: 'gaugemark.readout-profile/1',
  name: 'lines of 24 bytes',
  serial: { baudRate: 921_600 },
  format: { kind: 'delimited', delimiter: ',', fields: ['load', 'extension'] },
  channels: [
    { field: 'load', quantity: 'force', unit: { kind: 'fixed', unit: 'N' } },
    { field: 'extension', quantity: 'extension', unit: { kind: 'fixed', unit: 'mm' } },
  ],
});

export const SPECIMEN = {
  id: 'BENCH-1',
  geometry: { kind: 'flat', width: '20.10 mm', thickness: '6.20 mm' },
  gaugeLength: '50 mm',
} as const;

/** Never starts, breaks or closes by itself. */
export const BY_HAND = {
  trigger: { kind: 'by-hand' },
  breakRule: { kind: 'by-hand' },
  tailS: null,
  heldOpenS: null,
} as const;

/** A number from 0 to 1 that depends on its two arguments only. */
function noise(index: number, kind: number): number {
  let mixed = Math.imul(index ^ (kind * 0x9e3779b1), 0x85ebca6b);
  mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
  return ((mixed ^ (mixed >>> 16)) >>> 0) / 4_294_967_296;
}

/** Nearly normal, standard deviation 1. */
const normal = (index: number, kind: number): number =>
  (noise(index, kind) + noise(index, kind + 1) + noise(index, kind + 2) + noise(index, kind + 3) - 2) *
  Math.sqrt(3);

export function loadOf(index: number): number {
  const way = Math.min(index / RISE_READINGS, 1);
  return 30 + LARGEST_LOAD_N * (1 - (1 - way) ** 6) + LOAD_NOISE_N * normal(index, 1);
}

export function extensionOf(index: number): number {
  return index * EXTENSION_MM_PER_READING + EXTENSION_NOISE_MM * normal(index, 11);
}

export function lineOf(index: number): string {
  return `${fixed(loadOf(index), 1, 10)},${fixed(extensionOf(index), 4, 11)}\r\n`;
}

function fixed(value: number, places: number, width: number): string {
  const digits = Math.abs(value).toFixed(places);
  return `${value < 0 ? '-' : '+'}${digits.padStart(width - 1, '0')}`;
}

/** Lines `from` to `from + count`, joined. */
export function linesBytes(from: number, count: number): Buffer {
  const bytes = Buffer.alloc(count * LINE_BYTES);
  for (let i = 0; i < count; i++) bytes.write(lineOf(from + i), i * LINE_BYTES, 'latin1');
  return bytes;
}
