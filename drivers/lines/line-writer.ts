/**
 * Lines as a readout of a given profile would send them: the reverse of parsing. For the simulated frame and for
 * tests, so that both use the very profiles that are read.
 */
import {
  type LineFormat,
  type ReadoutChannel,
  type ReadoutProfile,
  expectedUnitOf,
} from '../../core/contract/readout-profile.ts';
import { checkValue, writeCheck } from './line-check.ts';

/** What one channel shows: a decimal, or a word in its place. */
export type ShownField =
  | { readonly mantissa: number; readonly exponent: number }
  | { readonly word: string; readonly overload: boolean };

export interface LineWriterOptions {
  /** Characters of each number, filled up with blanks on the left. */
  readonly width?: number;
  readonly plusSign?: boolean;
}

/** Writes one line, terminator included; `shown` by the field's name. */
export function lineWriter(
  profile: ReadoutProfile,
  { width = 0, plusSign = false }: LineWriterOptions = {},
): (shown: ReadonlyMap<string, ShownField>) => Buffer {
  if (profile.format.kind === 'registers') throw new RangeError('registers are no lines');
  const format = profile.format;
  const terminator = terminatorText(profile);
  const channelOf = new Map(profile.channels.map((channel) => [channel.field, channel]));
  let sequence = 0;
  return (shown) => {
    const overload = [...shown.values()].some((field) => 'word' in field && field.overload);
    const texts = new Map<string, string>();
    for (const channel of profile.channels) {
      const field = shown.get(channel.field);
      const text = field === undefined ? '' : shownText(field, profile, { width, plusSign });
      const unit = expectedUnitOf(channel);
      if (channel.unit.kind === 'in-line' && channel.unit.field !== undefined)
        texts.set(channel.unit.field, unitText(channel));
      texts.set(
        channel.field,
        channel.unit.kind === 'in-line' && channel.unit.field === undefined ? `${text} ${unit}` : text,
      );
    }
    for (const status of profile.status)
      texts.set(status.field, (overload ? status.overload[0] : undefined) ?? status.good[0] ?? '');
    if (profile.sequence !== undefined) {
      texts.set(profile.sequence.field, String(sequence));
      sequence = (sequence + 1) % (profile.sequence.modulus ?? Infinity);
    }
    let line = layOut(format, texts, channelOf);
    const { leading = '', trailing = '' } = profile.framing;
    if (profile.check !== undefined) {
      const { check } = profile;
      const summed =
        (check.leadingSummed ? leading : '') +
        line.slice(check.skipped) +
        (check.markerSummed ? check.marker : '');
      line += check.marker + writeCheck(check, checkValue(check.kind, Buffer.from(summed, 'latin1')));
    }
    return Buffer.from(leading + line + trailing + terminator, 'latin1');
  };
}

function unitText(channel: ReadoutChannel): string {
  const unit = expectedUnitOf(channel);
  if (channel.unit.kind === 'fixed') return unit;
  const spelled = Object.entries(channel.unit.spellings ?? {}).find(([, symbol]) => symbol === unit);
  return spelled?.[0] ?? unit;
}

function terminatorText({ framing }: ReadoutProfile): string {
  if (typeof framing.terminator === 'object') return framing.terminator.custom;
  return { any: '\r\n', crlf: '\r\n', cr: '\r', lf: '\n' }[framing.terminator];
}

function shownText(
  field: ShownField,
  profile: ReadoutProfile,
  { width, plusSign }: Required<LineWriterOptions>,
): string {
  if ('word' in field) return field.word.padStart(width);
  const decimals = Math.max(0, -field.exponent);
  const digits = String(Math.abs(field.mantissa)) + '0'.repeat(Math.max(0, field.exponent));
  const padded = digits.padStart(decimals + 1, '0');
  const whole = padded.slice(0, padded.length - decimals);
  const text = decimals === 0 ? whole : `${whole}${profile.decimalSign}${padded.slice(-decimals)}`;
  const sign = field.mantissa < 0 ? '-' : plusSign ? '+' : '';
  return (sign + text).padStart(width);
}

function layOut(
  format: Exclude<LineFormat, { kind: 'registers' }>,
  texts: ReadonlyMap<string, string>,
  channels: ReadonlyMap<string, ReadoutChannel>,
): string {
  switch (format.kind) {
    case 'delimited':
      return format.fields.map((name) => texts.get(name) ?? '0').join(format.delimiter);
    case 'fixed-columns': {
      const end = Math.max(...format.columns.map((column) => column.start + column.length));
      let line = ' '.repeat(end);
      for (const { name, start, length } of format.columns) {
        const text = texts.get(name) ?? '';
        // Numbers to the right of their column, words to the left.
        const placed = channels.has(name) ? text.trim().padStart(length) : text.padEnd(length);
        line = line.slice(0, start) + placed.slice(-length) + line.slice(start + length);
      }
      return line;
    }
    case 'labelled':
      return format.fields
        .map(({ name, label }) => label + (texts.get(name) ?? ''))
        .join(format.between.charAt(0));
    case 'parts':
      return format.parts
        .map((part) => {
          if (part.part === 'text') return part.text;
          if (part.part === 'blanks') return ' ';
          return texts.get(part.name) ?? '';
        })
        .join('');
  }
}
