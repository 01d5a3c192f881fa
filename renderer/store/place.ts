/** Where one is: a station of the open pull, the archive, or the self-check. Kept over reloads, so that a window comes back to it. */
import { signal } from '@preact/signals';
import { z } from 'zod';
import { remember, remembered } from './remembered.ts';

export const STATIONS = ['set', 'specimen', 'readout', 'pull', 'fracture', 'result', 'certificate'] as const;
export type Station = (typeof STATIONS)[number];
export const PLACES = [...STATIONS, 'archive', 'instruments', 'people', 'self-check'] as const;
export type Place = (typeof PLACES)[number];

const KEY = 'gaugemark.place';
const placeForm = z.enum(PLACES);

export const place = signal<Place>('specimen');
/** The pull that is open in the archive; null shows the list. */
export const archivePullId = signal<number | null>(null);
/** What the archive shows of what was found: the table, curves over each other, results over time, evaluated again. */
export type ArchiveView = 'table' | 'overlay' | 'trend' | 'again';
export const archiveView = signal<ArchiveView>('table');

/** Takes up the place of last time and remembers from then on. */
export function rememberPlace(): void {
  place.value = remembered<Place>(KEY, placeForm, 'specimen');
  remember(KEY, () => place.value);
}

export function goTo(where: Place): void {
  if (where === 'archive' && place.value === 'archive') {
    archivePullId.value = null;
    archiveView.value = 'table';
  }
  place.value = where;
}
