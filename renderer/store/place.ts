/** Where one is: a station of the open pull, or the archive. Kept over reloads, so that a window comes back to it. */
import { effect, signal } from '@preact/signals';

export const STATIONS = ['specimen', 'readout', 'pull', 'fracture', 'result'] as const;
export type Station = (typeof STATIONS)[number];
export type Place = Station | 'archive';

const KEY = 'gaugemark.place';
const PLACES: readonly Place[] = [...STATIONS, 'archive'];

function remembered(): Place {
  const text = globalThis.localStorage?.getItem(KEY);
  return PLACES.find((p) => p === text) ?? 'specimen';
}

export const place = signal<Place>('specimen');
/** The pull that is open in the archive; null shows the list. */
export const archivePullId = signal<number | null>(null);

/** Takes up the place of last time and remembers from then on. */
export function rememberPlace(): void {
  place.value = remembered();
  effect(() => globalThis.localStorage?.setItem(KEY, place.value));
}

export function goTo(where: Place): void {
  if (where === 'archive' && place.value === 'archive') archivePullId.value = null;
  place.value = where;
}
