/** Which sheet for taking pulls elsewhere or bringing them in lies over the archive's table. */
import { signal } from '@preact/signals';
import { archivePullId, goTo, place } from '../store/place.ts';

export type ExchangeView = 'import' | 'merge' | 'restore' | 'results' | 'elsewhere' | 'split';

export const exchangeView = signal<ExchangeView | null>(null);

export function openExchange(view: ExchangeView): void {
  archivePullId.value = null;
  exchangeView.value = view;
  goTo('archive');
}

export const closeExchange = (): void => {
  exchangeView.value = null;
};

/** The archive as one left it; from within it, its list, whatever lies over that. */
export function goToArchive(): void {
  if (place.value === 'archive') closeExchange();
  goTo('archive');
}
