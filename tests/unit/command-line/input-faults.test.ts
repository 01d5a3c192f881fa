/** Wrong files given to the command line: each is one plain sentence that says where, what, and what to do. */
import { describe, expect, it } from 'vitest';
import { JSON_FILE_BYTES_MAX } from '../../../core/limits.ts';
import { shippedProfiles } from '../../../drivers/profiles.ts';
import { folderOfFiles, ran } from './in-process.ts';

const file = folderOfFiles();
const CURVE = 'time_s,force_N,extension_mm\n0,0,0\n1,100,0.01\n';
const FLAT = { kind: 'flat', width: '12.5 mm', thickness: '6 mm' };

interface Told {
  readonly code: number;
  readonly sentence: string;
  readonly field: string | undefined;
}

async function told(...args: string[]): Promise<Told> {
  const { code, out, err } = await ran(...args, '--json');
  const { error } = JSON.parse(out) as { error: { sentence: string; field?: string } };
  expect(err).toBe(error.sentence);
  return { code, sentence: error.sentence, field: error.field };
}

/** What a library would say, and what only the window has. */
const FOREIGN =
  /invalid|expected|received|undefined|NaN|zod|\bunion\b|regex|from the list|in the window|\bclick\b/i;

function isPlain({ code, sentence }: Told): void {
  expect(code).toBe(2);
  expect(sentence).not.toMatch(FOREIGN);
  expect(sentence).toMatch(/^[^\n]{20,400}\.$/);
}

describe('a specimen file', () => {
  it.each<[string, unknown, string, RegExp]>([
    ['without an id', { geometry: FLAT }, 'id', /missing; add it .*"T-1"/],
    ['with an empty id', { id: '', geometry: FLAT }, 'id', /empty; fill it in/],
    ['with a list for its id', { id: ['T-1'], geometry: FLAT }, 'id', /a list stands here; it must be text/],
    ['with a number for its id', { id: 7, geometry: FLAT }, 'id', /7 is a number; write it in quotation/],
    ['without a shape', { id: 'T-1' }, 'geometry', /missing; add it .*"kind"/],
    [
      'with a shape of no known kind',
      { id: 'T-1', geometry: { kind: 'cube' } },
      'geometry.kind',
      /"cube".*one of "flat", "round"/,
    ],
    ['without a kind', { id: 'T-1', geometry: {} }, 'geometry.kind', /missing; it must be one of/],
    [
      'without a width',
      { id: 'T-1', geometry: { kind: 'flat', thickness: '6 mm' } },
      'geometry.width',
      /missing; add it/,
    ],
    [
      'with a bare number',
      { id: 'T-1', geometry: { ...FLAT, width: 12.5 } },
      'geometry.width',
      /12\.5 has no unit; write/,
    ],
    [
      'with a number in text',
      { id: 'T-1', geometry: { ...FLAT, width: '12.5' } },
      'geometry.width',
      /"12\.5" has no unit; add one/,
    ],
    [
      'with one bare number among texts',
      { id: 'T-1', geometry: { ...FLAT, width: ['12.5 mm', 12] } },
      'geometry.width[1]',
      /12 has no unit/,
    ],
    [
      'with no measurement at all',
      { id: 'T-1', geometry: { ...FLAT, width: [] } },
      'geometry.width',
      /empty; give at least 1/,
    ],
    [
      'with an unknown unit',
      { id: 'T-1', geometry: { ...FLAT, width: '3 cubit' } },
      'geometry.width',
      /"cubit".*not known; use/,
    ],
    [
      'with a force for a length',
      { id: 'T-1', geometry: { ...FLAT, width: '3 N' } },
      'geometry.width',
      /length is needed/,
    ],
    [
      'with a width of zero',
      { id: 'T-1', geometry: { ...FLAT, width: '0 mm' } },
      'geometry.width',
      /not greater than zero/,
    ],
    [
      'with a negative width',
      { id: 'T-1', geometry: { ...FLAT, width: '-3 mm' } },
      'geometry.width',
      /not greater than zero/,
    ],
    [
      'with a gauge length of zero',
      { id: 'T-1', geometry: FLAT, gaugeLength: '0 in' },
      'gaugeLength',
      /not greater than zero/,
    ],
    [
      'with the number zero as gauge length',
      { id: 'T-1', geometry: FLAT, gaugeLength: 0 },
      'gaugeLength',
      /0 is not greater than zero and has no unit/,
    ],
    [
      'with a field that does not exist',
      { id: 'T-1', geometry: FLAT, lenght: '3 mm' },
      'lenght',
      /no such field here; remove it/,
    ],
    [
      'with a list where one value belongs',
      { id: 'T-1', geometry: FLAT, parallelLength: ['60 mm'] },
      'parallelLength',
      /a list stands here/,
    ],
    ['that is a list', [], 'specimen', /The specimen: a list stands here; it must be an object/],
  ])('%s', async (_, json, field, words) => {
    const fault = await told(
      'evaluate',
      file('c.csv', CURVE),
      '--specimen',
      file('s.json', JSON.stringify(json)),
    );
    isPlain(fault);
    expect(fault).toMatchObject({ sentence: expect.stringMatching(words) as unknown, field });
    // The sentence itself says where, too.
    if (field !== 'specimen') expect(fault.sentence).toContain(`s.json: ${field}: `);
  });

  it.each<[string, string | Uint8Array, RegExp]>([
    ['empty', '', /is empty; write it as JSON/],
    ['blank', ' \n\n', /is empty; write it as JSON/],
    [
      'huge',
      new Uint8Array(JSON_FILE_BYTES_MAX + 1),
      /has 2 MiB; at most 1 MiB are read; give the right file/,
    ],
    ['no JSON', '{"id": "T-1",\n "geometry": }', /is not JSON.*; check quotes/],
    ['UTF-16', new Uint8Array([0xff, 0xfe, 0x7b, 0]), /UTF-16 text; save it again as UTF-8/],
  ])('that is %s', async (_, content, words) => {
    const fault = await told('evaluate', file('c.csv', CURVE), '--specimen', file('s.json', content));
    isPlain(fault);
    expect(fault.sentence).toMatch(words);
  });

  it('that is not there', async () => {
    const fault = await told(
      'evaluate',
      file('c.csv', CURVE),
      '--specimen',
      file('s', '').replace(/s$/, 'nowhere'),
    );
    isPlain(fault);
    expect(fault.sentence).toMatch(/there is no such file\); check path/);
  });

  it('with several faults tells the first and how many more', async () => {
    const fault = await told(
      ...['evaluate', file('c.csv', CURVE), '--specimen'],
      file('s.json', JSON.stringify({ geometry: { kind: 'round' } })),
    );
    expect(fault.sentence).toContain('(1 more fault in this file.)');
  });
});

describe('a curve file', () => {
  it.each<[string, string, RegExp]>([
    ['empty', '', /The file is empty; give a CSV file with a header/],
    ['only comments', '# nothing\n', /no header and no readings.*; put/],
    ['no header', '0,1\n1,2\n', /Line 1 holds numbers.*put a header like/],
    ['no unit', 'time_s,force\n0,1\n', /Line 1: the column "force" has no unit; name it like/],
    ['an unknown unit', 'time_s,force_stone\n0,1\n', /Line 1: the unit "stone".*; name it like/],
    ['a unit of something else', 'time_s,force_mm\n0,1\n', /unit of length.*; name it like/],
    ['one quantity twice', 'force_N,force_kN\n0,1\n', /twice.*; leave one/],
    ['no known column', 'a,b\n1,2\n', /none of its columns.*; name them so/],
    ['no readings', 'time_s,force_N\n', /no readings below it; export/],
    [
      'a word for a number',
      'time_s,force_N\n0,1\n1,many\n',
      /Line 3 holds "many" in the column force_N.*; correct it/,
    ],
    ['a row that is short', 'time_s,force_N\n0\n', /Line 2 has 1 cell.*; leave a cell blank/],
    ['a decimal comma between commas', 'time_s,force_N\n0,0,5\n', /Line 2 has 3 cells.*semicolons or tabs/],
  ])('with %s', async (_, content, words) => {
    const fault = await told('evaluate', file('c.csv', content));
    isPlain(fault);
    expect(fault.sentence).toMatch(words);
  });
});

describe('a readout profile', () => {
  const profile = structuredClone(shippedProfiles()[0]) as unknown as Record<string, unknown>;
  const [channel] = profile['channels'] as Record<string, unknown>[];
  it.each<[string, object, string, RegExp]>([
    ['of no version', { schema: undefined }, 'schema', /missing; it must be "gaugemark/],
    ['without a name', { name: undefined }, 'name', /missing; add it as text/],
    [
      'with channels that are no list',
      { channels: 'force' },
      'channels',
      /"force" stands here; it must be a list/,
    ],
    ['without channels', { channels: [] }, 'channels', /empty; give at least 1/],
    [
      'with a quantity that does not exist',
      { channels: [{ ...channel, quantity: 'torque' }] },
      'channels[0].quantity',
      /"torque".*one of "time", "force"/,
    ],
    [
      'with a unit that does not exist',
      { channels: [{ ...channel, unit: { kind: 'fixed', unit: 'stone' } }] },
      'channels[0].unit.unit',
      /"stone" is not known/,
    ],
    [
      'with a field that the lines do not have',
      { channels: [{ ...channel, field: 'f9' }] },
      'channels[0].field',
      /no field "f9"; it has/,
    ],
    [
      'with a baud rate in text',
      { serial: { baudRate: '9600' } },
      'serial.baudRate',
      /must be a (?:whole )?number/,
    ],
    [
      'with a parity that does not exist',
      { serial: { baudRate: 9600, parity: 'maybe' } },
      'serial.parity',
      /one of "none", "even"/,
    ],
  ])('%s', async (_, change, field, words) => {
    const fault = await told(
      ...[
        'pull',
        '--port',
        '/dev/null',
        '--readout',
        file('r.json', JSON.stringify({ ...profile, ...change })),
      ],
      ...['--specimen', file('s.json', JSON.stringify({ id: 'T-1', geometry: FLAT }))],
    );
    isPlain(fault);
    expect(fault).toMatchObject({ field, sentence: expect.stringMatching(words) as unknown });
  });
});

describe('options', () => {
  it.each<[string, string[], RegExp]>([
    [
      'with a value that begins with a dash',
      ['--trigger', '-5 N'],
      /--trigger .*written --trigger=-1; "gaugemark help/,
    ],
    ['with an empty value', ['--operator', ''], /^--operator has an empty value/],
    ['with a value of blanks', ['--operator', '  '], /^--operator must be a name of 1 to/],
    ['with a value without end', ['--operator', 'x'.repeat(5000)], /^--operator must be a name of 1 to/],
    ['that there is not', ['--tigger', '5 N'], /^Unknown option '--tigger'; "gaugemark help pull"/],
  ])('%s are told in one sentence before anything is opened', async (_what, options, expected) => {
    const answer = await told(
      'pull',
      '--simulated',
      'quenched-steel',
      '--archive',
      file('never', ''),
      ...options,
    );
    isPlain(answer);
    expect(answer.sentence).toMatch(expected);
  });
});

describe('paper and its language where nothing is printed', () => {
  it.each<[string, string[], string, RegExp]>([
    ['beside a table', ['archive', 'search', '--csv', 'a.csv', '--language', 'es'], 'language', /--pdf FILE/],
    [
      'beside a workbook',
      ['archive', 'search', '--xlsx', 'a.xlsx', '--paper', 'Letter'],
      'paper',
      /--pdf FILE/,
    ],
    ['beside a list', ['archive', 'search', '--language', 'en'], 'language', /--pdf FILE/],
    ['of an instrument', ['instruments', 'show', '1', '--language', 'es'], 'language', /--pdf-out FILE/],
    ['of the register', ['instruments', 'list', '--paper', 'A4'], 'paper', /--pdf-out FILE/],
  ])('are refused %s', async (_, args, field, means) => {
    const said = await told(...args, '--archive', 'there-is-none.gaugemark');
    isPlain(said);
    expect(said.field).toBe(field);
    expect(said.sentence).toContain('nothing is printed here');
    expect(said.sentence).toMatch(means);
  });
});
