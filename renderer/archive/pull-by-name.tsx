/** A pull by its name, in places that look at many pulls; pressed, it opens in the archive. */
import { archivePullId, archiveView } from '../store/place.ts';

export function PullByName({ pullId, name }: { readonly pullId: number; readonly name: string }) {
  return (
    <button
      type="button"
      class="open-pull"
      onClick={() => {
        archiveView.value = 'table';
        archivePullId.value = pullId;
      }}
    >
      {name}
    </button>
  );
}
