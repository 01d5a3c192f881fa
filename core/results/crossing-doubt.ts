/** Why a strength at a crossing can't be given, or what has to be said beside it: the same for Rp and Rt. */
import { type EvaluatedRecord, stepsUntil } from './evaluated-record.ts';
import { FROM_TRAVEL } from './record-columns.ts';
import { slopeOfMetals } from './slope-of-metals.ts';
import { stepsMoved } from './step-shift.ts';
import { type Crossing, type CrossingInput, tooFarApart } from './strain-crossing.ts';

export type CrossingDoubt =
  | { readonly code: string; readonly reason: string }
  | { readonly code: null; readonly remarks: readonly string[] };

/** Looks at the readings beside the crossing, at faults of the load and slips of the extension until there. */
export function crossingDoubt(
  record: EvaluatedRecord,
  input: CrossingInput,
  crossing: Crossing,
): CrossingDoubt {
  const apart = tooFarApart(input.stress, crossing);
  if (apart !== null) return { code: 'readings-too-far-apart', reason: apart };
  const still = record.loadFaults.find(
    (f) => f.from <= crossing.index && (f.kind === 'steps' || crossing.beforeIndex <= f.to),
  );
  if (still !== undefined) return { code: 'load-fault', reason: `Before it or there, ${still.clause}.` };
  const moved = stepsMoved(input, crossing, stepsUntil(record, crossing.index));
  if (moved?.tooFar === true) return { code: 'extension-jumped', reason: moved.sentence };
  const fromTravel = record.columns.strainSource?.channel === 'travel';
  const metals = fromTravel || record.line === null ? null : slopeOfMetals(record.line);
  return {
    code: null,
    remarks: [
      ...(moved === null ? [] : [moved.sentence]),
      ...(fromTravel ? [`Strain is ${FROM_TRAVEL}.`] : []),
      ...(metals?.none === true ? [metals.sentence] : []),
    ],
  };
}
