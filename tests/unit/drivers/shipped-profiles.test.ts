import { describe, expect, it } from 'vitest';
import { readoutProfile, type ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import { learnLines } from '../../../drivers/learn/learn-lines.ts';
import { type ShownField, lineWriter } from '../../../drivers/lines/line-writer.ts';
import { shippedProfiles } from '../../../drivers/profiles.ts';
import { momentsOf } from './invented-readouts.ts';
import { parseAll } from './profile-of.ts';

const withLines = shippedProfiles().filter((profile) => profile.format.kind !== 'registers');

/** What the channels of a profile show over a pull: exact decimals. */
function shownOver(profile: ReadoutProfile): ReadonlyMap<string, ShownField>[] {
  return momentsOf(120).map((moment) => {
    const of = {
      force: moment.newtons / 10,
      extension: moment.extensionMm,
      travel: moment.travelMm,
      time: moment.seconds,
    };
    return new Map(
      profile.channels.map((channel) => {
        const value =
          channel.quantity === 'force' ||
          channel.quantity === 'extension' ||
          channel.quantity === 'travel' ||
          channel.quantity === 'time'
            ? of[channel.quantity]
            : 0;
        const exponent = channel.quantity === 'force' ? -1 : channel.quantity === 'extension' ? -4 : -2;
        return [channel.field, { mantissa: Math.round(value * 10 ** -exponent) + 0, exponent }] as const;
      }),
    );
  });
}

describe.each(withLines.map((profile) => [profile.name, profile] as const))(
  'the profile "%s"',
  (_name, profile) => {
    it('reads back, exactly, what a readout of its make writes', () => {
      const write = lineWriter(profile);
      const shown = shownOver(profile);
      const lines = parseAll(profile, shown.map((fields) => write(fields).toString('latin1')).join(''));
      expect(lines).toHaveLength(shown.length);
      lines.forEach((line, index) => {
        if (line.outcome.kind !== 'reading') throw new Error(line.outcome.sentence);
        expect(line.outcome.reading.status).toBe('ok');
        profile.channels.forEach((channel, at) => {
          const reading = line.outcome.kind === 'reading' ? line.outcome.reading.channels[at] : undefined;
          const wanted = shown[index]?.get(channel.field);
          expect({ mantissa: reading?.mantissa, exponent: reading?.exponent }).toEqual(wanted);
        });
      });
    });

    it('is learned from its own lines: as many channels, and the units where the lines say them', () => {
      const write = lineWriter(profile);
      const bytes = Buffer.concat(shownOver(profile).map((fields) => write(fields)));
      const learnt = learnLines(bytes);
      expect(learnt?.channels).toHaveLength(profile.channels.length);
      expect(learnt?.readings).toBeGreaterThanOrEqual(119);
      profile.channels.forEach((channel, index) => {
        if (channel.unit.kind === 'in-line') {
          expect(learnt?.channels[index]?.unit).toBe(channel.unit.expected);
          expect(learnt?.channels[index]?.quantity).toBe(channel.quantity);
        }
      });
    });
  },
);

describe('a profile file', () => {
  const base = shippedProfiles()[0];

  it.each<[string, object, RegExp]>([
    [
      'overlapping columns',
      {
        format: {
          kind: 'fixed-columns',
          columns: [
            { name: 'load', start: 0, length: 8 },
            { name: 'b', start: 6, length: 4 },
          ],
        },
        channels: [{ field: 'load', quantity: 'force', unit: { kind: 'fixed', unit: 'N' } }],
        status: [],
      },
      /overlap/,
    ],
    [
      'a channel of a field that is not there',
      { channels: [{ field: 'nothing', quantity: 'force', unit: { kind: 'fixed', unit: 'N' } }] },
      /no field "nothing"/,
    ],
    [
      'a unit of another dimension',
      { channels: [{ field: 'load', quantity: 'force', unit: { kind: 'fixed', unit: 'mm' } }] },
      /no unit of force/,
    ],
    [
      'a scale of zero',
      { channels: [{ field: 'load', quantity: 'force', unit: { kind: 'fixed', unit: 'N' }, scale: '0' }] },
      /scale of zero/,
    ],
    ['one sign for decimals and thousands', { decimalSign: ',', groupSign: ',' }, /must differ/],
    [
      'two fields of one name',
      {
        format: {
          kind: 'delimited',
          delimiter: ',',
          fields: ['state', 'load', 'load', 'time', 'extension', 'travel'],
        },
      },
      /two fields are named/,
    ],
    [
      'a polled readout without its request',
      { mode: { kind: 'polled', intervalMs: 10, timeoutMs: 100 } },
      /request/,
    ],
    ['a terminator beyond bytes', { framing: { terminator: { custom: '\u20ac' } } }, /one byte|Invalid/],
    ['a field of its own invention', { pattern: '(a+)+$' }, /[Uu]nrecognized/],
  ])('with %s is refused with a sentence', (_name, change, sentence) => {
    const outcome = readoutProfile.safeParse({ ...base, ...change });
    expect(outcome.success).toBe(false);
    expect(outcome.success ? '' : outcome.error.issues.map((issue) => issue.message).join(' ')).toMatch(
      sentence,
    );
  });
});
