import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LINES_BEFORE_SYNC_MAX, LINE_BYTES_MAX } from '../../../core/limits.ts';
import { createParser } from '../../../drivers/create-parser.ts';
import { uniformRandom } from '../../../drivers/simulated-frame/random.ts';
import { QUIET_BEFORE_LINE_MS } from '../../../drivers/lines/line-parser.ts';
import { asText, fixed, inLine, inShort, latin1, loadProfile, parseAll, profileOf } from './profile-of.ts';

describe('a delimited line', () => {
  it('becomes a reading with exact decimals and their units', () => {
    expect(parseAll(profileOf(), '0.100,1234.50,-0.0312\r\n').map(inShort)).toEqual([
      '100e-3 s; 123450e-2 N; -312e-4 mm',
    ]);
  });

  it('knows the chunk in which it ended and its place there', () => {
    const parser = createParser(loadProfile());
    parser.push(7, Buffer.from('1\n2'), 0);
    const [second, third] = parser.push(8, Buffer.from('2\n3\n'), 0);
    expect(second?.outcome).toMatchObject({ kind: 'reading', reading: { chunkSeq: 8, lineIndex: 0 } });
    expect(third?.outcome).toMatchObject({ kind: 'reading', reading: { chunkSeq: 8, lineIndex: 1 } });
  });

  it('does not fit with a field more or less: nothing slips into another column (N5)', () => {
    const lines = parseAll(profileOf(), '0.1,100,0.1\n0.2,0.2\n0.3,300,0.3,9\n0.4,,0.4\n');
    expect(lines.map(inShort)).toEqual([
      '1e-1 s; 100e0 N; 1e-1 mm',
      'misfit layout',
      'misfit layout',
      '4e-1 s; blank; 4e-1 mm',
    ]);
    expect(latin1(lines[1])).toBe('0.2,0.2');
  });

  it('keeps its layout while the padding grows (N5)', () => {
    const profile = profileOf({
      format: {
        kind: 'delimited',
        delimiter: ' ',
        mergeRepeated: true,
        fields: ['time', 'load', 'extension'],
      },
    });
    expect(
      parseAll(profile, '  0.1     99  0.1\n 10.1   1000 10.1\n  0.2         0.2\n').map(inShort),
    ).toEqual(['1e-1 s; 99e0 N; 1e-1 mm', '101e-1 s; 1000e0 N; 101e-1 mm', 'misfit layout']);
  });
});

describe('what is shown instead of a number is a status, never 0 and never the last value (N2)', () => {
  it.each([
    ['OL', 'overload'],
    ['-OL', 'overload'],
    ['ol ', 'overload'],
    ['inf', 'overload'],
    ['^^^^^', 'overload'],
    ['------', 'blank'],
    ['- - - -', 'blank'],
    ['', 'blank'],
    ['    ', 'blank'],
    ['Err', 'error-word'],
    ['Err 05', 'error-word'],
    ['E-12', 'error-word'],
    ['nan', 'error-word'],
  ])('%j is %s', (field, status) => {
    const lines = parseAll(profileOf(), `0.1,500,1\n0.2,${field},1\n`);
    expect(lines.map(inShort)).toEqual(['1e-1 s; 500e0 N; 1e0 mm', `2e-1 s; ${status}; 1e0 mm`]);
  });

  it('takes the words of the profile before the number that they look like', () => {
    const profile = loadProfile({ words: { overload: ['99999'], blank: ['HOLD'], error: [] } });
    expect(parseAll(profile, '99999\n9999\nhold\n').map(inShort)).toEqual(['overload', '9999e0 N', 'blank']);
  });

  it('flags a number with something behind it as malformed, beside good channels', () => {
    expect(parseAll(profileOf(), '0.1,12.5abc,1\n').map(inShort)).toEqual(['1e-1 s; malformed; 1e0 mm']);
    expect(parseAll(loadProfile(), '12.5abc\n').map(inShort)).toEqual(['misfit before-sync']);
  });

  it('marks values outside the believed range and keeps them as shown', () => {
    const channels = [
      { field: 'load', quantity: 'force' as const, unit: fixed('kN'), range: { min: '-1', max: '50' } },
    ];
    expect(parseAll(loadProfile({ channels }), '49.9\n50.1\n-1.01\n').map(inShort)).toEqual([
      '499e-1 kN',
      '501e-1 kN out-of-range',
      '-101e-2 kN out-of-range',
    ]);
  });
});

describe('a line of another layout', () => {
  const profile = profileOf({
    format: { kind: 'delimited', delimiter: ',', fields: ['time', 'load', 'extension'] },
    channels: [
      { field: 'time', quantity: 'time', unit: { kind: 'fixed', unit: 's' } },
      { field: 'load', quantity: 'force', unit: { kind: 'fixed', unit: 'kN' } },
      { field: 'extension', quantity: 'extension', unit: { kind: 'fixed', unit: 'mm' } },
    ],
  });

  it('is no reading, even where it splits into as many fields and one of them looks like a number', () => {
    expect(parseAll(profile, '0.2,10.1,0.002\n0.3;102,0;0,003\n').map(inShort)[1]).toBe('misfit layout');
  });

  it('is not suspected where the load is a number, whatever stands beside it', () => {
    expect(parseAll(profile, '0.2,10.1,0.002\n12:34:56,10.2,1.2.3\n').map(inShort)[1]).toContain('102e-1 kN');
  });

  it('is not suspected where words that are not known stand for what is not connected', () => {
    expect(parseAll(profile, '0.2,10.1,0.002\n0.3,NC,NC\n').map(inShort)[1]).not.toMatch(/^misfit/);
  });
});

describe('the unit is part of every reading (N1)', () => {
  const channels = [{ field: 'load', quantity: 'force' as const, unit: inLine('kN') }];

  it('is read from the line, and the reading on which it changes is marked', () => {
    expect(
      parseAll(loadProfile({ channels }), '1.5 kN\n1.6kN\n360 lbf\n361 LBF\n1.7 kN\n').map(inShort),
    ).toEqual(['15e-1 kN', '16e-1 kN', '360e0 lbf [unit-changed]', '361e0 lbf', '17e-1 kN [unit-changed]']);
  });

  it('is never assumed: a unit that is missing, unknown or of another dimension makes no value', () => {
    expect(parseAll(loadProfile({ channels }), '1.5 kN\n1.5\n1.5 qq\n1.5 mm\n').map(inShort)).toEqual([
      '15e-1 kN',
      'misfit no-number',
      'misfit no-number',
      'misfit no-number',
    ]);
  });

  it('may stand in a field of its own, in the readout’s own spelling', () => {
    const profile = profileOf({
      format: { kind: 'delimited', delimiter: ',', fields: ['load', 'unit'] },
      channels: [
        {
          field: 'load',
          quantity: 'force',
          unit: { kind: 'in-line', expected: 'lbf', field: 'unit', spellings: { P: 'lbf', K: 'kN' } },
        },
      ],
    });
    expect(parseAll(profile, '12,P\n13,K\n14,?\n').map(inShort)).toEqual([
      '12e0 lbf',
      '13e0 kN [unit-changed]',
      'misfit no-number',
    ]);
  });
});

describe('status fields', () => {
  const profile = profileOf({
    format: { kind: 'delimited', delimiter: ',', fields: ['state', 'time', 'load'] },
    channels: [
      { field: 'time', quantity: 'time', unit: fixed('s') },
      { field: 'load', quantity: 'force', unit: fixed('N') },
    ],
    status: [{ field: 'state', good: ['ST', 'US'], overload: ['OL'], error: ['ER'] }],
  });

  it('take the number beside an overload for no value, whatever it says', () => {
    expect(parseAll(profile, 'ST,0.1,10\nOL,0.2,10\nUS,0.3,11\n').map(inShort)).toEqual([
      '1e-1 s; 10e0 N',
      '2e-1 s; overload [overload]',
      '3e-1 s; 11e0 N',
    ]);
  });

  it('take a word that nobody has named for an error', () => {
    expect(parseAll(profile, 'ST,0.1,10\nXX,0.2,10\n').map(inShort)[1]).toBe(
      '2e-1 s; error-word [error-word]',
    );
  });
});

describe('the first line after opening (S7)', () => {
  const openedUs = 1_000_000;
  const soon = openedUs + 1_000;
  const later = openedUs + QUIET_BEFORE_LINE_MS * 1000;

  it('is not believed when it was under way: "1234.5" cut to "4.5" looks like a number', () => {
    const parser = createParser(loadProfile(), { openedUs });
    expect(parser.push(0, Buffer.from('4.5\r\n1234.6\r\n'), soon).map(inShort)).toEqual([
      'misfit before-sync',
      '12346e-1 N',
    ]);
  });

  it('is believed when nothing came for a while before it', () => {
    const parser = createParser(loadProfile(), { openedUs });
    expect(parser.push(0, Buffer.from('1234.5\r\n'), later).map(inShort)).toEqual(['12345e-1 N']);
  });

  it('is believed when its beginning is marked', () => {
    const marked = loadProfile({ framing: { terminator: 'any', leading: '\u0002' } });
    const parser = createParser(marked, { openedUs });
    expect(parser.push(0, Buffer.from('\u00021234.5\r\n'), soon).map(inShort)).toEqual(['12345e-1 N']);
    const other = createParser(marked, { openedUs });
    expect(other.push(0, Buffer.from('4.5\r\n\u000212\r\n'), soon).map(inShort)).toEqual([
      'misfit before-sync',
      '12e0 N',
    ]);
  });

  it('may be preceded by any noise, which is kept and stops nothing', () => {
    const parser = createParser(profileOf(), { openedUs });
    const noise = Buffer.from([0xff, 0x00, 0x13, 0x0d, 0x42, 0x6f, 0x6f, 0x74, 0x0a]);
    const lines = parser.push(0, Buffer.concat([noise, Buffer.from('0.1,1,1\n0.2,2\n')]), later);
    expect(lines.map(inShort)).toEqual([
      'misfit before-sync',
      'misfit before-sync',
      '1e-1 s; 1e0 N; 1e0 mm',
      'misfit layout',
    ]);
  });
});

describe('lines of another readout than the profile’s', () => {
  it('are a missed beginning no longer once there are too many of them', () => {
    const lines = parseAll(profileOf(), 'ST,GS,+0012.34kN,0\n'.repeat(LINES_BEFORE_SYNC_MAX + 2));
    expect(lines.slice(-3).map(inShort)).toEqual(['misfit before-sync', 'misfit layout', 'misfit layout']);
  });
});

describe('the tail of an opening (S6)', () => {
  it('is kept raw and never joined to the next opening', () => {
    const first = createParser(loadProfile());
    first.push(0, Buffer.from('10\n12'), 0);
    const [tail] = first.end();
    expect(latin1(tail)).toBe('12');
    expect(tail === undefined ? '' : inShort(tail)).toBe('misfit incomplete');
    const second = createParser(loadProfile());
    expect(second.push(0, Buffer.from('3.5\n'), 0).map(inShort)).toEqual(['35e-1 N']);
  });
});

describe('lines that were lost or damaged on the way (S18)', () => {
  it('show in a sequence number whose turn nobody knows, but not as it begins anew', () => {
    const profile = profileOf({
      format: { kind: 'delimited', delimiter: ',', fields: ['n', 'load'] },
      channels: [{ field: 'load', quantity: 'force', unit: fixed('N') }],
      sequence: { field: 'n' },
    });
    expect(parseAll(profile, '63,1\n0,2\n1,3\n4,4\n').map(inShort)).toEqual([
      '1e0 N',
      '2e0 N',
      '3e0 N',
      '4e0 N [sequence-jump]',
    ]);
  });

  it('show in the sequence number', () => {
    const profile = profileOf({
      format: { kind: 'delimited', delimiter: ',', fields: ['n', 'load'] },
      channels: [{ field: 'load', quantity: 'force', unit: fixed('N') }],
      sequence: { field: 'n', modulus: 10 },
    });
    expect(parseAll(profile, '8,1\n9,2\n0,3\n2,4\n3,5\n').map(inShort)).toEqual([
      '1e0 N',
      '2e0 N',
      '3e0 N',
      '4e0 N [sequence-jump]',
      '5e0 N',
    ]);
  });

  it('show in the check: a line that lost a digit is no reading', () => {
    const profile = loadProfile({ check: { kind: 'xor', marker: '*', written: 'hex-upper' } });
    // Worked by hand: 0x31 ^ 0x32 ^ 0x33 = 0x30.
    expect(parseAll(profile, '123*30\n13*30\n123*31\n').map(inShort)).toEqual([
      '123e0 N',
      'misfit check-wrong',
      'misfit check-wrong',
    ]);
  });
});

describe('lines that arrive in a burst (S19)', () => {
  it('share the chunk in which they came and keep their order in it', () => {
    const lines = createParser(loadProfile()).push(5, Buffer.from('1\n2\n3\n4\n'), 16_000);
    const places = lines.map(({ outcome }) =>
      outcome.kind === 'reading' ? [outcome.reading.chunkSeq, outcome.reading.lineIndex] : [],
    );
    expect(places).toEqual([
      [5, 0],
      [5, 1],
      [5, 2],
      [5, 3],
    ]);
    expect(lines.map(inShort)).toEqual(['1e0 N', '2e0 N', '3e0 N', '4e0 N']);
  });
});

describe('numbers that a database could change quietly (N6)', () => {
  it('are never given out: no NaN, no infinity, no whole number beyond 2^53', () => {
    const lines = parseAll(loadProfile(), '1\nNaN\nInfinity\n9007199254740993\n1e999\n');
    const mantissas = lines.flatMap(({ outcome }) =>
      outcome.kind === 'reading' ? outcome.reading.channels.map(({ mantissa }) => mantissa) : [],
    );
    expect(mantissas).toEqual([1, null, null, 900719925474099]);
    expect(lines.map(inShort)).toEqual([
      '1e0 N',
      'error-word',
      'overload',
      '900719925474099e1 N',
      'misfit no-number',
    ]);
  });
});

describe('any bytes at all', () => {
  it('never throw, and what was read does not depend on the chunks', () => {
    const profiles = [loadProfile(), profileOf()];
    const text = fc.array(
      fc.oneof(
        fc.stringMatching(/^[0-9]{1,3}\.[0-9],[0-9]{1,4},-?[0-9]\r?\n$/),
        fc.uint8Array({ maxLength: 12 }).map(asText),
        fc.constantFrom('\r', '\n', '12.5\r\n'),
      ),
      { maxLength: 12 },
    );
    fc.assert(
      fc.property(
        fc.constantFrom(...profiles),
        text,
        fc.integer({ min: 1, max: 9 }),
        (profile, pieces, size) => {
          const bytes = Buffer.from(pieces.join(''), 'latin1');
          const parser = createParser(profile);
          const lines = [];
          for (let at = 0; at < bytes.length; at += size)
            lines.push(...parser.push(at, bytes.subarray(at, at + size), 0));
          lines.push(...parser.end());
          expect(lines.map(inShort)).toEqual(parseAll(profile, bytes.toString('latin1')).map(inShort));
        },
      ),
      { numRuns: 200 },
    );
  });
});

it('a format that changes half way gives no more readings, and what still fits is read as before (N5)', () => {
  const lines = parseAll(
    profileOf(),
    ['0.1,100.0,0.001', 'L=101.0 X=0.002', '0.3;102.0;0.003', '0.4,103.0', '0.5,104.0,0.005', ''].join('\n'),
  );
  expect(lines.map(inShort)).toEqual([
    '1e-1 s; 1000e-1 N; 1e-3 mm',
    'misfit layout',
    'misfit layout',
    'misfit layout',
    '5e-1 s; 1040e-1 N; 5e-3 mm',
  ]);
});

it('64 MB of noise, every byte value in it, make no value and hold no more than a line', () => {
  const random = uniformRandom(3);
  const block = Buffer.from(
    Array.from({ length: 65_536 }, (_, i) => (i < 256 ? i : Math.floor(random() * 256))),
  );
  const parser = createParser(profileOf());
  let bytes = 0;
  let values = 0;
  for (let chunk = 0; chunk < 1024; chunk++) {
    for (const line of parser.push(chunk, block, chunk * 1000)) {
      bytes += line.bytes.length;
      if (line.outcome.kind !== 'reading') continue;
      // A lone dash among the noise is a blank field; nothing is a number.
      if (line.outcome.reading.channels.some(({ mantissa }) => mantissa !== null)) values++;
    }
    expect(parser.counts().bytesWithoutLine).toBeLessThanOrEqual(LINE_BYTES_MAX + block.length);
  }
  expect(values).toBe(0);
  expect(bytes).toBeGreaterThan(50 * 1024 * 1024);
});
