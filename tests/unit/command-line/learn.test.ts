/** `gaugemark learn --channel`: what a person says about fields, and how it can be wrong. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { folderOfFiles, ran } from './in-process.ts';

const file = folderOfFiles();
const BYTES = Array.from(
  { length: 60 },
  (_, i) =>
    `${(i * 0.02).toFixed(3)},${String(100 + ((i * 37) % 50))},${(((i * i) % 7) / 100).toFixed(3)}\r\n`,
).join('');

describe('gaugemark learn --channel', () => {
  it('writes quantity and unit into the profile', async () => {
    const { code, out } = await ran(
      ...['learn', '--bytes', file('b.txt', BYTES), '--json'],
      ...['--channel', '2=force:lbf', '--channel', '3=extension:in'],
    );
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({
      channels: [
        { quantity: 'time' },
        { quantity: 'force', unit: 'lbf' },
        { quantity: 'extension', unit: 'in' },
      ],
      profile: { channels: [{}, { quantity: 'force', unit: { kind: 'fixed', unit: 'lbf' } }, {}] },
    });
  });

  it('answers a program with the profile and how far it is believed, and nothing else; remarks stand beside it', async () => {
    const { out, err } = await ran('learn', '--bytes', file('b.txt', BYTES), '--json');
    const document = JSON.parse(out) as { channels: object[] };
    expect(Object.keys(document)).toEqual(['profile', 'confidence', 'channels', 'readings', 'rejected']);
    expect(document.channels.map(Object.keys)).toEqual(Array(3).fill(['field', 'quantity', 'unit']));
    expect(err).toContain('press on the frame and see which number moves');
  });

  it('is proposed where a field is open, and said to be needed for a pull', async () => {
    const { out } = await ran('learn', '--bytes', file('b.txt', BYTES));
    expect(out).toContain('--channel 2=force:N --channel 3=extension:mm');
    expect(out).toContain('"gaugemark pull" needs a field that is the force.');
  });

  it('tells in short what was found where the profile goes into a file', async () => {
    const bytes = file('b.txt', BYTES);
    const saved = bytes.replace('b.txt', `saved-${String(process.pid)}.json`);
    const { code, out } = await ran('learn', '--bytes', bytes, '--channel', '2=force:lbf', '--save', saved);
    expect(code).toBe(0);
    expect(out).toMatch(/^Confidence 0\.\d\d; 60 lines read, 0 rejected\./);
    expect(out).toContain('field 2: force, lbf');
    expect(out).toContain(`is saved in ${saved}`);
    expect(out.split('\n').length).toBeLessThan(12);
    expect(JSON.parse(readFileSync(saved, 'utf8'))).toMatchObject({ schema: 'gaugemark.readout-profile/1' });
  });

  it.each([
    ['2', /write it as FIELD=QUANTITY:UNIT/],
    ['2=torque:N', /"torque" is no quantity.*time, force/],
    ['2=force:mm', /"mm" is no unit of force; write for example 2=force:N/],
    ['2=force:stone', /"stone" is no unit of force/],
    ['2=force', /does not say the unit of field 2; add it/],
    ['9=force:N', /no number in a field "9"; the fields with numbers are 1, 2, 3/],
  ])('%s is refused with a sentence', async (text, words) => {
    const { code, err } = await ran('learn', '--bytes', file('b.txt', BYTES), '--channel', text);
    expect([code, err]).toEqual([2, expect.stringMatching(words)]);
  });

  it('refuses one quantity for two fields', async () => {
    const { code, err } = await ran(
      ...['learn', '--bytes', file('b.txt', BYTES), '--channel', '2=force:N', '--channel', '3=force:N'],
    );
    expect([code, err]).toEqual([2, expect.stringContaining('given to two fields')]);
  });
});
