import fc from 'fast-check';
import { expect, it } from 'vitest';
import { tabbed } from '../../../renderer/keys/copy-rows.ts';

it('gives lines with tabs between, which a cell can’t break apart', () => {
  expect(
    tabbed([
      ['Rm', 'tensile strength', '435'],
      ['a\tb', ' c\nd '],
    ]),
  ).toBe('Rm\ttensile strength\t435\na b\tc d');
  // What somebody wrote is no formula; a number keeps its sign.
  expect(tabbed([['=1+1', '-0.0002 mm', '-2+3', '+12', '@a']])).toBe("'=1+1\t-0.0002 mm\t'-2+3\t+12\t'@a");
  fc.assert(
    fc.property(fc.array(fc.array(fc.string(), { minLength: 1 }), { minLength: 1 }), (rows) => {
      const lines = tabbed(rows).split('\n');
      expect(lines.map((line) => line.split('\t').length)).toEqual(rows.map((row) => row.length));
    }),
  );
});
