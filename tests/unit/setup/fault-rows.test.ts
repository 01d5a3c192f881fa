import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { LINE_NOT_PROVOKED, LINE_ROWS } from '../../app/faults/line-rows.ts';
import { FAULT_ROWS } from '../../app/faults/rows.ts';
import { testsNaming } from './names-of-tests.ts';

const numbered = (letter: string, count: number): string[] =>
  Array.from({ length: count }, (_, i) => `${letter}${i + 1}`);

it('every fault of storage, chart, shell and export stands in the table', () => {
  expect(Object.keys(FAULT_ROWS).sort()).toEqual(
    [...numbered('D', 15), ...numbered('C', 8), ...numbered('P', 13), ...numbered('X', 3)].sort(),
  );
});

it.each(Object.entries(FAULT_ROWS))('row %s is provoked by tests that name it', (row, { provokedBy }) => {
  expect(provokedBy.length).toBeGreaterThan(0);
  for (const [file, test] of provokedBy)
    expect(testsNaming(row, file, test), `${row} in ${file}: ${test}`).not.toEqual([]);
});

it('what no test provokes stands in DEVELOPERS.md row by row, with the reason and what the code does', () => {
  const manual = readFileSync(new URL('../../../DEVELOPERS.md', import.meta.url), 'utf8');
  const rows = manual.split('\n').map((line) => line.split('|').map((cell) => cell.trim()));
  const told = rows
    .filter(([, row = '']) => Object.hasOwn(FAULT_ROWS, row) || Object.hasOwn(LINE_ROWS, row))
    .map((cells) => cells.slice(1, 4));
  const meant = [
    ...Object.entries(LINE_NOT_PROVOKED),
    ...Object.entries(FAULT_ROWS).map(([row, { notProvoked }]) => [row, notProvoked] as const),
  ].flatMap(([row, left]) => (left === undefined ? [] : [[row, left.what, left.instead]]));
  expect(told).toEqual(meant);
});
