import { expect, it } from 'vitest';
import { examplesOfConversions } from '../../../core/self-check/examples-of-conversions.ts';
import { examplesOfRecognitions } from '../../../core/self-check/examples-of-recognitions.ts';
import { runSelfCheck } from '../../../core/self-check/self-check-case.ts';

it('recognises the faults of a record whose law is known in closed form', () => {
  const { lines } = runSelfCheck(examplesOfRecognitions);
  expect(lines.filter((line) => line.verdict !== 'agrees')).toEqual([]);
  expect(lines).toHaveLength(5);
});

it('agrees with ISO 2566 and with springs in series', () => {
  const { lines } = runSelfCheck(examplesOfConversions);
  expect(lines.filter((line) => line.verdict !== 'agrees')).toEqual([]);
  expect(lines).toHaveLength(3);
});
