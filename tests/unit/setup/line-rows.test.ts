import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { LINE_ROWS } from '../../app/faults/line-rows.ts';

const textOf = (file: string): string => readFileSync(new URL(`../../${file}`, import.meta.url), 'utf8');

it('every fault of the serial line and of the meaning of numbers stands in the table', () => {
  const rows = (letter: string, count: number): string[] =>
    Array.from({ length: count }, (_, i) => `${letter}${String(i + 1)}`);
  expect(Object.keys(LINE_ROWS)).toEqual([...rows('S', 19), ...rows('N', 10)]);
});

it.each(Object.entries(LINE_ROWS))('row %s is provoked by tests that name it', (row, provoked) => {
  expect(provoked.length).toBeGreaterThan(0);
  for (const [file, test] of provoked) {
    // In the line of a test's name, and the row stands there.
    const names = textOf(file)
      .split('\n')
      .filter((line) => line.includes(test) && /\b(?:it|describe|each)\b|'|`/.test(line));
    expect(names, `${row} in ${file}: ${test}`).not.toEqual([]);
    expect(names.some((line) => new RegExp(`\\b${row}\\b`).test(line))).toBe(true);
  }
});
