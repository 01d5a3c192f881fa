/** The way on from the result: the same that the rail calls for. */
import { stationOnCall } from '../known.ts';
import { inOpenSet } from '../set/pull-verdict.tsx';

export type FromResult = 'to-fracture' | 'to-set' | 'next-specimen';

/**
 * The one step that the sheet of the result calls for. Null while the rail calls for the pull: the tail runs, or load has
 * come back behind a marked break, and both are decided there.
 */
export function callFromResult(pullId: number): FromResult | null {
  switch (stationOnCall()) {
    case 'fracture':
      return 'to-fracture';
    case 'pull':
      return null;
    case 'set':
      return 'to-set';
    // The certificate of a set is made from the set, where all its specimens are seen once more.
    case 'certificate':
      return inOpenSet(pullId) ? 'to-set' : 'next-specimen';
    case 'specimen':
    case 'readout':
    case 'result':
      return 'next-specimen';
  }
}
