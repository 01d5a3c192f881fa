import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { FAULT_ROWS } from '../../app/faults/rows.ts';

const textOf = (file: string): string => readFileSync(new URL(`../../${file}`, import.meta.url), 'utf8');
const numbered = (letter: string, count: number): string[] =>
  Array.from({ length: count }, (_, i) => `${letter}${i + 1}`);

it('every fault of storage, chart, shell and export stands in the table', () => {
  for (const row of [...numbered('D', 15), ...numbered('C', 8), ...numbered('P', 13), ...numbered('X', 3)])
    expect(FAULT_ROWS).toHaveProperty(row);
});

it('every row names a test that is there, or says why there is none', () => {
  for (const [row, { provokedBy, notProvoked }] of Object.entries(FAULT_ROWS)) {
    if (provokedBy.length === 0) expect(notProvoked, row).toBeDefined();
    for (const [file, test] of provokedBy) expect(textOf(file), `${row} in ${file}`).toContain(test);
  }
});
