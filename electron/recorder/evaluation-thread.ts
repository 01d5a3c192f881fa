/** Evaluations in a thread of their own, one after the other: arithmetic over a long curve must hold up neither port nor commits. */
import { parentPort } from 'node:worker_threads';
import type { Curve } from '../../core/curve/curve.ts';
import { evaluate } from '../../core/results/evaluate.ts';
import type { EvaluationOptions } from '../../core/results/evaluation.ts';
import { evaluateTyped } from '../../core/results/evaluate-typed.ts';
import type { TypedValues } from '../../core/pull/typed-values.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';

export interface EvaluationTask {
  readonly curve: Curve;
  readonly specimen: unknown;
  /** Of a pull without readings, typed from the display of the frame. */
  readonly typed: TypedValues | null;
  readonly options: EvaluationOptions;
}

parentPort?.on('message', ({ curve, specimen, typed, options }: EvaluationTask) => {
  const read = readSpecimen(specimen);
  if (!read.ok) throw new Error(`a kept specimen can't be read any more: ${JSON.stringify(read.faults)}`);
  parentPort?.postMessage(
    typed === null ? evaluate(curve, read.specimen, options) : evaluateTyped(typed, read.specimen, options),
  );
});
