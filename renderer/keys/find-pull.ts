/** The archive's list with the cursor in its search. */
import { drawnAtOnce } from '../design/drawn-at-once.ts';
import { archivePullId, archiveView, goTo } from '../store/place.ts';

export function findPull(): void {
  drawnAtOnce(() => {
    goTo('archive');
    archivePullId.value = null;
    archiveView.value = 'table';
  });
  document.getElementById('archive-search')?.focus();
}
