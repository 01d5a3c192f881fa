/** Evaluates a kept pull again for the check of the archive, in the archive's own thread: nothing is recorded meanwhile. */
import type { Archive } from '../../core/archive/archive.ts';
import type { Recompute } from '../../core/archive/check-results.ts';
import { RowDamagedError } from '../../core/archive/sql.ts';
import { evaluate } from '../../core/results/evaluate.ts';
import { evaluateTyped } from '../../core/results/evaluate-typed.ts';
import { standingOptions } from '../../core/evaluation/standing-options.ts';
import { readAnew } from './read-anew.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';

export const recomputeIn =
  (archive: Archive): Recompute =>
  ({ pullId, specimenId, options }) => {
    const read = readSpecimen(archive.getSpecimen(specimenId).specimen);
    if (!read.ok) throw new RowDamagedError(`specimen ${String(specimenId)} can't be read any more`);
    const { typed } = archive.getPull(pullId);
    const anew = readAnew(archive, pullId, options);
    const { results } =
      typed === null
        ? anew === null
          ? evaluate(archive.curve(pullId).curve, read.specimen, options)
          : evaluate(anew.curve, read.specimen, standingOptions(anew, { options }))
        : evaluateTyped(typed, read.specimen, options);
    return results.map(({ symbol, value, unit }) => ({ symbol, value, unit }));
  };
