/** Where one is: a station of the open pull, the archive, or the self-check. Kept over reloads, so that a window comes back to it. */
import { signal } from '@preact/signals';
import { z } from 'zod';
import { remember, remembered } from './remembered.ts';

export const STATIONS = ['set', 'specimen', 'readout', 'pull', 'fracture', 'result', 'certificate'] as const;
export type Station = (typeof STATIONS)[number];
export type Place = Station | 'archive' | 'self-check';

const KEY = 'gaugemark.place';
const placeForm = z.enum([...STATIONS, 'archive', 'self-check']);

export const place = signal<Place>('specimen');
/** The pull that is open in the archive; null shows the list. */
export const archivePullId = signal<number | null>(null);

/** Takes up the place of last time and remembers from then on. */
export function rememberPlace(): void {
  place.value = remembered<Place>(KEY, placeForm, 'specimen');
  remember(KEY, () => place.value);
}

export function goTo(where: Place): void {
  if (where === 'archive' && place.value === 'archive') archivePullId.value = null;
  place.value = where;
}
