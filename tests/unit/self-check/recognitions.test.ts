import { expect, it } from 'vitest';
import { examplesOfRecognitions } from '../../../core/self-check/examples-of-recognitions.ts';
import { runSelfCheck } from '../../../core/self-check/self-check-case.ts';

it('recognises the faults of a record whose law is known in closed form', () => {
  const { lines } = runSelfCheck(examplesOfRecognitions);
  expect(lines.filter((line) => line.verdict !== 'agrees')).toEqual([]);
  expect(lines).toHaveLength(4);
});
