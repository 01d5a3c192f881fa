/** What stands on the plot of a kept pull: the break, unless a person said that it was none. */
import { expect, it } from 'vitest';
import type { KeptPull } from '../../../core/contract/pull-requests.ts';
import type { Evaluation } from '../../../core/results/evaluation.ts';
import { recordMarks } from '../../../renderer/stations/result/result-marks.ts';
import { CurveColumns } from '../../../renderer/store/curve-columns.ts';
import { en } from '../../../renderer/words/en.ts';
import { pull } from '../exchange/sample-pull.ts';
import { block } from './reading-block.ts';

const columns = new CurveColumns();
columns.append(block(0, [0, 500, 900, 1000, 5, 5]));
const evaluation = { marks: { maximumForce: 3, fracture: 3 } } as unknown as Evaluation;
const mark = (kind: 'break' | 'undo-break', seq: number): KeptPull['marks'][number] => ({
  kind,
  seq,
  elapsedUs: seq,
  cause: kind === 'break' ? 'rule' : 'person',
  words: '',
});
const signs = (marks: KeptPull['marks'], breakSeq: number | null): string[] =>
  recordMarks({ ...pull, triggerSeq: null, breakSeq, marks }, evaluation, columns, en).map(
    ({ sign }) => sign,
  );

it('shows the break where it was marked, and where only the curve tells of one', () => {
  expect(signs([mark('break', 4)], 4)).toEqual(['peak', 'break']);
  expect(signs([], null)).toEqual(['peak', 'break']);
});

it('shows none that was taken back, whatever the curve looks like', () => {
  expect(signs([mark('break', 4), mark('undo-break', 5)], null)).toEqual(['peak']);
  expect(signs([mark('break', 2), mark('undo-break', 3), mark('break', 4)], 4)).toEqual(['peak', 'break']);
});
