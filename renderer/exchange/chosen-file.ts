/** A file or folder that a person chooses in the system's own dialog. */
import type { PageRequestOf } from '../../core/contract/bridge.ts';
import type { ChosenFile } from '../../core/contract/file-requests.ts';
import type { Errand } from '../store/errand.ts';
import { request } from '../store/session-store.ts';

/** Null where nothing was chosen, or the errand has another request under way or failed. */
export async function chosenFile(
  errand: Errand,
  what: PageRequestOf<'window.choose-file'>['what'],
): Promise<ChosenFile | null> {
  return (await errand.run(() => request('window.choose-file', { what })))?.file ?? null;
}
