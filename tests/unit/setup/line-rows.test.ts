import { expect, it } from 'vitest';
import { LINE_ROWS } from '../../app/faults/line-rows.ts';
import { testsNaming } from './names-of-tests.ts';

it('every fault of the serial line and of the meaning of numbers stands in the table', () => {
  const rows = (letter: string, count: number): string[] =>
    Array.from({ length: count }, (_, i) => `${letter}${String(i + 1)}`);
  expect(Object.keys(LINE_ROWS)).toEqual([...rows('S', 19), ...rows('N', 10)]);
});

it.each(Object.entries(LINE_ROWS))('row %s is provoked by tests that name it', (row, provoked) => {
  expect(provoked.length).toBeGreaterThan(0);
  for (const [file, test] of provoked)
    expect(testsNaming(row, file, test), `${row} in ${file}: ${test}`).not.toEqual([]);
});
