/** `gaugemark learn --channel`: what a person says about fields, and how it can be wrong. */
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

  it('is proposed where a field is open, and said to be needed for a pull', async () => {
    const { out } = await ran('learn', '--bytes', file('b.txt', BYTES));
    expect(out).toContain('--channel 2=force:N --channel 3=extension:mm');
    expect(out).toContain('"gaugemark pull" needs a field that is the force.');
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
