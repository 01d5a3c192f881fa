/** What stands on the plot of a kept pull: the break, unless a person said that it was none. */
import { expect, it } from 'vitest';
import type { KeptPull } from '../../../core/contract/pull-requests.ts';
import type { Evaluation } from '../../../core/results/evaluation.ts';
import { offsetLinesOf, recordMarks } from '../../../renderer/stations/result/result-marks.ts';
import { CurveColumns } from '../../../renderer/store/curve-columns.ts';
import { en } from '../../../renderer/words/en.ts';
import { numberForm } from '../../../renderer/numbers/number-form.ts';
import { es } from '../../../renderer/words/es.ts';
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

it('names it otherwise than the mark that was set while the record was made: they are two readings', () => {
  const [, fracture] = recordMarks(
    { ...pull, triggerSeq: null, breakSeq: 4, marks: [mark('break', 4)] },
    evaluation,
    columns,
    en,
  );
  // ISO 6892-1 speaks of the fracture; the mark stands on the first reading behind it.
  expect(fracture).toMatchObject({ sign: 'break', reading: 3, label: 'fracture' });
  for (const { plot } of [en, es]) expect(plot.breakMarked).not.toBe(plot.fracture);
});

it('shows none that was taken back, whatever the curve looks like', () => {
  expect(signs([mark('break', 4), mark('undo-break', 5)], null)).toEqual(['peak']);
  expect(signs([mark('break', 2), mark('undo-break', 3), mark('break', 4)], 4)).toEqual(['peak', 'break']);
});

it('draws the offset line of each proof strength at its own offset, through the strength that it gives', () => {
  // A line of 200 000 MPa from zero strain; length 50 mm, section 10 mm².
  const worked = {
    slope: { footStrain: 0, slopeMpa: 200_000 },
    strain: { channel: 'extension', lengthMm: 50 },
    areaMm2: 10,
    marks: { proof: 2 },
    proofs: [
      { offsetPercent: 0.1, stressMpa: 300 },
      { offsetPercent: 0.5, stressMpa: 400 },
    ],
  } as unknown as Evaluation;
  const lines = offsetLinesOf(worked, columns, 10_000, 'SI', en);
  expect(lines.map(({ words }) => words)).toEqual(['offset 0.1 %', 'offset 0.5 %']);
  numberForm.value = 'comma';
  expect(offsetLinesOf(worked, columns, 10_000, 'SI', es)[0]?.words).toBe('paralela al 0,1 %');
  numberForm.value = 'language';
  const [first] = lines;
  if (first === undefined) throw new Error('the lines are there');
  expect([first.x1, first.y1]).toEqual([0.05, 0]);
  // At 300 MPa the line stands at 0.0015 + 0.001 of 50 mm, under 3 kN.
  const slopeKnPerMm = first.y2 / (first.x2 - 0.05);
  expect(0.05 + 3 / slopeKnPerMm).toBeCloseTo(0.125, 9);
  expect(offsetLinesOf(null, columns, 10_000, 'SI', en)).toEqual([]);
});
