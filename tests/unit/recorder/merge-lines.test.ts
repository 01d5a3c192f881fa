/** Of a large merge not every pull is listed; a conflict always is before one that needs nobody. */
import { expect, it } from 'vitest';
import type { MergeLine } from '../../../core/contract/exchange-requests.ts';
import { MergeLines } from '../../../electron/recorder/merge-lines.ts';

const line = (pullIdThere: number, fate: MergeLine['fate']): MergeLine => ({
  pullIdThere,
  specimenName: `T-${String(pullIdThere)}`,
  fate,
  pullIdHere: null,
  words: '',
});

it('lists conflicts that come after more pulls than it lists, and counts on in the order of the pulls', () => {
  const lines = new MergeLines(4);
  for (let id = 1; id <= 6; id++) lines.add(line(id, id === 2 ? 'conflict' : 'taken'));
  lines.add(line(7, 'conflict'));
  lines.add(line(8, 'here-already'));
  lines.add(line(9, 'conflict'));
  expect(lines.all.map(({ pullIdThere }) => pullIdThere)).toEqual([1, 2, 7, 9]);
  for (let id = 10; id <= 12; id++) lines.add(line(id, 'conflict'));
  expect(lines.all.map(({ pullIdThere, fate }) => [pullIdThere, fate])).toEqual([
    [2, 'conflict'],
    [7, 'conflict'],
    [9, 'conflict'],
    [10, 'conflict'],
  ]);
});
