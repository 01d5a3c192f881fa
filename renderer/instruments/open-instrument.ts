/** What is open on the page of instruments. */
import { signal } from '@preact/signals';
import type { ReplyOf } from '../../core/contract/index.ts';
import { errand } from '../store/errand.ts';
import { request } from '../store/session-store.ts';

export type InstrumentHistory = ReplyOf<'instrument.get'>;

/** Number of the instrument that is looked at; null shows the list. */
export const openInstrument = signal<number | null>(null);
export const history = signal<InstrumentHistory | null>(null);
export const looking = errand();

/** Reads the open instrument again, after something was entered. */
export async function readHistory(): Promise<void> {
  const instrumentId = openInstrument.value;
  if (instrumentId === null) {
    history.value = null;
    return;
  }
  const read = await looking.run(() => request('instrument.get', { instrumentId }));
  if (read !== null && openInstrument.value === instrumentId) history.value = read;
}

export async function lookAt(instrumentId: number | null): Promise<void> {
  openInstrument.value = instrumentId;
  history.value = null;
  await readHistory();
}
