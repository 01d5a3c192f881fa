/** The fracture as a person noted it, in the words that rules ask for. */
import { FRACTURE_PLACES, type FractureNote as NotedFracture } from '../contract/record.ts';
import type { Doubt } from './doubts.ts';
import { doubtsOfMark } from './fracture-details.ts';
import {
  APPEARANCES,
  type FractureAppearance,
  type FractureLocation,
  type FractureNote,
} from './fracture.ts';

const LOCATION: Readonly<Record<NotedFracture['place'], FractureLocation | null>> = {
  'weld-metal': 'weld-metal',
  'fusion-line': 'fusion-line',
  'heat-affected-zone': 'heat-affected-zone',
  'base-metal': 'base-metal',
  'outside-gauge-marks': 'outside-gauge',
  'in-grips': 'grips',
  'not-told': null,
};

/** An appearance in a person's own words counts where it is one of the words that rules know. */
export function fractureOfNote({
  place,
  appearance,
  soundness,
  baseMetal,
  atMark,
}: NotedFracture): FractureNote {
  const broke = LOCATION[place];
  const known = APPEARANCES.find((word): word is FractureAppearance => word === appearance?.trim());
  return {
    ...(broke === null ? {} : { broke }),
    ...(known === undefined ? {} : { appearance: known }),
    ...(soundness === undefined ? {} : { soundness }),
    ...(atMark === 'gauge-mark' ? { atGaugeMark: true } : {}),
    ...(baseMetal === undefined || place !== 'base-metal' ? {} : { brokenBaseMetal: baseMetal - 1 }),
  };
}

export const doubtsOfNote = ({ atMark }: NotedFracture): Doubt[] => doubtsOfMark(atMark);

/** The place of a note that a rule's word means. */
export function placeOfLocation(location: FractureLocation): NotedFracture['place'] {
  const place = FRACTURE_PLACES.find((one) => LOCATION[one] === location);
  if (place === undefined) throw new Error(`no place is noted as ${location}`);
  return place;
}
