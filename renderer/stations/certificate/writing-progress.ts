/** How far the certificate is that is being written, as main tells it; null while none is. */
import { signal } from '@preact/signals';
import type { Bridge, PageEventOf } from '../../../core/contract/bridge.ts';

export const writingStep = signal<PageEventOf<'writing'> | null>(null);

/** Returns what stops it. */
export function followWriting(bridge: Bridge): () => void {
  return bridge.on('writing', (step) => (writingStep.value = step));
}
