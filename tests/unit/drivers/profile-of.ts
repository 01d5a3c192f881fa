import {
  READOUT_PROFILE_SCHEMA,
  type ReadoutProfile,
  type ReadoutProfileFile,
  readoutProfile,
} from '../../../core/contract/readout-profile.ts';
import { createParser } from '../../../drivers/create-parser.ts';
import type { ParsedLine } from '../../../drivers/reading.ts';

export const fixed = (unit: string): { kind: 'fixed'; unit: 'N' } => ({ kind: 'fixed', unit: unit as 'N' });
export const inLine = (
  expected: string,
  field?: string,
): { kind: 'in-line'; expected: 'N'; field?: string } => ({
  kind: 'in-line',
  expected: expected as 'N',
  ...(field === undefined ? {} : { field }),
});

/** A profile out of what matters to a test; three comma-separated fields by default. */
export function profileOf(parts: Partial<ReadoutProfileFile> = {}): ReadoutProfile {
  return readoutProfile.parse({
    schema: READOUT_PROFILE_SCHEMA,
    name: 'test readout',
    format: { kind: 'delimited', delimiter: ',', fields: ['time', 'load', 'extension'] },
    channels: [
      { field: 'time', quantity: 'time', unit: fixed('s') },
      { field: 'load', quantity: 'force', unit: fixed('N') },
      { field: 'extension', quantity: 'extension', unit: fixed('mm') },
    ],
    ...parts,
  });
}

/** One number a line, in newtons unless told. */
export function loadProfile(parts: Partial<ReadoutProfileFile> = {}): ReadoutProfile {
  return profileOf({
    format: { kind: 'delimited', delimiter: ',', fields: ['load'] },
    channels: [{ field: 'load', quantity: 'force', unit: fixed('N') }],
    ...parts,
  });
}

/** All lines of a text, read in one piece from a line's beginning. */
export function parseAll(profile: ReadoutProfile, text: string): ParsedLine[] {
  const parser = createParser(profile);
  return [...parser.push(0, Buffer.from(text, 'latin1'), 0), ...parser.end()];
}

/** In short: "12.50 N ok; blank" or "misfit layout". */
export function inShort({ outcome }: ParsedLine): string {
  if (outcome.kind === 'misfit') return `misfit ${outcome.reason}`;
  const { channels, status } = outcome.reading;
  const values = channels.map(({ mantissa, exponent, unit, status: state }) =>
    mantissa === null
      ? state
      : `${String(mantissa)}e${String(exponent)} ${unit}${state === 'ok' ? '' : ` ${state}`}`,
  );
  return values.join('; ') + (status === 'ok' ? '' : ` [${status}]`);
}

/** Bytes as text, one character a byte. */
export function asText(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('latin1');
}

export function latin1(line: ParsedLine | undefined): string | undefined {
  return line === undefined ? undefined : asText(line.bytes);
}
