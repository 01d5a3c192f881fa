/** A pull by its name, in places that look at many pulls; pressed, it opens in the archive. */
import { archivePullId, archiveView } from '../store/place.ts';

/** In the archive, in place of what looks at many. */
export function openPull(pullId: number): void {
  archiveView.value = 'table';
  archivePullId.value = pullId;
}

export function PullByName({ pullId, name }: { readonly pullId: number; readonly name: string }) {
  return (
    <button type="button" class="open-pull" onClick={() => openPull(pullId)}>
      {name}
    </button>
  );
}
