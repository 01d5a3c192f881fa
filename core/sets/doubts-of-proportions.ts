/** What a specimen's measurements say against it: proportions other than those that the rules of its set ask for. */
import type { Doubt } from '../acceptance/doubts.ts';
import { proportionDoubts } from '../acceptance/proportions.ts';
import type { Geometry, Specimen } from '../specimen/specimen.ts';
import type { FrozenSet, SpecimenType } from './set-form.ts';

/** A longitudinal specimen is cut by another drawing than the one that the rules name. */
const SHAPE: Readonly<Record<SpecimenType, Geometry['kind'] | null>> = {
  'transverse-flat': 'flat',
  'transverse-turned': 'round',
  'full-section-pipe': 'tube',
  'pipe-strip': 'pipe-strip',
  'all-weld-metal-round': 'round',
  longitudinal: null,
};

/** None where the specimen is not of the type that the set says: then nothing can be told. */
export function doubtsOfProportions({ form, pack }: FrozenSet, specimen: Specimen): Doubt[] {
  return SHAPE[form.specimenType] === specimen.geometry.kind ? proportionDoubts(pack, specimen) : [];
}
