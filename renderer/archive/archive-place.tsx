/** The archive: find a pull, open it beside the table, see curve and result exactly as they were stored. */
import { useEffect, useRef } from 'preact/hooks';
import { AgainPlace } from '../again/again-place.tsx';
import { OverlayPlace } from '../overlay/overlay-place.tsx';
import { TrendPlace } from '../trend/trend-place.tsx';
import { ExchangeSheets } from '../exchange/exchange-sheets.tsx';
import { exchangeView } from '../exchange/exchange-view.ts';
import { archivePullId, archiveView } from '../store/place.ts';
import { ArchiveList } from './archive-list.tsx';
import { ArchivedPull } from './archived-pull.tsx';
import '../stations/station.css';
import './archive-place.css';

export function ArchivePlace() {
  const pullId = archivePullId.value;
  const before = useRef(pullId);
  useEffect(() => {
    // Back from a pull the keys go on in the table, where they were.
    if (pullId === null && before.current !== null && document.activeElement === document.body)
      document.getElementById('found-pulls')?.focus();
    before.current = pullId;
  }, [pullId]);
  const view = archiveView.value;
  const viewBefore = useRef(view);
  useEffect(() => {
    // Back from looking at many the keys go on in the table too.
    if (view === 'table' && viewBefore.current !== 'table' && document.activeElement === document.body)
      document.getElementById('found-pulls')?.focus();
    viewBefore.current = view;
  }, [view]);
  if (view === 'overlay') return <OverlayPlace />;
  if (view === 'trend') return <TrendPlace />;
  if (view === 'again') return <AgainPlace />;
  if (exchangeView.value !== null && pullId === null) return <ExchangeSheets />;
  return (
    <div class={pullId === null ? 'archive-place' : 'archive-place opened'}>
      <ArchiveList narrow={pullId !== null} />
      {pullId === null ? null : <ArchivedPull key={pullId} pullId={pullId} />}
    </div>
  );
}
