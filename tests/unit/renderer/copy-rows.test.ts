import fc from 'fast-check';
import { readFileSync, readdirSync } from 'node:fs';
import { expect, it } from 'vitest';
import { tabbed } from '../../../renderer/keys/copy-rows.ts';
import { type TableCell, reckonableCells } from '../../../renderer/keys/reckonable-cells.ts';
import { fixed } from '../../../renderer/numbers/format.ts';

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

/** Signs of a source between the region and its table. */
const REGION_WITHIN = 400;

const cell = (text: string, role: TableCell['role'] = 'value', rowSpan = 1): TableCell => ({
  text,
  role,
  rowSpan,
  colSpan: 1,
});
const heads = (...texts: string[]): TableCell[] => texts.map((text) => cell(text, 'head'));
const copied = (rows: TableCell[][]): string[][] =>
  tabbed(reckonableCells(rows, 'Unit'))
    .split('\n')
    .map((line) => line.split('\t'));

it('gives each number alone, without groups, with its unit in the head', () => {
  expect(
    copied([
      heads('Point', 'Reading', 'Load', 'Extension, mm'),
      [cell('Fm', 'name'), cell('12\u202f345'), cell('5\u202f445.4 lbf'), cell('−0.350 mm')],
      [cell('break', 'name'), cell('7'), cell('–'), cell('4,625 mm')],
    ]),
  ).toEqual([
    ['Point', 'Reading', 'Load, lbf', 'Extension, mm'],
    ['Fm', '12345', '5445.4', '-0.350'],
    ['break', '7', '–', '4,625'],
  ]);
  fc.assert(
    fc.property(fc.double({ min: -1e9, max: 1e9, noNaN: true }), fc.nat({ max: 6 }), (value, places) => {
      const [, line] = copied([heads('Load'), [cell(`${fixed(value, places, 'en')} kN`)]]);
      expect(Number(line?.[0])).toBeCloseTo(value, Math.max(0, places - 1));
    }),
  );
});

it('gives the units of a column a cell of their own where they differ or the table has no head', () => {
  expect(
    copied([
      heads('Pull', 'Result', 'Before'),
      [cell('3 N', 'name', 2), cell('Rm'), cell('435.5 MPa')],
      [cell('A'), cell('31.0 %')],
      [cell('K-2', 'name'), cell('n'), cell('0.21')],
    ]),
  ).toEqual([
    ['Pull', 'Result', 'Before', 'Unit'],
    ['3 N', 'Rm', '435.5', 'MPa'],
    // A name over two rows stands in both, so that no column is shifted.
    ['3 N', 'A', '31.0', '%'],
    ['K-2', 'n', '0.21', ''],
  ]);
  expect(copied([[cell('rate', 'name'), cell('0.25 1/s')]])).toEqual([['rate', '0.25', '1/s']]);
  // What is no unit is part of the text; a wide cell fills its place.
  expect(copied([heads('A', 'B'), [{ ...cell('3 specimens'), colSpan: 2 }]])).toEqual([
    ['A', 'B'],
    ['3 specimens', ''],
  ]);
});

it('finds every table of the page by the keys alone: in a region that takes the focus, or folded under what does', () => {
  const renderer = new URL('../../../renderer/', import.meta.url);
  const sources = readdirSync(renderer, { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.tsx'),
  );
  const found = sources.flatMap((name) => {
    const text = readFileSync(new URL(name, renderer), 'utf8');
    return [...text.matchAll(/<table/g)].map(({ index }) => ({
      name,
      before: text.slice(Math.max(0, index - REGION_WITHIN), index),
    }));
  });
  expect(found.length).toBeGreaterThan(15);
  expect(
    found
      .filter(({ before }) => !/<TableScroll|tabIndex=\{0\}[^<]*aria-label|<summary>/s.test(before))
      .map(({ name }) => name),
  ).toEqual([]);
});
