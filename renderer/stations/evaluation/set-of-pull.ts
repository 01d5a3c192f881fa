/** The newest set that a pull is in, as it says it now; null where it is in none, or the recorder does not answer. */
import type { KeptSet } from '../../../core/contract/set-requests.ts';
import { request } from '../../store/session-store.ts';

export async function newestSetOfPull(pullId: number): Promise<KeptSet['set'] | null> {
  const found = await request('set.of-specimen', { pullId });
  const place = found.ok ? found.value.places[0] : undefined;
  if (place === undefined) return null;
  const kept = await request('set.get', { setId: place.setId });
  return kept.ok ? kept.value.set : null;
}
